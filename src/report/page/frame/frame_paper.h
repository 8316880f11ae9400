/* The paper on which a frame is drawn: every view is orthographic, seen from far away. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_PAPER_H
#define RAILBOW_REPORT_PAGE_FRAME_PAPER_H

#include "table/text.h"
#include "working/frame_picture.h"

typedef struct frame_paper { /* one view */
    text *out;
    double right[RBOW_AXES], up[RBOW_AXES], toward[RBOW_AXES]; /* directions of the paper in the frame; toward: to the viewer */
    double left, top, scale, high;         /* of the drawing; drawing units an inch */
} frame_paper;

static inline double dot(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* The directions of a view:
 *     right  = ( cos a,         sin a,        0     )
 *     up     = (-sin a sin e,   cos a sin e,  cos e )
 *     toward = ( sin a cos e,  -cos a cos e,  sin e ) = right x up
 * Source: a turn by the azimuth a about z, then one by the elevation e about `right`. */
void frame_paper_turn(frame_paper *v, frame_direction from);

/* The view with every joint on it, as large as the figure lets it. Given: m  with a tube of some length */
frame_paper frame_paper_for(text *out, const frame_model *m, frame_direction from);

/* The same on a square that holds the frame from every direction, so that it keeps its size while it turns. */
frame_paper frame_paper_square(text *out, const frame_model *m, frame_direction from);

/* Where a place of the frame stands on the drawing. */
void frame_on_paper(const frame_paper *v, const double at[RBOW_AXES], double *x, double *y);

/* The tubes in the order in which they are drawn so that near ones lie over far ones, by the middle of each.
 * Returned: places in the model, to be freed; NULL where memory ran out */
size_t *frame_far_first(const frame_paper *v, const frame_model *m);

#endif
