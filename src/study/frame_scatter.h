/* The spread of a frame's lowest margin when numbers of its joints and tubes vary within their tolerances. */
#ifndef RAILBOW_STUDY_FRAME_SCATTER_H
#define RAILBOW_STUDY_FRAME_SCATTER_H

#include "study/frame_problem.h"
#include "study/scatter.h"

typedef struct frame_tolerance {
    frame_parameter of;
    tolerance range; /* without its column */
} frame_tolerance;

typedef struct frame_scatter_question {
    const frame_tolerance *tolerances; /* any number */
    size_t count;
    size_t before, samples; /* how many samples are passed over, and how many are taken then */
    unsigned long seed;
    int jobs;
    /* is called from time to time with the number of samples done; stops if it returns false; NULL for none */
    bool (*go_on)(void *context, size_t done);
    void *context;
} frame_scatter_question;

typedef struct frame_sample {
    rbow_status status;
    bool failed;         /* memory ran out */
    frame_lowest lowest; /* as of frame_problem_margin, where the status is RBOW_OK */
} frame_sample;

typedef struct frame_scatter_answer {
    tally tally;
    frame_sample *samples;
    size_t *worst; /* for each tube: the samples in which its margin is the lowest */
} frame_scatter_answer;

/* Points as in points.h. The same question gives the same answer, for any number of threads, and for parts of the samples as for
 * all. frame_scatter_free whatever the status. */
scatter_status frame_scatter_run(const frame_problem *p, const frame_scatter_question *q, frame_scatter_answer *answer);
void frame_scatter_free(frame_scatter_answer *answer);

#endif
