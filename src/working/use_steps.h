/* Stress and utilisation at one place, and the margin, step by step. */
#ifndef RAILBOW_WORKING_USE_STEPS_H
#define RAILBOW_WORKING_USE_STEPS_H

#include "working/calculation.h"

/* Given:    check  RBOW_BY_YIELD or RBOW_BY_INTERACTION
 *           a      in the units shown
 * Returned: r      the stresses there */
void use_steps(const calculation *c, int check, bool in_weld_zone, const rbow_actions *a, rbow_stress *r);

/* The load factors asked for, and the margin. Given: factors  of yield, column and interaction */
void margin_steps(const calculation *c, const double factors[3], double margin);

#endif
