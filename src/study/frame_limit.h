/* How far a number of a frame may go before any of its tubes falls short. */
#ifndef RAILBOW_STUDY_FRAME_LIMIT_H
#define RAILBOW_STUDY_FRAME_LIMIT_H

#include "cases/limit_table.h"
#include "study/frame_target.h"

enum { FRAME_LIMIT_STEPS = 200 };

typedef struct frame_limit_question {
    frame_target target;
    double from, to, margin;
    int jobs;
    bool (*go_on)(void *context, size_t done); /* steps of FRAME_LIMIT_STEPS; false stops the search */
    void *context;
} frame_limit_question;

typedef struct frame_limit_answer {
    limit_answer found;     /* resolution: 1e-7 of the range */
    frame_lowest gives_way; /* just past the limit; tube = tube_count where nothing gives way */
    bool stopped;           /* go_on said so: no answer */
} frame_limit_answer;

/* The first value at which the margin of any tube in any run falls below the target: even steps, the dips between them, then
 * bisection. A value that the model refuses ends the range.
 * Status: RBOW_OK | the model's refusal of `from` itself | RBOW_NO_CONVERGENCE | RBOW_NO_MEMORY (at any value that was tried) */
rbow_status frame_limit_find(const frame_problem *p, const frame_limit_question *q, frame_limit_answer *answer);

#endif
