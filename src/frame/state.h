/* One state of the frame: the movements at which all joints are in balance. */
#ifndef RAILBOW_FRAME_STATE_H
#define RAILBOW_FRAME_STATE_H

#include "frame/solver.h"

/* Whether the frame is held: its stiffness without axial forces has no motion that needs no force.
 * Returned: loose  how it moves, if it is not held (may be NULL) */
bool rbow_frame_is_held(rbow_frame_solver *s, rbow_frame_loose *loose);

/* The stiffness under given axial forces, decomposed.
 * Given:    axial  of each tube, each below the tube's own critical load
 * Returned: whether it is positive definite; s->stiffness */
bool rbow_frame_decompose(rbow_frame_solver *s, const double *axial);

/* Solves the decomposed stiffness for s->step. */
void rbow_frame_solve_step(rbow_frame_solver *s);

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
