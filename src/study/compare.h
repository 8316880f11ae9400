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

/* The lightest tube that holds; the smaller outside diameter on a tie. Returned: its index; count if none holds. */
size_t compare_lightest(const compared *answers, size_t count);

#endif
