/* The spread of the margin when the columns vary within their tolerances. */
#ifndef RAILBOW_STUDY_SCATTER_H
#define RAILBOW_STUDY_SCATTER_H

#include "cases/scatter_table.h"
#include "cases/tolerance_table.h"
#include "study/problem.h"
#include "study/tally.h"

#include <stdbool.h>

typedef struct tolerance {
    parameter column;
    double nominal;     /* in the program's units */
    double minus, plus; /* >= 0, in the same units */
    tolerance_shape shape;
} tolerance;

typedef struct scatter_question {
    const tolerance *tolerances;
    size_t count; /* at most SCATTER_COLUMNS_MOST */
    size_t samples;
    unsigned long seed;
    int jobs;
    /* is called from time to time with the number of samples done; stops if it returns false; NULL for none */
    bool (*go_on)(void *context, size_t done);
    void *context;
} scatter_question;

enum { SCATTER_COLUMNS_MOST = 100 };

typedef struct scatter_answer {
    margin_statistics statistics;
    rbow_status refusal; /* of the first refused sample             */
    size_t shorts;       /* samples with a margin below 0           */
    double driver_share[SCATTER_COLUMNS_MOST]; /* of the variance of the margin, first order */
    double *margins;     /* the finite margins, sorted; the caller frees them */
    size_t finite;
} scatter_answer;

typedef enum scatter_status { SCATTER_OK, SCATTER_STOPPED, SCATTER_NO_MEMORY } scatter_status;

/* Samples for up to 40 columns follow Sobol's sequence, shifted by random numbers of the seed. For more columns they are
 * random numbers of the seed. The same seed gives the same answer, for any number of threads.
 * Driver share: the variance of the mean margin for a given value of the column, from the same samples in equal bins. */
scatter_status scatter_run(const problem *p, const scatter_question *q, scatter_answer *answer);

/* A deviation from the nominal, for a probability u in [0, 1). */
double tolerance_deviation(const tolerance *t, double u);

#endif
