/* Steps toward a fixed point, each mixed from the last ones so that the change of the step is least.
 * Source: Anderson, J. ACM 12 (1965), 547 (from memory). */
#ifndef RAILBOW_FRAME_MIXER_H
#define RAILBOW_FRAME_MIXER_H

#include "frame/solver.h"

typedef struct mixer { /* the last steps: what the unknowns and the plain step changed by */
    rbow_frame_solver *s;
    int count, next;
} mixer;

/* Given: m, s->step  the plain step. Returned: s->step  the mixed one */
void rbow_frame_mix(mixer *m);

static inline double product(const double *a, const double *b, size_t n)
{
    double sum = 0;
    for (size_t j = 0; j < n; j++) sum += a[j] * b[j];
    return sum;
}

#endif
