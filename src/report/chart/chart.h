/* Charts as inline SVG: axes, lines, areas, bars, points, and labels that stand at what they name.
 *
 * Positions on a drawing are in its own units, x to the right and y down. Looks come from the page's style sheet:
 * a style is the name of one of its classes. Nothing is drawn outside the plot of a chart but ticks and labels. */
#ifndef RAILBOW_REPORT_CHART_CHART_H
#define RAILBOW_REPORT_CHART_CHART_H

#include "table/text.h"

#include <stdbool.h>

typedef struct chart {
    text *out;
    double left, top, width, height; /* the plot, in the drawing's units */
    double x_low, x_high, y_low, y_high;
    bool inches; /* x is in inches and has ticks at halves, quarters, eighths ... of one, where these are close enough */
} chart;

enum { CHART_WIDTH = 360 }; /* the drawing units across every chart */

enum { CHART_TICKS_MOST = 16, CHART_LABELS_MOST = 16, CHART_TICK_ROOM = 48 };

typedef struct chart_ticks {
    double at[CHART_TICKS_MOST];
    size_t count;
    double step;
    int decimals; /* that the step needs */
} chart_ticks;

/* Round places (1, 2 or 5 times a power of ten) in [low, high], at most `most` (2 ... CHART_TICKS_MOST) of them. */
chart_ticks chart_ticks_in(double low, double high, size_t most);

/* The next round place at or above `high`: where an axis that begins at 0 ends well. */
double chart_round_up(double high, size_t most);

/* About how wide a text is drawn, in the drawing's units. */
double chart_text_width(const char *string);

/* Moves places apart until they are `gap` from each other and inside [low, high], in their order, as little as it
 * takes. Given: at, ascending; (count - 1) gap fits. */
void chart_spread(double at[], size_t count, double gap, double low, double high);

/* An SVG with its title, which a screen reader says, and a longer description ("" for none). */
void chart_open(text *out, double width, double height, const char *title, const char *description);
void chart_close(text *out);

/* Where a value stands on the drawing. */
double chart_x(const chart *c, double x);
double chart_y(const chart *c, double y);

/* Grid lines, numbers (three at least) and the axis' name ("" for none). */
void chart_axis_x(const chart *c, const char *name);
void chart_axis_y(const chart *c, const char *name);

/* A line through points, cut off at the plot's border; a NaN breaks it. */
void chart_line(const chart *c, const double x[], const double y[], size_t count, const char *style);

/* The same in a drawing of its own units. */
void chart_path(text *out, const double x[], const double y[], size_t count, const char *style);

/* From one value to another along x, `thick` around a place on the drawing. */
void chart_bar(const chart *c, double from, double to, double middle, double thick, const char *style);

void chart_point(const chart *c, double x, double y, const char *style);
void chart_upright(const chart *c, double x, const char *style); /* a line over the plot's whole height */

/* Words on a drawing; anchor: start, middle or end. */
void chart_words(text *out, double x, double y, const char *anchor, const char *style, const char *words);

typedef struct chart_label {
    double y; /* a value on the chart's axis */
    const char *words, *style;
} chart_label;

/* Labels right of the plot, each at its value as near as the others let it. */
void chart_labels(const chart *c, chart_label labels[], size_t count);

typedef struct chart_name {
    double x, y; /* a point on the chart */
    const char *words, *style;
} chart_name;

enum { CHART_NAMES_MOST = 64 };

/* Names beside their points, above, below, right or left, where neither another name nor a point is; the first come
 * first, and one that finds no room is left out. count: beyond CHART_NAMES_MOST none is named. */
void chart_names(const chart *c, const chart_name names[], size_t count);

/* A number of an axis, blanks between groups of three digits: 29 000; very large and very small ones as 2e+07. */
void chart_tick_words(char words[CHART_TICK_ROOM], double value, int decimals);

#endif
