#include "study/scatter.h"

#include "study/parallel.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>

enum { BLOCK = 4096, TASK = 64, BINS_MOST = 32, SOBOL_COLUMNS = 40 };

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

void wilson_interval(size_t hits, size_t all, double *low, double *high)
{
    const double z = 1.959963984540054, n = (double)all, p = (double)hits / n;
    const double centre = p + z * z / (2 * n), spread = z * sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    *low = hits == 0 ? 0 : (centre - spread) / (1 + z * z / n);
    *high = hits == all ? 1 : (centre + spread) / (1 + z * z / n);
}

/* ---- sampling --------------------------------------------------------------------------------------- */

typedef struct sampler {
    const problem *problem;
    const scatter_question *question;
    gsl_qrng *sequence; /* NULL: random numbers */
    gsl_rng *random;
    double shift[SCATTER_COLUMNS_MOST];
    double *points; /* BLOCK rows of probabilities */
    rbow_margin answers[BLOCK];
    rbow_status statuses[BLOCK];
    size_t count; /* in this block */
} sampler;

static bool sampler_open(sampler *s, const problem *p, const scatter_question *q)
{
    const bool sobol = q->count <= SOBOL_COLUMNS;
    s->problem = p;
    s->question = q;
    s->random = gsl_rng_alloc(gsl_rng_mt19937);
    s->sequence = sobol ? gsl_qrng_alloc(gsl_qrng_sobol, (unsigned)q->count) : NULL;
    s->points = malloc(BLOCK * q->count * sizeof *s->points);
    if (s->random == NULL || s->points == NULL || (sobol && s->sequence == NULL)) return false;
    gsl_rng_set(s->random, q->seed);
    for (size_t i = 0; i < q->count; i++) s->shift[i] = gsl_rng_uniform(s->random);
    return true;
}

static void sampler_close(sampler *s)
{
    if (s->sequence != NULL) gsl_qrng_free(s->sequence);
    if (s->random != NULL) gsl_rng_free(s->random);
    free(s->points);
}

/* Above 40 columns the points are random. Halton's sequence allows more columns, but those of large primes correlate
 * (measured with 100 columns and 16384 samples: standard deviation wrong by 6 %, a share of 2 % shown as 21 %). */
static void draw_point(const sampler *s, double point[])
{
    const size_t columns = s->question->count;
    if (s->sequence == NULL) {
        for (size_t k = 0; k < columns; k++) point[k] = gsl_rng_uniform(s->random);
        return;
    }
    gsl_qrng_get(s->sequence, point);
    for (size_t k = 0; k < columns; k++) point[k] = fmod(point[k] + s->shift[k], 1);
}

static void draw_block(sampler *s, size_t count)
{
    s->count = count;
    for (size_t i = 0; i < count; i++) draw_point(s, &s->points[i * s->question->count]);
}

static void answer_sample(sampler *s, size_t i)
{
    const scatter_question *q = s->question;
    rbow_member m = s->problem->member;
    for (size_t k = 0; k < q->count; k++) {
        const tolerance *t = &q->tolerances[k];
        parameter_set(&m, t->column, t->nominal + tolerance_deviation(t, s->points[i * q->count + k]));
    }
    s->statuses[i] = problem_margin(s->problem, &m, &s->answers[i]);
}

static void answer_task(void *context, size_t task)
{
    sampler *s = context;
    for (size_t i = task * TASK; i < (task + 1) * TASK && i < s->count; i++) answer_sample(s, i);
}

/* ---- statistics, in the order of the samples ---------------------------------------------------------- */

typedef struct bins { /* margins by equal intervals of the probability of one column */
    double sum[BINS_MOST];
    size_t count[BINS_MOST];
} bins;

typedef struct tally {
    scatter_answer *answer;
    bins *columns;
    size_t bins;
    size_t columns_count;
} tally;

/* A compromise between samples in each bin and number of bins. */
static size_t bins_for(size_t samples)
{
    const size_t fitting = samples / 32;
    return fitting < 4 ? 4 : fitting > BINS_MOST ? BINS_MOST : fitting;
}

