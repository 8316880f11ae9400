/* The stiffness of the frame under given axial forces. */
#ifndef RAILBOW_FRAME_STIFFNESS_H
#define RAILBOW_FRAME_STIFFNESS_H

#include "frame/solver.h"

/* Where the motions of a tube's ends stand among the unknowns; -1 for those that do not. */
void rbow_frame_places(const rbow_frame_solver *s, const frame_tube *tube, int place[ELEMENT]);

/* Whether the frame is held: its stiffness without axial forces has no motion that needs no force.
 * Returned: loose  how it moves, if it is not held (may be NULL); s->unloaded, if it is */
bool rbow_frame_is_held(rbow_frame_solver *s, rbow_frame_loose *loose);

/* The stiffness under given axial forces, decomposed.
 * Given:    axial  of each tube
 * Returned: whether it is positive definite, and every tube below its own critical load; s->stiffness, s->log_stiffness */
bool rbow_frame_decompose(rbow_frame_solver *s, const double *axial);

/* The product of the stiffness without axial forces and v. Given: s  of a frame that is held; out  another vector */
void rbow_frame_times_unloaded(const rbow_frame_solver *s, const double *v, double *out);

/* Solves the decomposed stiffness for s->step. */
void rbow_frame_solve_step(rbow_frame_solver *s);

#endif
