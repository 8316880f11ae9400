/* The largest moment and the largest movement along a tube in equilibrium, both planes together. */
#ifndef RAILBOW_CHECK_MAXIMUM_H
#define RAILBOW_CHECK_MAXIMUM_H

#include "check/prepare.h"

typedef struct peak {
    double size; /* largest length of the vector; below 0 where there is no such place */
    double at;   /* t, the smallest on a tie */
} peak;

/* Given:    p, solved  a member and its equilibrium
 *           places     whether their places are asked to full accuracy, or to the square root of the value's
 * Returned: peaks  the largest moment m = M L/EI of each zone
 * Accuracy: by branch and bound: no place of the zone exceeds the peak by more than 1e-12 of it, or by more than
 *           rounding in the shares of the shapes (1e-14 of their sum) */
void rbow_largest_moments(const prepared *p, const solution *solved, bool places, peak peaks[ZONES]);

/* The largest movement w = v/L of the whole tube; accuracy as above. Returned: movement  there */
peak rbow_largest_movement(const prepared *p, const solution *solved, double movement[PLANES]);

#endif
