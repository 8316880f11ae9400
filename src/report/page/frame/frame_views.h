/* The drawings of a frame: from the side, from above, from the front and at an angle. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_VIEWS_H
#define RAILBOW_REPORT_PAGE_FRAME_VIEWS_H

#include "table/text.h"
#include "working/frame_picture.h"

/* How near to its limit a tube comes in any run: the line that draws it. */
typedef enum frame_class { FRAME_SHORT, FRAME_CLOSE, FRAME_EASY, FRAME_NOT_JUDGED, FRAME_CLASSES } frame_class;

frame_class frame_class_of(const frame_answers *a, size_t tube); /* below `judged` */

/* The four views with the key to their lines. */
void frame_views(text *out, const frame_answers *a, const frame_picture *p, unit_system units);

/* The view at an angle alone. */
void frame_view_at_an_angle(text *out, const frame_answers *a, const frame_picture *p, unit_system units);

#endif
