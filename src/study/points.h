/* The points of scatter: a row of probabilities for each sample. */
#ifndef RAILBOW_STUDY_POINTS_H
#define RAILBOW_STUDY_POINTS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct points {
    void *sequence; /* NULL: random numbers */
    void *random;
    double *shift;
    size_t columns;
} points;

/* Up to 40 columns follow Sobol's sequence, shifted by random numbers of the seed. More columns are random numbers of the seed.
 * Returned: false where memory ran out. points_close either way. */
bool points_open(points *p, size_t columns, unsigned long seed);
void points_close(points *p);

/* Whether the points are random numbers. */
bool points_are_random(const points *p);

/* The next point, `columns` probabilities in [0, 1). */
void points_draw(const points *p, double point[]);

#endif
