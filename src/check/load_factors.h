/* The three load factors of a member. */
#ifndef RAILBOW_CHECK_LOAD_FACTORS_H
#define RAILBOW_CHECK_LOAD_FACTORS_H

#include "check/first_crossing.h"

typedef struct limit_factor { /* where a limit is reached */
    double factor;   /* load factor; INFINITY where never */
    double tension;  /* the locked-in tension counted: T0, or 0 where its help is not counted and that is lower */
    bool at_a_place; /* one place of the tube decides, and it reaches its limit there */
} limit_factor;

typedef struct load_factors {
    double column;
    limit_factor limits[LIMITS];
} load_factors;

/* Given:  at_rest, loaded  p at load factors 0 and 1, its locked-in tension counted
 * Status: RBOW_OK | RBOW_STRESS_OVERFLOW */
rbow_status rbow_load_factors(const prepared *p, const evaluation *at_rest, const evaluation *loaded, load_factors *out);

/* The smallest of the three over the one that is asked for, of a member without misses and gap.
 * Given:  likely  a load factor that it is likely to lie below, 0 where nothing is known: it saves time
 *         first   the limit that is likely to decide; the same
 * Status: as rbow_load_factors */
rbow_status rbow_least_ratio(const prepared *without_fit, double likely, limit first, double *ratio);

#endif
