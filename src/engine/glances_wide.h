/* glances_at for machines with wider vector instructions. */
#ifndef RAILBOW_ENGINE_GLANCES_WIDE_H
#define RAILBOW_ENGINE_GLANCES_WIDE_H

#include "engine/glances.h"

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define GLANCES_WIDE
void glances_avx2(const frame *f, double tension, const double factor[GLANCES], glances *out);
void glances_avx512(const frame *f, double tension, const double factor[GLANCES], glances *out);
#endif

#endif
