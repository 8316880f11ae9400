/* The beam-column in one plane, in closed form.
 *
 *     EI v'''' + P (v + y0)'' = q(x)          M(x) = -EI v''
 *
 * v is the movement from the stress-free shape y0 (the bow), P the compression. The solution is accurate to rounding
 * for P from strong tension through exactly zero to just below the critical load.
 *
 * rbow_beam_prepare calculates what depends on the tube and on P alone. rbow_beam_solve then solves any number of
 * loadings, such as those of two planes. rbow_beam_at evaluates a solution. */
#ifndef RAILBOW_BEAMCOLUMN_H
#define RAILBOW_BEAMCOLUMN_H

#include <railbow/column.h>
#include <railbow/initial_bow.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_beam {
    double bending_stiffness; /* EI, lbf-in^2, > 0                                        */
    double length;            /* in, > 0                                                  */
    double compression;       /* P, lbf; below critical_load                              */
    double critical_load;     /* lbf, from rbow_critical_load                             */
    double stiffness_a;       /* in-lbf/rad, >= 0, INFINITY = fixed                       */
    double stiffness_b;       /* the same, or RBOW_FREE                                   */
    double point_at;          /* in, 0 ... length: position of the point load             */
    double bow_at;            /* in, 0 < at < length; used by RBOW_BOW_KINK               */
    rbow_bow_shape bow_shape;
} rbow_beam;

typedef struct rbow_loading { /* in one plane; positive toward the plane's direction */
    double moment_a, moment_b; /* in-lbf, applied to the ends                       */
    double point_load;         /* lbf, at point_at                                  */
    double spread_load;        /* lbf/in                                            */
    double bow;                /* in, amplitude of y0                               */
    double slope_a, slope_b;   /* rad: miss/length of the sockets at A and at B     */
} rbow_loading;

typedef struct rbow_prepared { /* the result of rbow_beam_prepare; private to this module */
    rbow_beam beam;
} rbow_prepared;

enum { RBOW_SHARES = 8 };

typedef struct rbow_solution { /* share of each shape, linear in the loading; private to this module */
    double share[RBOW_SHARES];
} rbow_solution;

typedef struct rbow_station {
    double moment;       /* M, in-lbf                                  */
    double moment_slope; /* dM/dx, lbf; at a load, on its B side       */
    double deflection;   /* v, in                                      */
    double slope;        /* dv/dx, rad                                 */
} rbow_station;

/* Given:    beam
 * Returned: prepared; after a failure its solutions are NaN
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_UNSTABLE (compression not below critical_load) */
RBOW_API rbow_status rbow_beam_prepare(const rbow_beam *beam, rbow_prepared *prepared);

/* Given:    prepared  by rbow_beam_prepare with RBOW_OK
 *           loading   any finite numbers; not checked
 * Returned: solution; its relative error is about 1e-14/(1 - P/P_cr) of the largest value along the tube; under
 *           strong tension it is about the square root of P L^2/EI times rounding */
RBOW_API void rbow_beam_solve(const rbow_prepared *prepared, const rbow_loading *loading,
                              rbow_solution *solution);

/* Given:    prepared, solution
 *           x         in, 0 ... length; not checked; outside, the result has no meaning
 * Returned: station; at a point load, the values on its B side */
RBOW_API void rbow_beam_at(const rbow_prepared *prepared, const rbow_solution *solution, double x,
                           rbow_station *station);

#ifdef __cplusplus
}
#endif

#endif
