/* The tangent of the equations of balance: the stiffness and, for each tube, the change of its bending by its axial force times the
 * change of the axial force by the motions. */
#ifndef RAILBOW_FRAME_TANGENT_H
#define RAILBOW_FRAME_TANGENT_H

#include "frame/solver.h"

/* Given:    s->axial, unknowns  of a state or near one; factor  load factor
 * Returned: the sign of the determinant, 0 for a singular one; s->tangent, decomposed, and s->log_tangent */
int rbow_frame_decompose_tangent(rbow_frame_solver *s, double factor, const double *unknowns);

/* Solves the decomposed tangent for s->step. */
void rbow_frame_solve_tangent(rbow_frame_solver *s);

#endif
