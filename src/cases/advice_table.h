/* What to do about a case that is short, as a table: each row is a change that is enough alone. */
#ifndef RAILBOW_CASES_ADVICE_TABLE_H
#define RAILBOW_CASES_ADVICE_TABLE_H

#include "table/field.h"

/* The columns that advice may change, the wall last. */
enum { ADVICE_MISS_A, ADVICE_MISS_B, ADVICE_GAP, ADVICE_BOW, ADVICE_WALL, ADVICE_COLUMNS };

typedef struct advice_row {
    const char *name; /* of the case */
    int column;       /* ADVICE_... */
    double now, to;   /* in */
    double margin;    /* with the change alone; at least 0 */
} advice_row;

extern const field_list advice_list; /* of advice_row */

/* The changes that were found for one case, one for each column at most. */
typedef struct advice {
    advice_row rows[ADVICE_COLUMNS];
    size_t count;
} advice;

/* The name of the column as in files: "miss_a". */
const char *advice_column(int column);

#endif
