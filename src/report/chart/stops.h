/* Places of a chart whose values everybody reaches without a script: with a pointer, a finger, or the Tab key. The style sheet shows
 * the words of the stop that has the pointer or the focus, and prints none. A drawing with stops begins with chart_open_stops. */
#ifndef RAILBOW_REPORT_CHART_STOPS_H
#define RAILBOW_REPORT_CHART_STOPS_H

#include "report/chart/chart.h"

enum { CHART_TABS_MOST = 12, CHART_STRIPS_MOST = 192 }; /* CHART_TABS_MOST: of one line that the Tab key reaches */

/* An SVG whose parts can have the focus, and the name that a screen reader says. */
void chart_open_stops(text *out, double width, double height, const char *name);

/* A stop says its words beside it; a line break (\n) begins a new line of them. tab: the Tab key reaches it, too. */

/* Round a place of the drawing. */
void chart_stop_round(text *out, double x, double y, double radius, const char *words, bool tab);

/* Round a point of the chart; nothing outside the plot. */
void chart_stop(const chart *c, double x, double y, const char *words, bool tab);

typedef struct chart_box {
    double left, top, width, height; /* in the drawing's units */
} chart_box;

/* Over a part of the drawing: a bar, a row. */
void chart_stop_box(text *out, chart_box box, const char *words, bool tab);

typedef struct chart_strip {
    double x;       /* on the chart's axis */
    double y;       /* where its dot is; NaN or outside the plot: it has none */
    text words;
    bool tab;
} chart_strip;

/* Upright strips over the whole plot, and over the plot `below` it (NULL: none) with the same x axis: one meets the stop of the nearest
 * place wherever the pointer is. Each carries its place as data-x. Given: strips  x ascending; one outside the plot is left out */
void chart_strips(const chart *c, const chart *below, const chart_strip strips[], size_t count);

/* The plot of a chart as a rectangle that cannot be seen: with its place on the drawing and the ranges of its axes, a script can lay
 * one chart on another. */
void chart_plot(const chart *c);

/* The places of a line that the Tab key reaches, CHART_TABS_MOST at most: its ends, its least value, both sides of where it crosses
 * `limit` (of the first four crossings), and the place nearest to `now` (NaN: none).
 * Given: x ascending. Returned: notable[], one for each place */
void chart_notable(const double x[], const double y[], size_t count, double limit, double now, bool notable[]);

#endif
