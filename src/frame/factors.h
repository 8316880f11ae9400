/* The first load factor of each limit of each tube, along a path of states. */
#ifndef RAILBOW_FRAME_FACTORS_H
#define RAILBOW_FRAME_FACTORS_H

#include "frame/path.h"

/* Given:    s         with a run, fit and bows
 *           path_end  of this path
 *           asked     largest load factor required
 * Returned: s->reached, to 1e-8; INFINITY where the path ends first or goes on without the limit
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW
 * May miss: a hump of the utilisation that is narrower than 1/400 of twice the largest factor required (beyond it, of the load
 *           factor), and what rises above 1 from below 0.95 within less than a panel of the path; see factors.c */
rbow_status rbow_frame_factors(rbow_frame_solver *s, double path_end, double asked);

/* A tube in a state, held against its limits.
 * Given:    unknowns, factor; places as in rbow_evaluate */
void rbow_frame_evaluate(const rbow_frame_solver *s, const frame_tube *tube, const double *unknowns, double factor, bool places,
                         evaluation *out);

#endif
