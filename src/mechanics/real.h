/* The number type of the library's formulas: one double, or 2, 4 or 8 of them at once.
 *
 * The file that includes this first defines LANES. Every formula that serves both the single evaluation and the batch
 * is written once, for `real`: with LANES 1 it is a double, otherwise a vector whose lanes hold one load factor each.
 * Every width rounds alike. */
#ifndef RAILBOW_MECHANICS_REAL_H
#define RAILBOW_MECHANICS_REAL_H

#include <math.h>
#include <stdbool.h>

#ifndef LANES
#define LANES 1
#endif

#define ALL_LANES ((1u << LANES) - 1)

#ifndef INLINE /* tests/coverage gives its own */
#define INLINE static inline __attribute__((always_inline))
#endif

#if LANES == 1

typedef double real;
typedef int mask; /* the outcome of a comparison, in each lane */

#define MASK_NOT(m) (!(m))
#define MASK_ANY(m) (m)
#define MASK_BITS(m) ((unsigned)(m) & 0xff)
#define REAL_CHOOSE(m, a, b) ((m) ? (a) : (b))
#define REAL_LARGER(a, b) ((b) < (a) ? (a) : (b))
#define REAL_SMALLER(a, b) ((a) < (b) ? (a) : (b))
#define REAL_LANE(a, i) (a)

#else

typedef double real __attribute__((vector_size(LANES * sizeof(double))));

#if LANES == 8
#include <immintrin.h>
typedef __mmask8 mask;
#define REAL_LESS(a, b) _mm512_cmp_pd_mask(a, b, _CMP_LT_OQ)
#define REAL_CHOOSE(m, a, b) _mm512_mask_blend_pd(m, b, a)
#define REAL_LARGER(a, b) _mm512_max_pd(a, b)
#define REAL_SMALLER(a, b) _mm512_min_pd(a, b)
#define REAL_ROOT(a) _mm512_sqrt_pd(a)
#define MASK_NOT(m) ((mask)((m) ^ 0xff))
#define MASK_BITS(m) ((unsigned)(m) & 0xff)
#else
typedef long long mask __attribute__((vector_size(LANES * sizeof(double))));
#define REAL_LESS(a, b) ((a) < (b))
#define MASK_NOT(m) (~(m))
#if LANES == 4
#include <immintrin.h>
#define REAL_CHOOSE(m, a, b) _mm256_blendv_pd(b, a, (__m256d)(m))
#define REAL_LARGER(a, b) _mm256_max_pd(a, b)
#define REAL_SMALLER(a, b) _mm256_min_pd(a, b)
#define REAL_ROOT(a) _mm256_sqrt_pd(a)
#define MASK_BITS(m) ((unsigned)_mm256_movemask_pd((__m256d)(m)))
#else
#define REAL_CHOOSE(m, a, b) (real)(((m) & (mask)(a)) | (~(m) & (mask)(b)))
#define REAL_LARGER(a, b) choose((b) < (a), a, b)
#define REAL_SMALLER(a, b) choose((a) < (b), a, b)
#define REAL_ROOT(a) ((real){sqrt((a)[0]), sqrt((a)[1])})
#define MASK_BITS(m) ((unsigned)(((m)[0] != 0) | ((m)[1] != 0) << 1))
#endif
#endif

#define MASK_ANY(m) (MASK_BITS(m) != 0)
#define REAL_LANE(a, i) ((a)[i])

#endif

/* The same number in every lane. */
INLINE real all(double x)
{
#if LANES == 1
    return x;
#else
    return x - (real){0};
#endif
}

/* a < b; false if one is not a number. */
INLINE mask less(real a, real b)
{
#if LANES == 1
    return a < b;
#else
    return REAL_LESS(a, b);
#endif
}

INLINE real choose(mask m, real a, real b)
{
    return REAL_CHOOSE(m, a, b);
}

/* The larger; b if one is not a number. */
INLINE real larger(real a, real b)
{
    return REAL_LARGER(a, b);
}

INLINE real smaller(real a, real b)
{
    return REAL_SMALLER(a, b);
}

INLINE real size(real a)
{
    return larger(a, -a);
}

INLINE real root(real a)
{
#if LANES == 1
    return sqrt(a);
#else
    return REAL_ROOT(a);
#endif
}

#endif
