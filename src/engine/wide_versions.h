/* The versions of wide.h's functions: two lanes run anywhere, four and eight where the processor has them. */
#ifndef RAILBOW_ENGINE_WIDE_VERSIONS_H
#define RAILBOW_ENGINE_WIDE_VERSIONS_H

#include "engine/wide.h"

typedef void glances_function(const frame *, double, const double[], glances *);
typedef void half_waves_function(double, const places *, int, half_waves *);
typedef void nodes_function(const wave_field *, const places *, const half_waves *, int, int, bool, nodes *);

glances_function glances_at_anywhere;
half_waves_function half_waves_at_anywhere;
nodes_function nodes_at_anywhere;

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define WIDE_VERSIONS
glances_function glances_at_avx2, glances_at_avx512;
half_waves_function half_waves_at_avx2, half_waves_at_avx512;
nodes_function nodes_at_avx2, nodes_at_avx512;
#endif

#endif
