/* Stumpff functions, the stability functions of a beam-column, for one number or for several at once:
 *     c_n(y) = sum over k >= 0 of (-y)^k / (2k + n)!
 * c_0 = cos u, c_1 = sin u / u, c_2 = (1 - cos u)/u^2 ... with u^2 = y; hyperbolic below y = 0, and analytic at 0.
 * Source: Stumpff, Himmelsmechanik I (1959), ch. V, from memory; the series can be verified directly. */
#ifndef RAILBOW_MECHANICS_STABILITY_FUNCTIONS_H
#define RAILBOW_MECHANICS_STABILITY_FUNCTIONS_H

#include "mechanics/real.h"

typedef struct stumpff {
    real c0, c1, c2, c3, c4;
} stumpff;

/* Eight terms in pairs, so that fewer products depend on each other. */
INLINE real eight_terms(const double c[8], real y)
{
    const real square = y * y;
    return (c[0] + c[1] * y) + square * (c[2] + c[3] * y)
        + square * square * ((c[4] + c[5] * y) + square * (c[6] + c[7] * y));
}

/* The series at y/64, where eight terms leave an error below 1e-19, followed by three doublings of the angle:
 *     c1(4y) = c0 c1     c2(4y) = c1^2/2     c3(4y) = (c2 + c0 c3)/4     c4(4y) = c3 (1 + c1)/8
 * Given:    y  -64 ... 40
 * Returned: all five, to a few rounding errors of the largest value between 0 and y */
INLINE stumpff stumpff_of(real y)
{
    static const double odd[8] = {1.0 / 6,          -1.0 / 120,          1.0 / 5040,         -1.0 / 362880,
                                  1.0 / 39916800.0, -1.0 / 6227020800.0, 1.0 / 1307674368e3, -1.0 / 355687428096e3};
    static const double even[8] = {1.0 / 24,          -1.0 / 720,           1.0 / 40320,         -1.0 / 3628800,
                                   1.0 / 479001600.0, -1.0 / 87178291200.0, 1.0 / 20922789888e3, -1.0 / 6402373705728e3};
    static const double share[3] = {1.0 / 16, 1.0 / 4, 1};
    const real w = y * (1.0 / 64);
    stumpff s;
    s.c3 = eight_terms(odd, w);
    s.c4 = eight_terms(even, w);
    s.c2 = 0.5 - w * s.c4;
    s.c1 = 1 - w * s.c3;
    s.c0 = 1 - w * s.c2;
    for (int i = 0; i < 3; i++) {
        s.c4 = s.c3 * (1 + s.c1) * 0.125;
        s.c3 = (s.c2 + s.c0 * s.c3) * 0.25;
        s.c2 = s.c1 * s.c1 * 0.5;
        s.c1 = s.c0 * s.c1;
        s.c0 = 1 - y * share[i] * s.c2;
    }
    return s;
}

typedef struct wave {
    real c, s; /* cos(u t) and sin(u t)/u with u^2 = z */
    real lag;  /* (1 - cos(u t))/z without cancellation */
} wave;

/* The two waves of a beam-column at a distance t, by the same method.
 * Given:    z t^2  -64 ... 40 */
INLINE wave wave_at(real z, real t)
{
    static const double sine[8] = {1,              -1.0 / 6,          1.0 / 120,          -1.0 / 5040,
                                   1.0 / 362880, -1.0 / 39916800, 1.0 / 6227020800.0, -1.0 / 1307674368e3};
    static const double cosine[8] = {1,             -1.0 / 2,         1.0 / 24,          -1.0 / 720,
                                     1.0 / 40320, -1.0 / 3628800, 1.0 / 479001600, -1.0 / 87178291200.0};
    const real eighth = t * 0.125, y = z * (eighth * eighth);
    real s = eighth * eight_terms(sine, y), c = eight_terms(cosine, y), half = s;
    for (int i = 0; i < 3; i++) {
        half = s;
        s = 2 * (half * c);
        c = 1 - 2 * z * (half * half);
    }
    return (wave){c, s, 2 * (half * half)};
}

/* The waves one step further, by the sine and cosine of a sum. */
INLINE wave next_wave(real z, wave from, wave step)
{
    return (wave){from.c * step.c - z * (from.s * step.s), from.s * step.c + from.c * step.s, all(0)};
}

/* The waves at twice the distance. */
INLINE wave double_wave(real z, wave half)
{
    const real lag = 2 * (half.s * half.s);
    return (wave){1 - z * lag, 2 * (half.s * half.c), lag};
}

#endif
