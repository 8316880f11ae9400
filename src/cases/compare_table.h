/* The answers of compare as a table. */
#ifndef RAILBOW_CASES_COMPARE_TABLE_H
#define RAILBOW_CASES_COMPARE_TABLE_H

#include "table/field.h"

#include <railbow/member.h>

typedef struct compared { /* a case with another tube */
    double od, wall;
    rbow_status status; /* below 0: this tube cannot be, and why; the result is then that of a failure */
    rbow_result result;
    double weight, weight_change; /* lb; against the case's own tube */
    double stiffness_change;      /* EI new/own - 1 */
} compared;

typedef struct compare_row {
    const char *name;
    compared tried;
    const char *verdict; /* holds, short, or "not possible: why" */
    const char *pick;    /* "lightest" or "" */
    size_t tube, tubes;  /* which of how many was asked; not in the table */
} compare_row;

extern const field_list compare_list; /* of compare_row */

bool is_possible(const compare_row *r);
bool tube_holds(const compare_row *r);

#endif
