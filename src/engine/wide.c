#include "engine/wide_versions.h"

#define VERSION(name) name##_anywhere
#define LANES 2
#define LANES_MASK long long __attribute__((vector_size(16)))
#define LANES_LESS(a, b) ((a) < (b))
#define LANES_NOT(m) (~(m))
#define LANES_CHOSEN(m, a, b) (lanes)(((m) & (mask)(a)) | (~(m) & (mask)(b)))
#define LANES_LARGER(a, b) chosen((a) > (b), a, b)
#define LANES_SMALLER(a, b) chosen((a) < (b), a, b)
#define LANES_BITS(m) (((m)[0] != 0) | ((m)[1] != 0) << 1)
#define LANES_NEXT(a, b) ((lanes){(a)[1], (b)[0]})
#include "engine/wide_body.h"

#ifdef WIDE_VERSIONS
#define WIDEST(name)                                                \
    (__builtin_cpu_supports("avx512dq") ? name##_avx512             \
         : __builtin_cpu_supports("avx2") ? name##_avx2             \
                                          : name##_anywhere)
#else
#define WIDEST(name) name##_anywhere
#endif

void glances_at(const frame *f, double tension, const double factor[GLANCES], glances *out)
{
    WIDEST(glances_at)(f, tension, factor, out);
}

void half_waves_at(double load, const places *all, int count, half_waves *out)
{
    WIDEST(half_waves_at)(load, all, count, out);
}

void nodes_at(const wave_field *f, const places *all, const half_waves *h, int from, int to, bool movement, nodes *out)
{
    WIDEST(nodes_at)(f, all, h, from, to, movement, out);
}
