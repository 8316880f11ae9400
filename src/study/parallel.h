/* Parallel loops. No other file starts threads. */
#ifndef RAILBOW_STUDY_PARALLEL_H
#define RAILBOW_STUDY_PARALLEL_H

#include <stddef.h>

/* Calls task(context, i) for every i below count, in any order, from up to `jobs` threads (0: one for each core).
 * Tasks must not write to shared data. If the system refuses threads, fewer do the work, at the least the caller's. */
void parallel_for(size_t count, int jobs, void (*task)(void *context, size_t i), void *context);

#endif
