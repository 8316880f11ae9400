#include "study/parallel.h"

#ifdef _OPENMP
#include <omp.h>
#endif

void parallel_for(size_t count, int jobs, void (*task)(void *context, size_t i), void *context)
{
#ifdef _OPENMP
    const int threads = jobs > 0 ? jobs : omp_get_num_procs();
#pragma omp parallel for schedule(dynamic) num_threads(threads) if (threads > 1 && count > 1)
#else
    (void)jobs;
#endif
    for (size_t i = 0; i < count; i++) task(context, i);
}
