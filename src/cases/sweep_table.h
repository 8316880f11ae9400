/* The results of sweep as a table. */
#ifndef RAILBOW_CASES_SWEEP_TABLE_H
#define RAILBOW_CASES_SWEEP_TABLE_H

#include "table/field.h"

#include <railbow/member.h>

enum { SWEEP_COLUMNS_MOST = 2, SWEEP_FIELDS_MOST = 16 };

typedef struct sweep_row {
    const char *name;
    double value[SWEEP_COLUMNS_MOST]; /* of the varied columns */
    rbow_result result;
    const char *governs; /* name of the check or of the detail */
    /* not in the table */
    bool begins; /* the first of its case */
    size_t at;   /* number of the combination, from 0; a refused combination has no row */
    double now[SWEEP_COLUMNS_MOST]; /* values of the case itself in the varied columns */
    double factor, factor_yield;    /* asked */
} sweep_row;

/* The field list of a sweep. The varied columns follow `case` under their own names. */
typedef struct sweep_columns {
    field fields[SWEEP_FIELDS_MOST];
    field_list list;
} sweep_columns;

void sweep_columns_fill(sweep_columns *s, const field *const varied[], size_t count);

typedef struct sweep_asked {
    const field *column[SWEEP_COLUMNS_MOST]; /* the varied columns */
    size_t columns;
    size_t values[SWEEP_COLUMNS_MOST]; /* number of values of each */
    double (*value)(const void *context, size_t column, size_t i); /* the i-th value of a column; ascending or descending */
    const void *context;
    const field_list *list;
} sweep_asked;

#endif
