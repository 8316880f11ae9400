/* The straight column step by step: ends, elastic critical load, and the column load by its curve. */
#ifndef RAILBOW_WORKING_COLUMN_STEPS_H
#define RAILBOW_WORKING_COLUMN_STEPS_H

#include "working/calculation.h"

/* Given: c->tube. Fills bending and end stiffness, critical load, column stress and load. */
void column_steps(calculation *c);

/* Given: after column_steps. Fills end stiffness and critical load anew where a welded end is taken as rigid. */
void joint_steps(calculation *c);

#endif
