/* A member at eight load factors at once. */
#ifndef RAILBOW_CHECK_BATCH_H
#define RAILBOW_CHECK_BATCH_H

#include "check/evaluate.h"

enum { BATCH = 8, MIDDLES = BATCH - 2 };

typedef struct batch {
    double utilisation[LIMITS][BATCH]; /* as in evaluation; INFINITY beyond the critical load */
    bool settled[BATCH]; /* whether utilisation is accurate to 1e-8 of it; if not, rbow_evaluate must be called */
    /* Curvature of the moments over the load factor, as utilisation: the largest |m(i) - 2 m(i + 1) + m(i + 2)| of all
     * stations, for the three load factors from i on; NaN if there is no equilibrium at one of them */
    double second_difference[MIDDLES];
} batch;

/* Given:    p        prepared
 *           factor   load factors, rising
 *           even     whether they are evenly spaced; only then are second differences calculated
 * Returned: out */
void rbow_batch_evaluate(const prepared *p, const double factor[BATCH], bool even, batch *out);

/* The same under loads that are given, those of rising load factors. */
void rbow_batch_evaluate_loads(const prepared *p, const tube_loads loads[BATCH], bool even, batch *out);

#endif
