/* The plain check: a second computation of a concrete member for tests, by dense stations along the tube and a dense scan
 * of the load factor, with no call into the library. Slow, short, and meant to be read. */
#ifndef TESTS_REFERENCE_PLAIN_H
#define TESTS_REFERENCE_PLAIN_H

#include <railbow/member.h>

#include <complex.h>
#include <stdbool.h>

typedef struct plain_zone { /* in^2, in^3, psi; arm: shear stress per torque; squash: Q times compression yield */
    double area, modulus, arm, squash, yield, q;
} plain_zone;

typedef struct plain_tube { /* a member; complex numbers are both planes, up + i right */
    rbow_member m;
    double inertia, radius, unit, weight, tension; /* in^4, in, EI/L in in-lbf, lb, lbf locked in */
    double buckling_load;                          /* lbf, with the ends as they are; of soft welds: */
    double critical_load, effective_length, slenderness, column_stress, column_load;
    plain_zone zones[2]; /* tube, weld */
    /* Without dimensions: lengths count in L, moments in EI/L, forces in EI/L^2. An end gives M its share of the moment: */
    double give[2], hold[2]; /* give M -+ hold v' = give moment + hold turn; give^2 + hold^2 = 1 */
    bool free_b;
    double complex moment[2], spread, point, turn[2]; /* the first three at load factor 1 */
    double complex wave, arc, kink, tip;              /* loads of the bow at z = 1, and its slope at B */
    double point_at, kink_at;
} plain_tube;

typedef struct plain_peak { double size, at, next, clock; } plain_peak; /* next: the largest other one, 0.01 in away */

typedef struct plain_state { /* psi, in-lbf; NaN at the critical load and above */
    double use, use_next, stress, stress_next, interaction; /* next: of the other zone */
    plain_peak moment;
} plain_state;

typedef struct plain_factors {
    double yield, column, interaction;
} plain_factors;

extern int plain_stations; /* places along the tube; 144 */

/* Given: a valid concrete member (no RBOW_WELDED end, no RBOW_ANY_CLOCK, weld_zone a number) and its material. */
plain_tube plain_tube_of(const rbow_member *member, const rbow_material *material);
plain_factors plain_factors_of(const plain_tube *tube);

/* The worst along the tube, the largest movement, and moment and movement at one place, in; at one load factor. */
plain_state plain_state_at(const plain_tube *tube, double factor);
plain_peak plain_moved(const plain_tube *tube, double factor);
void plain_place(const plain_tube *tube, double factor, double at, double *moment, double *moved);

#endif
