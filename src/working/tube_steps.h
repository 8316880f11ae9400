/* The tube step by step: material, section, wall reduction, and its weld zone. */
#ifndef RAILBOW_WORKING_TUBE_STEPS_H
#define RAILBOW_WORKING_TUBE_STEPS_H

#include "working/calculation.h"

/* Fills c->tube and c->weld. */
void tube_steps(calculation *c);

/* Parts of it, for another tube: area, second moment and section modulus; Q and Fc of a yield, with the words of their steps. */
void section_steps(const calculation *c, rbow_tube_size tube, rbow_section *s);
void wall_reduction_steps(const calculation *c, rbow_strength *s, double yield, const char *const words[3]);

/* Returned: the weight of the tube as a force. Given: c->tube */
double weight_step(const calculation *c);

/* The locked-in tension of a gap. Given: c->tube. Fills c->tension */
void locked_in_steps(calculation *c);

/* The own weight across the tube, where it acts. */
void own_weight_steps(const calculation *c);

#endif
