#include "study/limit.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <math.h>
#include <stdbool.h>

enum { STEPS = 400, ROUNDS_MOST = 100 };

typedef struct limit_search {
    const problem *problem;
    const limit_question *question;
    gsl_min_fminimizer *descent;
    rbow_status refused; /* the last refusal */
} limit_search;

static double value_at(const limit_question *q, double share)
{
    return share < 1 ? q->from + share * (q->to - q->from) : q->to;
}

/* Margin less the target at a share of the range; NaN if the model refuses the value. An infinite margin becomes 1e6. */
static double above(double share, void *context)
{
    limit_search *s = context;
    const limit_question *q = s->question;
    rbow_member m = s->problem->member;
    rbow_margin answer;
    parameter_set(&m, q->column, value_at(q, share));
    const rbow_status status = problem_margin(s->problem, &m, &answer);
    if (status != RBOW_OK) {
        s->refused = status;
        return NAN;
    }
    return fmin(answer.margin - q->margin, 1e6);
}

/* The end of the scan: the last share that holds, and whether the model refuses the next one or the margin is too small. */
typedef struct scan_end {
    double holds;
    bool refused;
} scan_end;

/* The margin may jump (at a wall that another row of the material serves), so the end is found by bisection. */
static scan_end end_between(limit_search *s, double holds, double past)
{
    const double near = 1e-12;
    bool refused = isnan(above(past, s));
    for (int i = 0; i < ROUNDS_MOST && past - holds > near; i++) {
        const double middle = (holds + past) / 2, height = above(middle, s);
        if (height >= 0) {
            holds = middle;
        } else {
            past = middle;
            refused = isnan(height);
        }
    }
    return (scan_end){holds, refused};
}

/* Given three shares of which the middle one has the smallest margin. Returned: a share whose margin is below the target, or
 * NaN. If the middle and the right one are equal, the minimum lies between the two. */
static double dip_under(limit_search *s, double left, double middle, double right)
{
    gsl_function f = {.function = above, .params = s};
    if (gsl_min_fminimizer_set(s->descent, &f, middle, left, right) != GSL_SUCCESS
        && gsl_min_fminimizer_set(s->descent, &f, (middle + right) / 2, left, right) != GSL_SUCCESS)
        return NAN;
    for (int i = 0; i < ROUNDS_MOST; i++) {
        if (gsl_min_fminimizer_f_minimum(s->descent) < 0) return gsl_min_fminimizer_x_minimum(s->descent);
        if (gsl_min_fminimizer_x_upper(s->descent) - gsl_min_fminimizer_x_lower(s->descent) < 1e-7) break;
        if (gsl_min_fminimizer_iterate(s->descent) != GSL_SUCCESS) break;
    }
    return NAN;
}

/* Judges the i-th step from its height and those of the two steps before. Returned: whether the scan ends here. */
static bool ends_at(limit_search *s, int i, const double height[3], scan_end *e)
{
    const double left = (double)(i - 2) / STEPS, before = (double)(i - 1) / STEPS, here = (double)i / STEPS;
    const bool goes_on = height[2] >= 0;
    if (!goes_on) *e = end_between(s, before, here);
    const double right = goes_on ? here : e->holds, last = goes_on ? height[2] : above(e->holds, s);
    if (i > 1 && height[1] < height[0] && height[1] <= last) {
        const double dip = dip_under(s, left, before, right);
        if (!isnan(dip)) {
            *e = end_between(s, dip > before ? before : left, dip);
            return true;
        }
    }
    return !goes_on;
}

static void scan(limit_search *s, double first, limit_answer *answer)
{
    const limit_question *q = s->question;
    double height[3] = {NAN, NAN, first};
    for (int i = 1; i <= STEPS; i++) {
        scan_end e = {1, false};
        height[0] = height[1];
        height[1] = height[2];
        height[2] = above((double)i / STEPS, s);
        if (!ends_at(s, i, height, &e)) continue;
        const double value = value_at(q, e.holds);
        *answer = e.refused ? (limit_answer){LIMIT_NEVER, value, value, s->refused}
                            : (limit_answer){LIMIT_FOUND, value, NAN, RBOW_OK};
        return;
    }
    *answer = (limit_answer){LIMIT_NEVER, q->to, NAN, RBOW_OK};
}

rbow_status limit_find(const problem *p, const limit_question *q, limit_answer *answer)
{
    limit_search s = {.problem = p, .question = q, .descent = gsl_min_fminimizer_alloc(gsl_min_fminimizer_brent)};
    rbow_status status = RBOW_OK;
    if (s.descent == NULL) return RBOW_NO_CONVERGENCE;
    const double first = above(0, &s);
    *answer = (limit_answer){LIMIT_ALREADY, q->from, NAN, RBOW_OK};
    if (isnan(first))
        status = s.refused;
    else if (first >= 0)
        scan(&s, first, answer);
    gsl_min_fminimizer_free(s.descent);
    return status;
}
