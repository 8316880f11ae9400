/* The best and the worst orientation of the tube's own bow. */
#ifndef RAILBOW_STUDY_ORIENTATION_H
#define RAILBOW_STUDY_ORIENTATION_H

#include "cases/orientation_table.h"
#include "study/problem.h"

#include <stddef.h>

/* One clock for the bow of a tube: with the best one the lowest margin of its cases is the largest. Misses and loads stay;
 * directions other than the bow's that are not known are at their worst for each clock.
 * Exact to 0.1 degree; the smallest clock on a tie. Without a bow all three margins are equal, at clock 0.
 * Given:    problems, count  the cases of the tube, one or more
 * Status:   RBOW_OK | as rbow_member_check */
rbow_status orientation_find(const problem problems[], size_t count, orientation *answer);

/* Lowest margins at even clocks, from 0 on; NaN where there is no answer. */
void orientation_margins(const problem problems[], size_t count, double margins[], size_t clocks);

#endif
