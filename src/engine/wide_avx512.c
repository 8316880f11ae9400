#include "engine/wide_versions.h"

#ifdef WIDE_VERSIONS
#pragma GCC target("avx512f,avx512dq")
#include <immintrin.h>
#define VERSION(name) name##_avx512
#define LANES 8
#define LANES_CHOSEN(m, a, b) _mm512_mask_blend_pd(_mm512_movepi64_mask((__m512i)(m)), b, a)
#define LANES_LARGER(a, b) _mm512_max_pd(a, b)
#define LANES_BITS(m) _mm512_movepi64_mask((__m512i)(m))
#define LANES_NEXT(a, b) (lanes)_mm512_alignr_epi64((__m512i)(b), (__m512i)(a), 1)
#include "engine/wide_body.h"
#endif
