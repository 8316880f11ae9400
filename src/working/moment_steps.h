/* The moment at one place at one load factor, step by step. */
#ifndef RAILBOW_WORKING_MOMENT_STEPS_H
#define RAILBOW_WORKING_MOMENT_STEPS_H

#include "working/calculation.h"

/* Given: the column's steps. Returned: the moment at the limit's place, in the unit shown. */
double moment_steps(const calculation *c, const rbow_limit *limit);

#endif
