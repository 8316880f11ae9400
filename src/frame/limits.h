/* The load factors at which the tubes of a frame reach their limits on one path. */
#ifndef RAILBOW_FRAME_LIMITS_H
#define RAILBOW_FRAME_LIMITS_H

#include "frame/path.h"

/* Given:    s       after rbow_frame_follow
 *           end     of its path
 *           usual   the largest load factor that is asked for
 * Returned: limits  of every tube
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW */
rbow_status rbow_frame_find_limits(rbow_frame_solver *s, const path_end *end, double usual, tube_limits *limits);

#endif
