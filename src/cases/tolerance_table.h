/* The tolerances of scatter as a table. */
#ifndef RAILBOW_CASES_TOLERANCE_TABLE_H
#define RAILBOW_CASES_TOLERANCE_TABLE_H

#include "table/field.h"

typedef enum tolerance_shape {
    TOLERANCE_UNIFORM,    /* from -minus to +plus                                           */
    TOLERANCE_TRIANGULAR, /* peak at the nominal value                                      */
    TOLERANCE_NORMAL      /* two halves: minus and plus are two standard deviations; cut at three */
} tolerance_shape;

typedef struct tolerance_row {
    const char *column, *unit; /* unit: a unit of the column, or % of its value */
    double minus, plus;
    int shape; /* tolerance_shape */
    const char *name; /* pattern of the tubes or joints of a frame; "" for all */
    size_t line; /* of the file; no column */
} tolerance_row;

extern const field_list tolerance_list; /* of tolerance_row */

#endif
