/* The beam-column of the plain check, without dimensions: lengths count in L, moments in EI/L, forces in EI/L^2, and
 * z = P L^2/EI is the only parameter. Both planes stand in one complex number, up + i right. */
#ifndef TESTS_REFERENCE_PLAIN_BEAM_H
#define TESTS_REFERENCE_PLAIN_BEAM_H

#include <railbow/beamcolumn.h>

#include <complex.h>
#include <stdbool.h>

typedef long double real;
typedef long double complex vector;

/* A: give M(0) + hold (v'(0) - turn_a) = give moment_a. B: give M(1) - hold (v'(1) + turn_b) = give moment_b. A fixed end
 * has hold 1 and give 0, a pinned one 0 and 1; a free B is pinned and has free_b. */
typedef struct plain_ends {
    real hold_a, give_a, hold_b, give_b;
    bool free_b;
} plain_ends;

typedef struct plain_loads {
    real z;
    vector moment_a, moment_b, spread, point, bow, turn_a, turn_b;
    double point_at, kink_at;
    rbow_bow_shape bow_shape;
} plain_loads;

enum { PLAIN_TURN, PLAIN_MOMENT, PLAIN_SHEAR, PLAIN_SPREAD, PLAIN_POINT, PLAIN_KINK, PLAIN_SINE, PLAIN_SHAPES };
typedef struct plain_beam { /* v, v', M and M' are sums of these shares of shapes */
    real z;
    double point_at, kink_at;
    vector share[PLAIN_SHAPES];
} plain_beam;

/* z of the smallest load at which the straight tube can bow. */
real plain_critical(const plain_ends *ends);

/* Given: loads with z below critical. */
plain_beam plain_solve(const plain_ends *ends, const plain_loads *loads);

/* v, v', M and M' at x, just beyond a load there. */
void plain_movement(const plain_beam *beam, real x, vector sum[4]);

typedef struct plain_peak { double value, at, next; } plain_peak; /* next: the largest other maximum */

/* Raises top to the largest |M|^2 (or |v|^2) from one place to another with no load or kink between them, found from
 * `stations` places and the maxima between them. What it can miss: a maximum that exceeds its neighbours among the
 * stations by more than 0.2 % of |M|^2, and the curvature allows a tenth of that. */
void plain_raise(plain_peak *top, double value, double at);
void plain_raise_moment(const plain_beam *beam, double from, double to, int stations, plain_peak *top);
void plain_raise_movement(const plain_beam *beam, double from, double to, int stations, plain_peak *top);

#endif
