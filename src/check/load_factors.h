/* The three load factors of a concrete member: every number of it is known. */
#ifndef RAILBOW_CHECK_LOAD_FACTORS_H
#define RAILBOW_CHECK_LOAD_FACTORS_H

#include "check/first_crossing.h"

typedef struct limit_factor { /* the point at which a limit is reached */
    double factor;   /* load factor; INFINITY if never */
    bool at_a_place; /* whether one station of the tube reaches the limit */
} limit_factor;

typedef struct load_factors {
    double column;
    limit_factor limits[LIMITS];
} load_factors;

/* Status: RBOW_OK | RBOW_STRESS_OVERFLOW */
rbow_status rbow_load_factors(const prepared *p, load_factors *out);

/* The smallest of the three over the one that is asked for: what decides the margin.
 * Given:    most   larger ones are not asked for; INFINITY to ask for all
 * Returned: ratio  `most` where it is not below
 * Status:   as rbow_load_factors */
rbow_status rbow_least_ratio(const prepared *p, double most, double *ratio);

#endif
