/* The first load factor of each limit of each tube, along a path of states. */
#ifndef RAILBOW_FRAME_FACTORS_H
#define RAILBOW_FRAME_FACTORS_H

#include "frame/path.h"

/* Given:    s         with a run, fit and bows
 *           path_end  of this path
 * Returned: s->reached, to 1e-8; INFINITY where the path ends first or goes on without the limit
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW */
rbow_status rbow_frame_factors(rbow_frame_solver *s, double path_end);

/* The same as far as the lowest margin asks: a factor that does not lower it may be INFINITY.
 * Given:    most  a share of the required load factors: nothing beyond it is asked
 * Returned: path_end  INFINITY where the path goes on beyond what is asked */
rbow_status rbow_frame_lowest_factors(rbow_frame_solver *s, double most, double *path_end);

#endif
