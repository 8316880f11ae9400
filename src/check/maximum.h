/* The largest moment and the largest movement along a tube in equilibrium, both planes together. */
#ifndef RAILBOW_CHECK_MAXIMUM_H
#define RAILBOW_CHECK_MAXIMUM_H

#include "check/prepare.h"

typedef struct peak {
    double size; /* largest length of the vector; below 0 if the zone does not exist */
    double at;   /* t, the smallest on a tie */
} peak;

/* Given:    p, solved  a member and its equilibrium
 *           places     whether positions are needed to full accuracy, or to the square root of that of the value
 * Returned: peaks  the largest moment m = M L/EI of each zone
 * Accuracy: by branch and bound; nowhere in the zone does the moment exceed the peak by more than 1e-12 of it, or by more
 *           than the rounding of the shares of the shapes (1e-14 of their sum) */
void rbow_largest_moments(const prepared *p, const solution *solved, bool places, peak peaks[ZONES]);

/* The largest movement w = v/L of the whole tube; accuracy as above. Returned: movement  at that position */
peak rbow_largest_movement(const prepared *p, const solution *solved, double movement[PLANES]);

#endif
