/* Shapes of a drawing to scale: outlines, what lies of them in a window, hatches, and dimensions. Positions are in the drawing's units, x
 * to the right and y down, but where an outline is said to be in inches. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SHAPES_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SHAPES_H

#include "table/text.h"

#include <stdbool.h>

typedef struct spot {
    double x, y;
} spot;

enum { OUTLINE_MOST = 400 };

typedef struct outline { /* closed */
    spot at[OUTLINE_MOST];
    size_t count;
} outline;

typedef struct window {
    double left, top, right, bottom;
} window;

/* Beyond OUTLINE_MOST nothing is added. */
void outline_add(outline *o, double x, double y);

outline outline_of_box(double left, double top, double right, double bottom);

/* The part of a convex outline that lies in a window; none: count 0. */
outline outline_within(const outline *o, const window *w);

/* The outline, drawn; and lines across it at an angle (rad), `gap` apart. Styles are classes of the style sheet. */
void draw_outline(text *out, const outline *o, const char *style);
void draw_hatch(text *out, const outline *o, double angle, double gap, const char *style);

void draw_line(text *out, spot from, spot to, const char *style);
void draw_circle(text *out, spot middle, double radius, const char *style);

/* A filled head at `tip`, away from `from`. */
void draw_head(text *out, spot from, spot tip);

/* A dimension with two heads, and its words: over its middle, or behind its end where they are longer than it is; beside an upright one,
 * above the middle of one that is long and crosses the axis. Where it is too short for two heads, they point at it
 * from outside. */
void draw_dimension(text *out, spot from, spot to, const char *words);

#endif
