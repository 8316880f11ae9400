/* The functions in which beam-columns are smooth through zero axial load:
 *     c_n(z) = sum over k >= 0 of (-z)^k / (2k + n)!
 * c_0 = cos u, c_1 = sin u / u, c_2 = (1 - cos u)/u^2 ... with u^2 = z; hyperbolic for z < 0. */
#ifndef RAILBOW_ENGINE_SMOOTH_H
#define RAILBOW_ENGINE_SMOOTH_H

typedef struct smooth {
    double c0, c1, c2, c3, c4;
} smooth;

/* The coefficients of c_3 and c_4 in powers of z: all ten leave 2^10/24! = 2e-21 at |z| = 2, the first eight 1e-18 at 0.8. */
#define SMOOTH_C3                                                                                   \
    {1.0 / 6,          -1.0 / 120,          1.0 / 5040,         -1.0 / 362880,                      \
     1.0 / 39916800.0, -1.0 / 6227020800.0, 1.0 / 1307674368e3, -1.0 / 355687428096e3,              \
     1.0 / 121645100408832e3, -1.0 / 51090942171709440e3}
#define SMOOTH_C4                                                                                   \
    {1.0 / 24,          -1.0 / 720,           1.0 / 40320,         -1.0 / 3628800,                  \
     1.0 / 479001600.0, -1.0 / 87178291200.0, 1.0 / 20922789888e3, -1.0 / 6402373705728e3,          \
     1.0 / 2432902008176640e3, -1.0 / 1124000727777607680e3}

/* In pairs, which shortens the wait for one product upon another. */
static inline double eight_terms(const double c[8], double w)
{
    const double square = w * w;
    return (c[0] + c[1] * w) + square * (c[2] + c[3] * w)
        + square * square * ((c[4] + c[5] * w) + square * (c[6] + c[7] * w));
}

/* Given: z, -50 or more (below that, use forms that decay). Returned: all five, to rounding of the
 * largest of them; c_1 to its own rounding, whose zero is where a pinned tube buckles. */
smooth smooth_at(double z);

#endif
