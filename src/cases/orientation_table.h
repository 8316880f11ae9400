/* The results of index, the orientation of a tube's own bow, as a table. */
#ifndef RAILBOW_CASES_ORIENTATION_TABLE_H
#define RAILBOW_CASES_ORIENTATION_TABLE_H

#include "table/field.h"

#include <stdbool.h>

typedef struct orientation { /* clocks in rad, 0 ... 2 pi */
    double margin_as_marked; /* with the clock of the case */
    double best_clock, best_margin;
    double worst_clock, worst_margin;
} orientation;

enum { ORIENTATION_CLOCKS = 120 };

typedef struct orientation_row {
    const char *name, *part; /* name: "" for a part over all its cases */
    orientation found;
    /* not in the table */
    bool is_part;
    size_t cases;        /* of the part */
    double marked_clock; /* NaN where the cases of a part differ in it */
    double bow;
    double round[ORIENTATION_CLOCKS]; /* margins at even clocks from 0 on; NaN where they were not asked for */
} orientation_row;

extern const field_list orientation_list; /* of orientation_row */

/* How many rows are of parts; they come first. */
size_t orientation_parts(const orientation_row *rows, size_t count);

/* Whether some part has several cases. */
bool orientation_shares(const orientation_row *rows, size_t count);

#endif
