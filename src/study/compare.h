/* Which tube: a case with another outside diameter and wall. */
#ifndef RAILBOW_STUDY_COMPARE_H
#define RAILBOW_STUDY_COMPARE_H

#include "cases/compare_table.h"
#include "study/problem.h"

typedef struct tube {
    double od, wall; /* in; od 0 = the case's own */
} tube;

/* Named ends are worked out anew with the tube, stiffness numbers stay. */
compared compare_tube(const problem *p, tube t);

/* The lightest of those that hold, the smaller OD on a tie; count where none does. */
size_t compare_lightest(const compared *answers, size_t count);

#endif
