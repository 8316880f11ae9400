#include "study/scatter.h"

#include "study/parallel.h"
#include "study/points.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>

enum { BLOCK = 4096, TASK = 64 };

/* ---- tolerances ------------------------------------------------------------------------------------- */

static double triangular(const tolerance *t, double u)
{
    const double both = t->minus + t->plus;
    if (!(both > 0)) return 0;
    if (u * both < t->minus) return -t->minus + sqrt(u * t->minus * both);
    return t->plus - sqrt((1 - u) * t->plus * both);
}

static double normal(const tolerance *t, double u)
{
    const double tail = gsl_cdf_ugaussian_P(-3), z = gsl_cdf_ugaussian_Pinv(tail + u * (1 - 2 * tail));
    return z * (z < 0 ? t->minus : t->plus) / 2;
}

double tolerance_deviation(const tolerance *t, double u)
{
    switch (t->shape) {
        case TOLERANCE_TRIANGULAR: return triangular(t, u);
        case TOLERANCE_NORMAL: return normal(t, u);
        default: return -t->minus + u * (t->minus + t->plus);
    }
}

/* ---- sampling --------------------------------------------------------------------------------------- */

typedef struct sampler {
    const problem *problem;
    const scatter_question *question;
    points points;
    double *drawn; /* BLOCK rows of probabilities */
    rbow_margin answers[BLOCK];
    rbow_status statuses[BLOCK];
    size_t count; /* in this block */
} sampler;

static bool sampler_open(sampler *s, const problem *p, const scatter_question *q)
{
    s->problem = p;
    s->question = q;
    s->drawn = malloc(BLOCK * q->count * sizeof *s->drawn);
    return points_open(&s->points, q->count, q->seed) && s->drawn != NULL;
}

static void sampler_close(sampler *s)
{
    points_close(&s->points);
    free(s->drawn);
}

static void draw_block(sampler *s, size_t count)
{
    s->count = count;
    for (size_t i = 0; i < count; i++) points_draw(&s->points, &s->drawn[i * s->question->count]);
}

static void answer_sample(sampler *s, size_t i)
{
    const scatter_question *q = s->question;
    rbow_member m = s->problem->member;
    for (size_t k = 0; k < q->count; k++) {
        const tolerance *t = &q->tolerances[k];
        parameter_set(&m, t->column, t->nominal + tolerance_deviation(t, s->drawn[i * q->count + k]));
    }
    s->statuses[i] = problem_margin(s->problem, &m, &s->answers[i]);
}

static void answer_task(void *context, size_t task)
{
    sampler *s = context;
    for (size_t i = task * TASK; i < (task + 1) * TASK && i < s->count; i++) answer_sample(s, i);
}

static scatter_status run_blocks(sampler *s, tally *t)
{
    const scatter_question *q = s->question;
    for (size_t done = 0; done < q->samples; done += s->count) {
        draw_block(s, q->samples - done < BLOCK ? q->samples - done : BLOCK);
        parallel_for((s->count + TASK - 1) / TASK, q->jobs, answer_task, s);
        for (size_t i = 0; i < s->count; i++)
            tally_add(t, s->statuses[i], s->answers[i].margin, s->answers[i].unstable != 0, &s->drawn[i * q->count]);
        if (q->go_on != NULL && !q->go_on(q->context, done + s->count)) return SCATTER_STOPPED;
    }
    tally_finish(t);
    return SCATTER_OK;
}

/* Takes the margins along. */
static void take_answer(scatter_answer *answer, tally *t, size_t columns)
{
    *answer = (scatter_answer){.statistics = t->statistics, .refusal = t->refusal, .shorts = t->shorts, .margins = t->margins,
                               .finite = t->finite};
    for (size_t k = 0; k < columns && t->finite > 0; k++) answer->driver_share[k] = tally_share(t, k);
    t->margins = NULL;
}

scatter_status scatter_run(const problem *p, const scatter_question *q, scatter_answer *answer)
{
    scatter_status status = SCATTER_NO_MEMORY;
    sampler *s = calloc(1, sizeof *s);
    tally t;
    const bool room = tally_open(&t, q->count, q->samples, false);
    *answer = (scatter_answer){.margins = NULL};
    if (s != NULL && sampler_open(s, p, q) && room) status = run_blocks(s, &t);
    if (status == SCATTER_OK) take_answer(answer, &t, q->count);
    answer->statistics = t.statistics;
    if (s != NULL) sampler_close(s);
    free(s);
    tally_close(&t);
    return status;
}
