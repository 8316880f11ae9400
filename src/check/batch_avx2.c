/* Four load factors at once, for processors with AVX2. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#pragma GCC target("avx2")
#define LANES 4
#define VERSION(name) name##_avx2
#include "check/batch_body.h"
#endif
