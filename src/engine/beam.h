/* The beam-column in both planes at once, and prepared in two steps: one beam is asked under many compressions. */
#ifndef RAILBOW_ENGINE_BEAM_H
#define RAILBOW_ENGINE_BEAM_H

#include "engine/ends.h"
#include "engine/pair.h"

#include <railbow/beamcolumn.h>

#include <gsl/gsl_math.h>

/* Given:    beam  its compression is not looked at
 * Returned: ready what does not depend on the compression
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
rbow_status beam_begin(const rbow_beam *beam, rbow_prepared *ready);

/* Given:    p            from beam_begin, or loaded before
 *           compression  lbf, finite
 * Returned: p            prepared
 * Status:   RBOW_OK | RBOW_UNSTABLE */
rbow_status beam_load(rbow_prepared *p, double compression);

typedef struct loads { /* rbow_loading in both planes */
    pair moment_a, moment_b, point_load, spread_load, bow, slope_a, slope_b;
} loads;

typedef struct shares { /* of each shape, see shapes.h */
    pair of[7];
} shares;

/* As rbow_beam_solve. */
void beam_solve(const rbow_prepared *p, const loads *l, shares *out);

static inline bool beam_is_free(const rbow_prepared *p)
{
    return end_is(p->beam.stiffness_b, RBOW_FREE);
}

/* The slope at B of a bow 1 high, for the push that keeps its direction on a free end. */
static inline double beam_bow_slope_at_b(const rbow_prepared *p)
{
    switch (p->beam.bow_shape) {
        case RBOW_BOW_SINE: return -M_PI;
        case RBOW_BOW_ARC: return -4;
        default: return -1 / (1 - p->bow_at);
    }
}

/* How much a kinked bow 1 high turns at its kink. */
static inline double beam_kink(const rbow_prepared *p)
{
    return 1 / p->bow_at + 1 / (1 - p->bow_at);
}

/* The share of each shape in one plane. */
rbow_solution solution_in(const shares *s, int plane);

#endif
