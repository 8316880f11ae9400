/* One state of the frame: the movements at which all joints are in balance. */
#ifndef RAILBOW_FRAME_STATE_H
#define RAILBOW_FRAME_STATE_H

#include "frame/solver.h"

/* Given:    s         with a run, fit and bows
 *           factor    load factor
 *           unknowns  a guess
 * Returned: whether there is a stable state near it: in balance, a positive definite stiffness, every tube below its own critical
 *           load, and not beyond a fold; unknowns and s->axial, whose changes are below 1e-10 of the largest */
bool rbow_frame_solve(rbow_frame_solver *s, double factor, double *unknowns);

/* Forces that are missing for balance, on the unknowns, in s->step; the axial forces are those of the movements.
 * Returned: false where a tube is at or beyond its own critical load */
bool rbow_frame_imbalance(rbow_frame_solver *s, double factor, const double *unknowns);

#endif
