/* A member at eight load factors at once. */
#ifndef RAILBOW_CHECK_BATCH_H
#define RAILBOW_CHECK_BATCH_H

#include "check/evaluate.h"

enum { BATCH = 8, MIDDLES = BATCH - 2 };

typedef struct batch {
    double utilisation[LIMITS][BATCH]; /* as evaluation; INFINITY beyond the critical load */
    bool settled[BATCH]; /* utilisation is right to 1e-8 of it; where not, rbow_evaluate must be asked */
    /* How much the moments bend over the load factor, as utilisation: the largest over the stations of
     * |m(i) - 2 m(i + 1) + m(i + 2)| for the triple that begins at factor i; not a number where one of them does not stand */
    double second_difference[MIDDLES];
} batch;

/* Given:    p        prepared
 *           factor   load factors, rising
 *           even     whether they are evenly spaced; only then second differences are asked for
 * Returned: out */
void rbow_batch_evaluate(const prepared *p, const double factor[BATCH], bool even, batch *out);

#endif
