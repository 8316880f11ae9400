/* How far a column may go: the first value at which the margin falls under a target. */
#ifndef RAILBOW_STUDY_LIMIT_H
#define RAILBOW_STUDY_LIMIT_H

#include "study/problem.h"

typedef enum limit_state {
    LIMIT_FOUND,
    LIMIT_NEVER,  /* holds to the end */
    LIMIT_ALREADY /* short at the start */
} limit_state;

typedef struct limit_question {
    knob column;
    double from, to; /* in the program's units; to may be below from */
    double margin;   /* target */
} limit_question;

typedef struct limit_answer {
    limit_state state;
    double limit;        /* found: the last that holds; never: where the range ends; already: from */
    double ends_at;      /* where the model refused to go on; NaN if it did not */
    rbow_status refusal; /* why */
} limit_answer;

/* Looks at 400 even steps, and between them where the margin dips, so that a dip of 1/200 of the range is
 * found; the fall itself to 1e-7 of the range or better. The first value that the model refuses ends the range.
 * Status: RBOW_OK | the model's refusal of `from` itself | RBOW_NO_CONVERGENCE (no memory) */
rbow_status limit_find(const problem *p, const limit_question *q, limit_answer *answer);

#endif
