/* The moment at one station at one load factor, step by step. */
#ifndef RAILBOW_WORKING_MOMENT_STEPS_H
#define RAILBOW_WORKING_MOMENT_STEPS_H

#include "working/calculation.h"

/* Given: the column's steps. Returned: the moment at the station of the limit, in the unit shown. */
double moment_steps(const calculation *c, const rbow_limit *limit);

#endif
