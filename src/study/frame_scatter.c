#include "study/frame_scatter.h"

#include "study/parallel.h"
#include "study/points.h"

#include <math.h>
#include <stdlib.h>

enum { BLOCK_LEAST = 8, BLOCK_MOST = 128, BLOCK_TUBES = 8192 };

typedef struct sampler {
    const frame_problem *problem;
    const frame_scatter_question *question;
    size_t first_run; /* the one that is worst as given */
    points points;
    double *drawn; /* a block of rows of probabilities */
    frame_sample *samples; /* of this block */
} sampler;

/* Samples between two looks at go_on: fewer on a large frame, which takes longer. The answer does not depend on it. */
static size_t block_of(const frame_problem *p)
{
    const size_t fitting = BLOCK_TUBES / (p->tube_count + 1);
    return fitting < BLOCK_LEAST ? BLOCK_LEAST : fitting > BLOCK_MOST ? BLOCK_MOST : fitting;
}

static rbow_status answer_changed(frame_problem *changed, const frame_scatter_question *q, const double point[], frame_lowest *lowest)
{
    for (size_t k = 0; k < q->count; k++) {
        const frame_tolerance *t = &q->tolerances[k];
        const rbow_status status = frame_parameter_set(changed, t->of, t->range.nominal + tolerance_deviation(&t->range, point[k]));
        if (status != RBOW_OK) return status;
    }
    return frame_problem_margin(changed, INFINITY, lowest);
}

static void answer_sample(void *context, size_t i)
{
    const sampler *s = context;
    frame_problem changed;
    frame_sample *to = &s->samples[i];
    *to = (frame_sample){.status = RBOW_NO_MEMORY};
    to->failed = !frame_problem_copy(&changed, s->problem);
    if (!to->failed) {
        frame_problem_swap_first(&changed, s->first_run);
        to->status = answer_changed(&changed, s->question, &s->drawn[i * s->question->count], &to->lowest);
        if (to->lowest.run == 0 || to->lowest.run == s->first_run) to->lowest.run = s->first_run - to->lowest.run;
    }
    to->failed = to->status == RBOW_NO_MEMORY;
    frame_problem_close(&changed);
}

static void add_sample(frame_scatter_answer *a, const frame_problem *p, const frame_sample *sample, const double point[])
{
    tally_add(&a->tally, sample->status, sample->lowest.lowest.margin, false, point);
    if (sample->status == RBOW_OK && sample->lowest.lowest.tube < p->tube_count) a->worst[sample->lowest.lowest.tube]++;
}

static scatter_status run_blocks(sampler *s, frame_scatter_answer *a)
{
    const frame_scatter_question *q = s->question;
    frame_lowest given;
    if (frame_problem_margin(s->problem, INFINITY, &given) == RBOW_OK) s->first_run = given.run;
    const size_t block = block_of(s->problem);
    for (size_t i = 0; i < q->before; i++) points_draw(&s->points, s->drawn);
    for (size_t done = 0; done < q->samples;) {
        const size_t count = q->samples - done < block ? q->samples - done : block;
        s->samples = a->samples + done;
        for (size_t i = 0; i < count; i++) points_draw(&s->points, &s->drawn[i * q->count]);
        parallel_for(count, q->jobs, answer_sample, s);
        for (size_t i = 0; i < count; i++)
            if (s->samples[i].failed) return SCATTER_NO_MEMORY;
        for (size_t i = 0; i < count; i++) add_sample(a, s->problem, &s->samples[i], &s->drawn[i * q->count]);
        done += count;
        if (q->go_on != NULL && !q->go_on(q->context, done)) return SCATTER_STOPPED;
    }
    tally_finish(&a->tally);
    return SCATTER_OK;
}

scatter_status frame_scatter_run(const frame_problem *p, const frame_scatter_question *q, frame_scatter_answer *a)
{
    sampler s = {.problem = p, .question = q, .drawn = malloc((block_of(p) * q->count + 1) * sizeof *s.drawn)};
    const bool drawn = points_open(&s.points, q->count, q->seed);
    const bool counted = tally_open(&a->tally, q->count, q->samples, points_are_random(&s.points));
    a->samples = malloc((q->samples + 1) * sizeof *a->samples);
    a->worst = calloc(p->tube_count + 1, sizeof *a->worst);
    const bool room = drawn && counted && s.drawn != NULL && a->samples != NULL && a->worst != NULL;
    const scatter_status status = room ? run_blocks(&s, a) : SCATTER_NO_MEMORY;
    points_close(&s.points);
    free(s.drawn);
    return status;
}

void frame_scatter_free(frame_scatter_answer *a)
{
    tally_close(&a->tally);
    free(a->samples);
    free(a->worst);
}
