/* A value over two others: bands, contours and hatching on a chart. */
#ifndef RAILBOW_REPORT_CHART_CONTOUR_H
#define RAILBOW_REPORT_CHART_CONTOUR_H

#include "report/chart/chart.h"

typedef struct chart_field { /* values on a grid of columns and rows, at least two of each; linear between them */
    size_t columns, rows;
    double (*x)(const void *context, size_t column); /* ascending */
    double (*y)(const void *context, size_t row);    /* ascending */
    double (*value)(const void *context, size_t column, size_t row); /* NaN: not known, nothing is drawn around it */
    const void *context;
} chart_field;

/* Where the value is from `low` to `high`, either of which may be infinite. */
void chart_band(const chart *c, const chart_field *f, double low, double high, const char *style);

/* The line between what is under a level and what is not. Returned: whether there is any. */
bool chart_contour(const chart *c, const chart_field *f, double level, const char *style);

/* Strokes over all that is under a level. */
void chart_hatch(const chart *c, const chart_field *f, double level, const char *style);

typedef struct chart_taken { /* places of the names on the lines of one chart; begins as {0} */
    double x[CHART_LABELS_MOST], y[CHART_LABELS_MOST];
    size_t count;
} chart_taken;

/* Words on the line of a level, where there is most room; none where there is too little. */
void chart_contour_name(const chart *c, const chart_field *f, double level, const char *words, const char *style,
                        chart_taken *taken);

#endif
