/* The results of index, the orientation of a tube's own bow, as a table. */
#ifndef RAILBOW_CASES_ORIENTATION_TABLE_H
#define RAILBOW_CASES_ORIENTATION_TABLE_H

#include "table/field.h"

typedef struct orientation { /* clocks in rad, 0 ... 2 pi */
    double margin_as_marked; /* with the clock of the case */
    double best_clock, best_margin;
    double worst_clock, worst_margin;
} orientation;

enum { ORIENTATION_CLOCKS = 120 };

typedef struct orientation_row {
    const char *name;
    orientation found;
    /* not in the table */
    double marked_clock, bow;
    double round[ORIENTATION_CLOCKS]; /* margins at evenly spaced clocks from 0; NaN where they were not asked for */
} orientation_row;

extern const field_list orientation_list; /* of orientation_row */

#endif
