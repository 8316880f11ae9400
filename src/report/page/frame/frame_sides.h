/* The views of a frame: from the side, from above, from the front, at an angle, and one from any direction. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_SIDES_H
#define RAILBOW_REPORT_PAGE_FRAME_SIDES_H

#include "report/page/frame/frame_paper.h"

enum { FRAME_SIDE, FRAME_TOP, FRAME_FRONT, FRAME_ANGLE, FRAME_SIDES };

/* Draws on the paper of a view. */
typedef void frame_put(const frame_paper *v, const void *context);

/* Figures of `count` sides from `first` on. Given: m  with a tube of some length */
void frame_sides_put(text *out, const frame_model *m, size_t first, size_t count, frame_put *put, const void *context);

/* The figure of a view from any direction, on a square that keeps its size. */
void frame_turned_put(text *out, const frame_model *m, frame_direction from, frame_put *put, const void *context);

#endif
