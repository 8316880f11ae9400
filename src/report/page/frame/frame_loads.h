/* Loads and supports on the drawings of a frame. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_LOADS_H
#define RAILBOW_REPORT_PAGE_FRAME_LOADS_H

#include "table/text.h"
#include "working/frame_picture.h"

typedef struct frame_paper { /* one view */
    text *out;
    double right[RBOW_AXES], up[RBOW_AXES]; /* directions of the paper in the frame */
    double left, top, scale, high;         /* of the drawing; drawing units an inch */
} frame_paper;

static inline double dot(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* Where a place of the frame stands on the drawing. */
void frame_on_paper(const frame_paper *v, const double at[RBOW_AXES], double *x, double *y);

/* The forces of a run and those of the supports as arrows; their lengths go with the root of the force. */
void frame_loads_put(const frame_paper *v, const frame_answers *a, size_t run);

/* The scale of the arrows in words, and what they do not show. */
void frame_loads_caption(text *out, const frame_answers *a, size_t run, unit_system units);

#endif
