/* The joints' moments step by step: the rotations of pinned ends by the loads, and the moments of the joints. */
#ifndef RAILBOW_WORKING_END_MOMENT_STEPS_H
#define RAILBOW_WORKING_END_MOMENT_STEPS_H

#include "working/load_steps.h"

/* Fills own, far and the flexibilities of the joints. */
void flexibility_steps(loaded_tube *b);

/* Fills the moments at the joints from the loads in the plane. */
void end_moment_steps(const loaded_tube *b, plane *l);

#endif
