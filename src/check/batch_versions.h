/* The functions of batch.h and along.h for every width of vector. Their results are equal to the last bit. */
#ifndef RAILBOW_CHECK_BATCH_VERSIONS_H
#define RAILBOW_CHECK_BATCH_VERSIONS_H

#include "check/along.h"
#include "check/batch.h"

typedef void batch_function(const prepared *, const tube_loads[], bool, batch *);

batch_function rbow_batch_evaluate_loads_1, rbow_batch_evaluate_loads_2;
along_function rbow_along_1, rbow_along_2;

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define BATCH_VERSIONS
batch_function rbow_batch_evaluate_loads_avx2, rbow_batch_evaluate_loads_avx512;
along_function rbow_along_avx2, rbow_along_avx512;
#endif

#endif
