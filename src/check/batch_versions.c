#include "check/batch_versions.h"
#include "mechanics/beamcolumn_body.h"

#ifdef BATCH_VERSIONS
#define WIDEST(name)                                                \
    (__builtin_cpu_supports("avx512dq") ? name##_avx512             \
         : __builtin_cpu_supports("avx2") ? name##_avx2             \
                                          : name##_2)
#else
#define WIDEST(name) name##_2
#endif

/* The formulas for strong tension take one number at a time. The axial load is lowest at an end of the range. */
void rbow_batch_evaluate(const prepared *p, const double factor[BATCH], bool even, batch *out)
{
    const double lowest = fmin(axial_at(p, factor[0]), axial_at(p, factor[BATCH - 1]));
    const bool strong = lowest * (p->member.length / p->unit) < strong_tension;
    (strong ? rbow_batch_evaluate_1 : WIDEST(rbow_batch_evaluate))(p, factor, even, out);
}

void rbow_along(const prepared *p, const solution *solved, quantity what, along *out)
{
    (solved->z < strong_tension ? rbow_along_1 : WIDEST(rbow_along))(p, solved, what, out);
}
