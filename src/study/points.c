#include "study/points.h"

#include <gsl/gsl_qrng.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdlib.h>

enum { SOBOL_COLUMNS = 40 };

bool points_open(points *p, size_t columns, unsigned long seed)
{
    const bool sobol = columns > 0 && columns <= SOBOL_COLUMNS;
    *p = (points){
        .sequence = sobol ? gsl_qrng_alloc(gsl_qrng_sobol, (unsigned)columns) : NULL,
        .random = gsl_rng_alloc(gsl_rng_mt19937),
        .shift = malloc((columns + 1) * sizeof *p->shift),
        .columns = columns,
    };
    if (p->random == NULL || p->shift == NULL || (sobol && p->sequence == NULL)) return false;
    gsl_rng_set(p->random, seed);
    for (size_t i = 0; i < columns; i++) p->shift[i] = gsl_rng_uniform(p->random);
    return true;
}

void points_close(points *p)
{
    if (p->sequence != NULL) gsl_qrng_free(p->sequence);
    if (p->random != NULL) gsl_rng_free(p->random);
    free(p->shift);
}

bool points_are_random(const points *p)
{
    return p->sequence == NULL;
}

/* Above 40 columns the points are random. Halton's sequence allows more columns, but those of large primes correlate
 * (measured with 100 columns and 16384 samples: standard deviation wrong by 6 %, a share of 2 % shown as 21 %). */
void points_draw(const points *p, double point[])
{
    if (p->sequence == NULL) {
        for (size_t k = 0; k < p->columns; k++) point[k] = gsl_rng_uniform(p->random);
        return;
    }
    gsl_qrng_get(p->sequence, point);
    for (size_t k = 0; k < p->columns; k++) point[k] = fmod(point[k] + p->shift[k], 1);
}
