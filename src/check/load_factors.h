/* The three load factors of a member. */
#ifndef RAILBOW_CHECK_LOAD_FACTORS_H
#define RAILBOW_CHECK_LOAD_FACTORS_H

#include "check/first_crossing.h"

typedef struct limit_factor { /* the point at which a limit is reached */
    double factor;   /* load factor; INFINITY if never */
    double tension;  /* the locked-in tension counted: T0, or 0 if its help does not count and gives a lower factor */
    bool at_a_place; /* whether one station of the tube reaches the limit */
} limit_factor;

typedef struct load_factors {
    double column;
    limit_factor limits[LIMITS];
} load_factors;

/* Given:  at_rest, loaded  p at load factors 0 and 1, with its locked-in tension
 * Status: RBOW_OK | RBOW_STRESS_OVERFLOW */
rbow_status rbow_load_factors(const prepared *p, const evaluation *at_rest, const evaluation *loaded, load_factors *out);

/* The smallest ratio of the three to the factor asked for, of a member without misses and gap.
 * Given:  likely  a load factor above the likely crossings, which saves time; 0 if unknown
 *         first   the limit that is likely to govern, which saves time
 * Status: as rbow_load_factors */
rbow_status rbow_least_ratio(const prepared *without_fit, double likely, limit first, double *ratio);

#endif
