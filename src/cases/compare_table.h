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
    const char *governs; /* name of the check or of the detail */
    const char *verdict; /* holds, short, or "not possible: why" */
    int pick;            /* COMPARE_LIGHTEST: of those that hold in every case of the part */
    /* not in the table */
    const char *part;
    size_t tube, tubes;  /* which of how many was asked */
    size_t number;       /* of the part, in the order in which they first appear */
    int unlike;          /* the first tube of a case that is not of the same tube as others of its part */
    int weighs;          /* its weight is that of the part: the heaviest case of it, if they differ */
} compare_row;

enum { COMPARE_NOT_PICKED, COMPARE_LIGHTEST };

extern const field_list compare_list, compare_kept_list; /* of compare_row; the second with its part */

bool is_possible(const compare_row *r);
bool tube_holds(const compare_row *r);

#endif
