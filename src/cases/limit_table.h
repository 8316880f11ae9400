/* The results of limit as a table. */
#ifndef RAILBOW_CASES_LIMIT_TABLE_H
#define RAILBOW_CASES_LIMIT_TABLE_H

#include "table/field.h"

#include <railbow/status.h>

enum { LIMIT_FOUND, LIMIT_NEVER /* holds to the end */, LIMIT_ALREADY /* short at the start */ };

enum { LIMIT_CLOCKS = 4 };

typedef struct limit_answer { /* in the column's unit */
    int state;           /* one of these */
    double limit;        /* found: the last that holds; never: where the range ends; already: from */
    double ends_at;      /* where the model refused to go on; NaN if it did not */
    rbow_status refusal; /* why */
    double resolution;   /* how near to the limit nothing can be told apart */
} limit_answer;

typedef struct limit_row {
    const char *name, *column;
    limit_answer found;
    double now, room; /* in the column's unit */
    /* not in the table */
    bool before;    /* now lies before the range, so that nothing between was looked at */
    bool short_now; /* now lies outside the range, and the case is under the target there */
    double clock_taken[LIMIT_CLOCKS]; /* rad, at the limit: of the directions that are not known; NaN for the others */
} limit_row;

/* The directions that a case may leave open, in the order of clock_taken. */
extern const char *const limit_clocks[LIMIT_CLOCKS];

typedef struct limit_asked {
    const field *column;
    double from, to, margin;
} limit_asked;

/* Whether the present value is past its limit, or the case is short at the start of the range or as it stands. */
bool limit_is_past(const limit_row *r);

/* The row with the least room, or one of those whose room nobody knows. Given: at least one row */
const limit_row *limit_least_room(const limit_row *rows, size_t count);

/* Whether a tape measures the column, so that a limit in inches has its 1/64 beside it: lengths, but no wall. */
bool limit_is_by_tape(const limit_asked *asked);

/* The field list of a limit. Its three numbers have the dimension of the column asked for. */
typedef struct limit_columns {
    field fields[6];
    field_list list;
} limit_columns;

void limit_columns_fill(limit_columns *l, const field *column);

#endif
