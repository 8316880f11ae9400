/* A value round the clock. */
#ifndef RAILBOW_REPORT_CHART_POLAR_H
#define RAILBOW_REPORT_CHART_POLAR_H

#include "report/chart/chart.h"

typedef struct chart_polar { /* clocks in radians, 0 up, clockwise */
    text *out;
    double x, y, radius; /* the middle and the rim, in the drawing's units */
    double low, high;    /* the values in the middle and at the rim */
} chart_polar;

/* Where a value stands on the drawing; what is beyond the rim or the middle stands there. */
void chart_polar_place(const chart_polar *p, double clock, double value, double *x, double *y);

/* Spokes, rings at round values with their numbers, and the clock's degrees. */
void chart_polar_axes(const chart_polar *p);
void chart_polar_ring(const chart_polar *p, double value, const char *style);

/* A closed line through evenly spaced clocks from 0 on; a NaN breaks it. */
void chart_polar_line(const chart_polar *p, const double values[], size_t count, const char *style);
void chart_polar_stop(const chart_polar *p, double clock, double value, const char *words, bool tab);
void chart_polar_point(const chart_polar *p, double clock, double value, const char *style);

#endif
