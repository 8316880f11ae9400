/* Forced fit: what a tube carries that was drawn into place, before any load.
 *
 * A miss is the distance by which a straight bar in one socket misses its landing at the other joint; over the length it is the slope
 * of that socket. A gap is the length by which the tube was too short. */
#ifndef RAILBOW_FORCED_FIT_H
#define RAILBOW_FORCED_FIT_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_forced_fit { /* a tube between two joints that turn by their springs alone */
    double bending_stiffness;        /* EI, lbf-in^2, > 0                                  */
    double length;                   /* L, in, > 0                                         */
    double stiffness_a, stiffness_b; /* in-lbf/rad, >= 0, INFINITY = fixed                 */
} rbow_forced_fit;

typedef struct rbow_forced_ends { /* of joint A and joint B, in one plane */
    double a, b;
} rbow_forced_ends;

/* The slope of a socket.
 * Given:    miss    in
 *           length  in, > 0
 * Returned: rad; NaN where length is not above 0 */
RBOW_API double rbow_fit_slope(double miss, double length);

/* The moments that the sockets' slopes force on the tube's ends, without an axial load.
 * Given:    fit
 *           slopes   rad: rbow_fit_slope of the miss at A and of the miss at B
 * Returned: moments  in-lbf, positive toward the slope's direction:
 *               one end fixed, the other pinned   3 EI miss/L^2
 *               both fixed, a miss at one         4 EI miss/L^2 there, -2 EI miss/L^2 at the other
 *               both fixed, a side step           6 EI step/L^2 and -6 EI step/L^2 (slopes step/L and -step/L)
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE
 * Source:   slope-deflection equations; Hibbeler, Structural Analysis, 8th ed. 2012, ch. 11 (from memory) */
RBOW_API rbow_status rbow_fit_moments(const rbow_forced_fit *fit, const rbow_forced_ends *slopes, rbow_forced_ends *moments);

/* The slopes that explain end moments: the inverse of rbow_fit_moments.
 * Given:    fit      both stiffnesses above 0
 *           moments  in-lbf, as returned there
 * Returned: slopes   rad
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_fit_slopes(const rbow_forced_fit *fit, const rbow_forced_ends *moments, rbow_forced_ends *slopes);

/* The tension that a closed gap locks in: T0 = gap/(L/EA + 1/gap_stiffness).
 * Given:    gap              in; > 0 the tube was too short and was pulled
 *           length           in, > 0
 *           axial_stiffness  EA, lbf, > 0
 *           gap_stiffness    lbf/in of what the joints stand on, > 0, INFINITY = rigid
 * Returned: tension          lbf
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE
 * Source:   Hooke's law, two springs in series */
RBOW_API rbow_status rbow_fit_tension(double gap, double length, double axial_stiffness, double gap_stiffness,
                                      double *tension);

#ifdef __cplusplus
}
#endif

#endif
