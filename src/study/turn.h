/* Which way to turn the tube's own bow. */
#ifndef RAILBOW_STUDY_TURN_H
#define RAILBOW_STUDY_TURN_H

#include "study/problem.h"

#include <stddef.h>

typedef struct turn_answer {
    double as_marked;             /* margin with the clock that the case names */
    double best_clock, best;      /* rad, 0 ... 2 pi; margin */
    double worst_clock, worst;
} turn_answer;

/* Exact to 0.1 degree; the smallest clock on a tie. Without a bow all three margins are equal, at clock 0.
 * Status: RBOW_OK | as rbow_member_check */
rbow_status turn_bow(const problem *p, turn_answer *answer);

/* Margins at `count` even clocks, from 0 on; NaN where there is no answer. */
void turn_margins(const problem *p, double margins[], size_t count);

#endif
