/* The three load factors of a frame. */
#ifndef RAILBOW_ENGINE_FACTOR_H
#define RAILBOW_ENGINE_FACTOR_H

#include "engine/frame.h"

typedef struct factors {
    double yield, column, interaction;
    /* the locked-in tension with which the lower value came out: T0, or 0 where its help is not counted */
    double yield_tension, interaction_tension;
} factors;

/* Status: RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW */
rbow_status factors_of(const frame *f, factors *out);

/* The smallest of the three over the one asked, of a frame without misses and gap: the factor that does not decide is
 * not followed to its limit.
 * Status: as factors_of */
rbow_status least_ratio_of(const frame *unforced, double *ratio);

#endif
