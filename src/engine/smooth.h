/* The functions in which beam-columns are smooth through zero axial load:
 *     c_n(z) = sum over k >= 0 of (-z)^k / (2k + n)!
 * c_0 = cos u, c_1 = sin u / u, c_2 = (1 - cos u)/u^2 ... with u^2 = z; hyperbolic for z < 0. */
#ifndef RAILBOW_ENGINE_SMOOTH_H
#define RAILBOW_ENGINE_SMOOTH_H

typedef struct smooth {
    double c0, c1, c2, c3, c4;
} smooth;

/* Given: z, -50 or more (below that, use forms that decay). Returned: all five, to rounding of the
 * largest of them. */
smooth smooth_at(double z);

#endif
