/* The choice of a tube: a case with another outside diameter and wall. */
#ifndef RAILBOW_STUDY_COMPARE_H
#define RAILBOW_STUDY_COMPARE_H

#include "cases/compare_table.h"
#include "study/problem.h"

typedef struct tube {
    double od, wall; /* in; od 0 = that of the case */
} tube;

/* The stiffness of an end given as a word is calculated for the tube; a stiffness given as a number stays. */
compared compare_tube(const problem *p, tube t);

/* Several cases of one part are one tube: numbers the parts, picks for each the lightest tube that holds in all its cases
 * (the smaller OD on a tie), and lets each part weigh once.
 * Given:    rows  of all tubes of the first case, then of the second ...
 * Returned: false where memory ran out */
bool compare_parts(compare_row *rows, size_t count);

#endif
