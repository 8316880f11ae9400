/* The answers of sweep as a table. */
#ifndef RAILBOW_CASES_SWEEP_TABLE_H
#define RAILBOW_CASES_SWEEP_TABLE_H

#include "table/field.h"

#include <railbow/member.h>

enum { SWEEP_COLUMNS_MOST = 2, SWEEP_FIELDS_MOST = 16 };

typedef struct sweep_row {
    const char *name;
    double value[SWEEP_COLUMNS_MOST]; /* of the varied columns */
    rbow_result result;
    /* not in the table */
    bool begins; /* the first of its case */
    size_t at;   /* which of all combinations, from 0; the refused ones have no row */
    double now[SWEEP_COLUMNS_MOST]; /* what the case itself has in the varied columns */
    double factor, factor_yield;    /* asked */
} sweep_row;

/* The list of a sweep: its varied columns stand behind the case under their own names. */
typedef struct sweep_columns {
    field fields[SWEEP_FIELDS_MOST];
    field_list list;
} sweep_columns;

void sweep_columns_fill(sweep_columns *s, const field *const varied[], size_t count);

typedef struct sweep_asked {
    const field *column[SWEEP_COLUMNS_MOST]; /* what was varied */
    size_t columns;
    size_t values[SWEEP_COLUMNS_MOST]; /* how many of each */
    double (*value)(const void *context, size_t column, size_t i); /* the i-th of a column; ascending or descending */
    const void *context;
    const field_list *list;
} sweep_asked;

#endif
