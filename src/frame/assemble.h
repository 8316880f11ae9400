/* Balance of the joints, and its derivatives by their motions. */
#ifndef RAILBOW_FRAME_ASSEMBLE_H
#define RAILBOW_FRAME_ASSEMBLE_H

#include "frame/solver.h"

/* Given:    s->motion; factor  load factor
 * Returned: s->axial; s->balance  at each joint what its tubes need less what the run applies; what is held balances it
 *           false where a tube is not below its own critical load */
bool rbow_frame_balance(rbow_frame_solver *s, double factor);

/* The stiffness under given axial forces: s->stiffness, factors. Given: axial  of each tube */
pivots rbow_frame_factor_stiffness(rbow_frame_solver *s, const double *axial);

/* The derivative of the balance, axial forces included: s->tangent, factors. Given: s->motion, s->axial; factor */
pivots rbow_frame_factor_tangent(rbow_frame_solver *s, double factor);

/* From a list of all motions to the unknowns and back. */
void rbow_frame_gather(const rbow_frame_solver *s, const double *motions, double *unknowns);
void rbow_frame_spread(const rbow_frame_solver *s, const double *unknowns, double *motions);

#endif
