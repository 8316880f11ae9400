#include "engine/wide_versions.h"

#ifdef WIDE_VERSIONS
#pragma GCC target("avx2")
#include <immintrin.h>
#define VERSION(name) name##_avx2
#define LANES 4
#define LANES_MASK long long __attribute__((vector_size(32)))
#define LANES_LESS(a, b) ((a) < (b))
#define LANES_NOT(m) (~(m))
#define LANES_CHOSEN(m, a, b) _mm256_blendv_pd(b, a, (__m256d)(m))
#define LANES_LARGER(a, b) _mm256_max_pd(a, b)
#define LANES_SMALLER(a, b) _mm256_min_pd(a, b)
#define LANES_BITS(m) _mm256_movemask_pd((__m256d)(m))
#define LANES_NEXT(a, b) _mm256_shuffle_pd(a, _mm256_permute2f128_pd(a, b, 0x21), 5)
#include "engine/wide_body.h"
#endif
