/* The rows of one case of a sweep: its line over the varied column, and its figure. */
#ifndef RAILBOW_REPORT_PAGE_SWEEP_CASE_H
#define RAILBOW_REPORT_PAGE_SWEEP_CASE_H

#include "cases/sweep_table.h"
#include "report/chart/chart.h"
#include "table/unit.h"

enum { SWEEP_LEFT = 44 }; /* of the plots */

typedef struct sweep_run { /* the rows of one case, in the order of the varied column */
    const sweep_row *rows;
    size_t count;
    const field *column;
    size_t varied; /* which of row.value */
    unit_system units;
    bool inches;   /* its values are fractions of an inch */
    bool many;     /* stops at all values that can be told apart, not at the notable ones alone */
    double low, high, most; /* least and largest margin of all cases, and the largest load factor: one scale for all charts */
} sweep_run;

/* The varied column in the unit shown. */
double sweep_varied_at(const sweep_run *r, size_t i);

/* One answer over the column, a member of sweep_row; broken where a value was refused. What has no limit goes out at the top. */
void sweep_line(const chart *c, const sweep_run *r, size_t offset, double times, const char *style);

/* "miss_a 0.250 in (1/4)", and the margin there on a second line. */
void sweep_place(text *words, const sweep_run *r, size_t i);

/* Margin and load factors. */
void sweep_case(text *out, const sweep_run *r);

#endif
