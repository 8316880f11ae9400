#include "engine/wide_versions.h"

#ifdef WIDE_VERSIONS
#pragma GCC target("avx512f,avx512dq")
#include <immintrin.h>
#define VERSION(name) name##_avx512
#define LANES 8
#define LANES_MASK __mmask8
#define LANES_LESS(a, b) _mm512_cmp_pd_mask(a, b, _CMP_LT_OQ)
#define LANES_NOT(m) ((__mmask8)~(m))
#define LANES_CHOSEN(m, a, b) _mm512_mask_blend_pd(m, b, a)
#define LANES_LARGER(a, b) _mm512_max_pd(a, b)
#define LANES_SMALLER(a, b) _mm512_min_pd(a, b)
#define LANES_BITS(m) (m)
#define LANES_NEXT(a, b) (lanes)_mm512_alignr_epi64((__m512i)(b), (__m512i)(a), 1)
#include "engine/wide_body.h"
#endif
