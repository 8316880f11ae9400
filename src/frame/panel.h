/* A stretch of a path, on which states are interpolated between Chebyshev's points. Toward an end the points are even in x,
 * factor = end (1 - exp(-x)): what grows there like a pole or turns like a root is smooth in x. Without an end x is the factor.
 * Source: Trefethen, Approximation Theory and Approximation Practice, 2013, ch. 5 (barycentric formula). */
#ifndef RAILBOW_FRAME_PANEL_H
#define RAILBOW_FRAME_PANEL_H

#include "frame/path.h"

typedef struct panel { /* in x, at the nodes and as load factor there */
    double from, to, end;
    double node[NODES], factor[NODES];
} panel;

/* Given: from, to  in x; end  load factor, INFINITY for none */
panel rbow_panel_of(double from, double to, double end);

double rbow_panel_x(double factor, double end);

/* Barycentric weights at x of every `stride`-th node; 0 for the others. */
void rbow_panel_weights(const panel *p, double x, int stride, double weight[NODES]);

#endif
