/* The details of a tube on its drawing. */
#ifndef RAILBOW_REPORT_PAGE_TUBE_MARKS_H
#define RAILBOW_REPORT_PAGE_TUBE_MARKS_H

#include "table/text.h"
#include "working/picture.h"

/* The marks of the picture along the drawn axis. Given: left, width  of the tube on the drawing; y: of its axis */
void page_marks(text *out, const picture *p, double left, double width, double y);

/* Their names, for the words under the drawing: " Details: 1 line hole, 2 splice (short)."; nothing where there is none. */
void page_mark_list(text *out, const picture *p);

#endif
