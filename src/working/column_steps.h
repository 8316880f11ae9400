/* The straight column step by step: ends, elastic critical load, and the column load by its curve. */
#ifndef RAILBOW_WORKING_COLUMN_STEPS_H
#define RAILBOW_WORKING_COLUMN_STEPS_H

#include "working/calculation.h"

/* Given: c->tube. Fills bending and end stiffness, critical load, column stress and load. */
void column_steps(calculation *c);

/* The same for a tube of a frame, whose column has the length over the root of fixity; no critical load. */
void frame_column_steps(calculation *c, double fixity);

/* Given: after column_steps. Fills end stiffness and critical load anew where a welded end is taken as rigid. */
void joint_steps(calculation *c);

/* Joints alone, where no column is asked for: bending and end stiffness as taken for the bending. */
void bending_steps(calculation *c);

#endif
