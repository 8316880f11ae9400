/* The results of compare as a table. */
#ifndef RAILBOW_CASES_COMPARE_TABLE_H
#define RAILBOW_CASES_COMPARE_TABLE_H

#include "table/field.h"

#include <railbow/member.h>

typedef struct compared { /* a case with another tube */
    double od, wall;
    rbow_status status; /* below 0: why this tube is not possible; the result is then that of a failure */
    rbow_result result;
    double weight, weight_change; /* lb; the change is from the tube of the case */
    double stiffness_change;      /* EI new/own - 1 */
} compared;

typedef struct compare_row {
    const char *name;
    compared tried;
    const char *verdict; /* holds, short, or "not possible: why" */
    const char *pick;    /* "lightest" or "" */
    size_t tube, tubes;  /* its number among the tubes asked for, and how many; not in the table */
} compare_row;

extern const field_list compare_list; /* of compare_row */

bool is_possible(const compare_row *r);
bool tube_holds(const compare_row *r);

#endif
