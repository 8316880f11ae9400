/* The data of a tube and its joints that the formulas of the beam-column need; none of it depends on the load. */
#ifndef RAILBOW_MECHANICS_BEAM_H
#define RAILBOW_MECHANICS_BEAM_H

#include "mechanics/restraint.h"

#include <railbow/beamcolumn.h>

#include <gsl/gsl_math.h>
#include <stdbool.h>

enum { UP, RIGHT, PLANES };
enum shape { EVEN, ODD, SPREAD, POINT, KINK, HALF_WAVE, SHAPES }; /* see beamcolumn_body.h */

typedef struct beam {
    double bending_stiffness, length;
    spring spring_a, spring_b;
    bool free_b;
    bool has_point, has_kink, has_arc, has_half_wave;
    double point_at, kink_at; /* t, from mid-length */
    rbow_bow_load bow;        /* of a bow 1 high on a length of 1, under an axial load of 1 */
} beam;

typedef struct solution { /* an equilibrium: shares of the shapes, and the straight line of the movement */
    double z;
    double share[SHAPES][PLANES];
    double offset[PLANES], turn[PLANES];
} solution;

typedef struct station { /* a position along the tube, and its side of the loads */
    double t;                     /* x/L - 1/2 */
    double cosine, sine;          /* of pi t */
    double point_side, kink_side; /* 1 beyond the load or kink, -1 before it */
} station;

/* Given: t     from mid-length
 *        side  a position on the same side of the loads; t itself means just beyond them */
static inline station station_at(const beam *k, double t, double side)
{
    const double cosine = cos(M_PI * t), sine = sin(M_PI * t);
    return (station){t, fabs(t) >= 0.5 ? 0 : cosine, sine, side >= k->point_at ? 1 : -1, side >= k->kink_at ? 1 : -1};
}

/* Given:    from  its compression and critical load are not used
 * Returned: b
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
rbow_status rbow_beam_constants(const rbow_beam *from, beam *b);

#endif
