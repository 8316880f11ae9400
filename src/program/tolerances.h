/* The tolerances file of scatter. */
#ifndef RAILBOW_PROGRAM_TOLERANCES_H
#define RAILBOW_PROGRAM_TOLERANCES_H

#include "cases/tolerance_table.h"
#include "program/options.h"
#include "program/rows.h"

typedef struct tolerances {
    /* set by the command */
    const field_list *const *lists; /* the tables whose columns may vary */
    size_t list_count;
    const char *where; /* "the load cases" */
    bool (*may_vary)(const field *f); /* which of their number columns; NULL: all */
    bool of_frame;     /* rows may pick tubes or joints by name */
    /* what is read */
    const char *file;
    rows rows; /* of tolerance_row */
} tolerances;

/* Given: t with its lists. Returned: false after messages on everything that is wrong. tolerances_close either way. */
bool tolerances_open(tolerances *t, const options *o);
void tolerances_close(tolerances *t);

/* The column of a row, and which list has it (NULL: not wanted). */
const field *tolerance_field(const tolerances *t, const tolerance_row *given, size_t *list);

/* How far a value may lie below and above `now`, in the program's units. */
void tolerance_sides(const tolerance_row *given, const field *f, double now, double *minus, double *plus);

#endif
