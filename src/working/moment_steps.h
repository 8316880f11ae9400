/* The moment at one station at one load factor, step by step. */
#ifndef RAILBOW_WORKING_MOMENT_STEPS_H
#define RAILBOW_WORKING_MOMENT_STEPS_H

#include "working/calculation.h"

typedef struct end_moments { /* at A and at B, in the unit shown */
    double up[2], right[2];
} end_moments;

/* Given: the column's steps. Returned: the moment at the station of the limit, in the unit shown; ends may be NULL. */
double moment_steps(const calculation *c, const rbow_limit *limit, end_moments *ends);

#endif
