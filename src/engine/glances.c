#include "engine/glances_wide.h"

#define GLANCES_SCOPE static
#define GLANCES_AT narrow
#define LANES 2
#include "engine/glances_body.h"

typedef void (*glances_function)(const frame *, double, const double[], glances *);

static glances_function widest(void)
{
#ifdef GLANCES_WIDE
    if (__builtin_cpu_supports("avx512f")) return glances_avx512;
    if (__builtin_cpu_supports("avx2")) return glances_avx2;
#endif
    return narrow;
}

void glances_at(const frame *f, double tension, const double factor[GLANCES], glances *out)
{
    widest()(f, tension, factor, out);
}
