#include "check/batch_versions.h"
#include "check/loads_body.h"

#ifdef BATCH_VERSIONS
#define WIDEST(name)                                                \
    (__builtin_cpu_supports("avx512dq") ? name##_avx512             \
         : __builtin_cpu_supports("avx2") ? name##_avx2             \
                                          : name##_2)
#else
#define WIDEST(name) name##_2
#endif

/* The formulas for strong tension take one number at a time. */
void rbow_batch_evaluate_loads(const prepared *p, const tube_loads loads[BATCH], bool even, batch *out)
{
    double lowest = loads[0].axial;
    for (int i = 1; i < BATCH; i++) lowest = fmin(lowest, loads[i].axial);
    const bool strong = relative_load(p, lowest) < strong_tension;
    (strong ? rbow_batch_evaluate_loads_1 : WIDEST(rbow_batch_evaluate_loads))(p, loads, even, out);
}

void rbow_batch_evaluate(const prepared *p, const double factor[BATCH], bool even, batch *out)
{
    tube_loads loads[BATCH];
    for (int i = 0; i < BATCH; i++) loads_at(p, factor[i], &loads[i]);
    rbow_batch_evaluate_loads(p, loads, even, out);
}

void rbow_along(const prepared *p, const solution *solved, quantity what, along *out)
{
    (solved->z < strong_tension ? rbow_along_1 : WIDEST(rbow_along))(p, solved, what, out);
}
