/* The best and the worst orientation of the tube's own bow. */
#ifndef RAILBOW_STUDY_ORIENTATION_H
#define RAILBOW_STUDY_ORIENTATION_H

#include "cases/orientation_table.h"
#include "study/problem.h"

#include <stddef.h>

/* Clocks to 0.1 degree; the smallest clock on a tie. Without a bow all three margins are equal and the clocks are 0.
 * Status: RBOW_OK | as rbow_member_check */
rbow_status orientation_find(const problem *p, orientation *answer);

/* Margins at `count` evenly spaced clocks from 0; NaN if the check fails. */
void orientation_margins(const problem *p, double margins[], size_t count);

#endif