static void add_sample(tally *t, const sampler *s, size_t i)
{
    scatter_answer *a = t->answer;
    const rbow_margin *m = &s->answers[i];
    a->statistics.samples++;
    if (s->statuses[i] != RBOW_OK) {
        if (!(a->statistics.refused > 0)) a->refusal = s->statuses[i];
        a->statistics.refused++;
        return;
    }
    a->shorts += m->margin < 0;
    if (m->unstable != 0) a->statistics.unstable++;
    if (isinf(m->margin)) {
        a->statistics.infinite++;
        return;
    }
    a->margins[a->finite++] = m->margin;
    for (size_t k = 0; k < t->columns_count; k++) {
        const size_t bin = (size_t)(s->points[i * t->columns_count + k] * (double)t->bins);
        t->columns[k].sum[bin] += m->margin;
        t->columns[k].count[bin]++;
    }
}

/* Variance of the means of the bins over the total variance. The correction for random samples, less the variance within the
 * bins, is not applied, because a sequence that fills every column evenly needs less (measured for a linear margin with 4096
 * samples: shares accurate to 0.002; with the correction they were 0.007 too low). */
static double share_of(const bins *b, size_t count, const scatter_answer *a)
{
    const double all = a->statistics.sd * a->statistics.sd * (double)(a->finite - 1);
    double between = 0;
    for (size_t i = 0; i < count; i++) {
        if (b->count[i] == 0) continue;
        const double n = (double)b->count[i], apart = b->sum[i] / n - a->statistics.mean;
        between += n * apart * apart;
    }
    const bool moves = a->statistics.sd > 1e-12 * (1 + fabs(a->statistics.mean)); /* by more than rounding */
    return moves ? fmin(1, between / all) : 0;
}

static void summarise(const tally *t)
{
    scatter_answer *a = t->answer;
    const double judged = a->statistics.samples - a->statistics.refused;
    a->statistics.short_share = a->statistics.short_low = a->statistics.short_high = NAN;
    if (judged > 0) {
        a->statistics.short_share = (double)a->shorts / judged;
        wilson_interval(a->shorts, (size_t)judged, &a->statistics.short_low, &a->statistics.short_high);
    }
    a->statistics.mean = a->statistics.sd = a->statistics.p01 = a->statistics.p05 = a->statistics.p50 = a->statistics.p95 = NAN;
    if (a->finite == 0) return;
    a->statistics.mean = gsl_stats_mean(a->margins, 1, a->finite);
    a->statistics.sd = a->finite > 1 ? gsl_stats_sd_m(a->margins, 1, a->finite, a->statistics.mean) : 0;
    for (size_t k = 0; k < t->columns_count; k++) a->driver_share[k] = share_of(&t->columns[k], t->bins, a);
    gsl_sort(a->margins, 1, a->finite);
    a->statistics.p01 = gsl_stats_quantile_from_sorted_data(a->margins, 1, a->finite, 0.01);
    a->statistics.p05 = gsl_stats_quantile_from_sorted_data(a->margins, 1, a->finite, 0.05);
    a->statistics.p50 = gsl_stats_quantile_from_sorted_data(a->margins, 1, a->finite, 0.50);
    a->statistics.p95 = gsl_stats_quantile_from_sorted_data(a->margins, 1, a->finite, 0.95);
}

static scatter_status run_blocks(sampler *s, tally *t)
{
    const scatter_question *q = s->question;
    for (size_t done = 0; done < q->samples; done += s->count) {
        draw_block(s, q->samples - done < BLOCK ? q->samples - done : BLOCK);
        parallel_for((s->count + TASK - 1) / TASK, q->jobs, answer_task, s);
        for (size_t i = 0; i < s->count; i++) add_sample(t, s, i);
        if (q->go_on != NULL && !q->go_on(q->context, done + s->count)) return SCATTER_STOPPED;
    }
    summarise(t);
    return SCATTER_OK;
}

scatter_status scatter_run(const problem *p, const scatter_question *q, scatter_answer *answer)
{
    scatter_status status = SCATTER_NO_MEMORY;
    sampler *s = calloc(1, sizeof *s);
    tally t = {answer, calloc(q->count, sizeof(bins)), bins_for(q->samples), q->count};
    *answer = (scatter_answer){.margins = malloc(q->samples * sizeof(double))};
    if (s != NULL && t.columns != NULL && answer->margins != NULL && sampler_open(s, p, q)) status = run_blocks(s, &t);
    if (s != NULL) sampler_close(s);
    free(s);
    free(t.columns);
    if (status == SCATTER_OK) return status;
    free(answer->margins);
    answer->margins = NULL;
    return status;
}
