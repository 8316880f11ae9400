/* The tube step by step: material, section, wall reduction, and its weld zone. */
#ifndef RAILBOW_WORKING_TUBE_STEPS_H
#define RAILBOW_WORKING_TUBE_STEPS_H

#include "working/calculation.h"

/* Fills c->tube and c->weld. */
void tube_steps(calculation *c);

/* Returned: the weight of the tube as a force. Given: c->tube */
double weight_step(const calculation *c);

#endif
