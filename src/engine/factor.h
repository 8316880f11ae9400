/* The three load factors of a frame. */
#ifndef RAILBOW_ENGINE_FACTOR_H
#define RAILBOW_ENGINE_FACTOR_H

#include "engine/stress.h"

#include <stdbool.h>

typedef struct sight { /* the tube at one load factor, looked at closely */
    bool stands;       /* below its critical load; nothing else holds if not */
    state state;
    peak peaks[2];
    stress_peak stress;
    interaction together;
} sight;

/* Given:    tension  locked-in tension to count, lbf */
void sight_at(const frame *f, double factor, double tension, sight *out);

typedef struct reach { /* where a limit is reached */
    double factor;     /* load factor; INFINITY where never */
    double tension;    /* the locked-in tension counted: T0, or 0 where its help is not counted and that is lower */
    double at;         /* xi; NaN where no one place decides */
    int zone;
} reach;

typedef struct factors {
    double column;
    reach yield, interaction;
} factors;

/* Returned: f            the member made ready
 *           fit, loaded  it at load factors 0 and 1, its locked-in tension counted
 * Status:   RBOW_OK | the first of frame_faults | those of frame_build */
rbow_status factors_ready(const rbow_member *member, const rbow_material *material, frame *f, sight *fit, sight *loaded);

/* Given:    fit, loaded  the frame at load factors 0 and 1, its locked-in tension counted
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW */
rbow_status factors_of(const frame *f, const sight *fit, const sight *loaded, factors *out);

/* The smallest of the three over the one asked, of a frame without misses and gap: the factor that does not decide is
 * not followed to its limit.
 * Given:  near  a load factor near which it may be; 0 where nothing is known
 * Status: as factors_of */
rbow_status least_ratio_of(const frame *unforced, double near, double *ratio);

#endif
