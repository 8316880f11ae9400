/* The margins of the samples added up, in the order of the samples: their statistics, and how much each column drives them. */
#ifndef RAILBOW_STUDY_TALLY_H
#define RAILBOW_STUDY_TALLY_H

#include "cases/scatter_table.h"

#include <railbow/status.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct tally_bins tally_bins;

typedef struct tally {
    margin_statistics statistics;
    rbow_status refusal; /* of the first refused sample   */
    size_t shorts;       /* samples with a margin below 0 */
    double *margins;     /* the finite ones; sorted once the tally is finished */
    size_t finite;
    tally_bins *bins;    /* of each column: flat memory, whatever the number of samples */
    size_t columns, bin_count;
    bool random;
} tally;

/* Given:    random  the samples are random numbers: the shares are corrected for chance
 * Returned: false where memory ran out. tally_close either way. */
bool tally_open(tally *t, size_t columns, size_t samples, bool random);
void tally_close(tally *t);

/* One sample. Given: point  its probabilities, one for each column */
void tally_add(tally *t, rbow_status status, double margin, bool unstable, const double point[]);

/* Works the statistics out. */
void tally_finish(tally *t);

/* The column's share of the variance of the margin, first order: the variance of the mean margin for a given value of the
 * column, from the same samples in equal bins. The tally is finished and has a finite margin. */
double tally_share(const tally *t, size_t column);

/* A share under this may be chance: random samples give at most this to columns that do nothing, 19 times in 20 to all of them
 * together. 0 for a sequence. */
double tally_chance(const tally *t);

/* Wilson's score interval at 95 %. Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209. */
void wilson_interval(size_t hits, size_t all, double *low, double *high);

#endif
