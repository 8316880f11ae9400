/* Eight load factors at once, for processors with AVX-512. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#pragma GCC target("avx512f,avx512dq")
#define LANES 8
#define VERSION(name) name##_avx512
#include "check/batch_body.h"
#endif
