#include "study/limit.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <math.h>
#include <stdbool.h>

enum { ROUNDS_MOST = 100, SCANS_MOST = 5 };

typedef struct limit_search {
    const problem *problem;
    const limit_question *question;
    gsl_min_fminimizer *descent;
    limit_pace pace;
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

/* Where the scan ends: the last share that holds, the first found that does not, and whether the model refuses that or the
 * margin falls. */
typedef struct scan_end {
    double holds, past;
    bool refused;
} scan_end;

/* The margin may jump (at a wall that another row of the material serves), so the end is found by bisection. */
static scan_end end_between(limit_search *s, double holds, double past)
{
    bool refused = isnan(above(past, s));
    for (int i = 0; i < ROUNDS_MOST && past - holds > s->pace.near * past; i++) {
        const double middle = (holds + past) / 2, height = above(middle, s);
        if (height >= 0) {
            holds = middle;
        } else {
            past = middle;
            refused = isnan(height);
        }
    }
    return (scan_end){holds, past, refused};
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
    const double left = (double)(i - 2) / s->pace.steps, before = (double)(i - 1) / s->pace.steps, here = (double)i / s->pace.steps;
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

/* Returned: where it ends; past the whole range where it holds to the end */
static scan_end scan(limit_search *s, double first)
{
    double height[3] = {NAN, NAN, first};
    for (int i = 1; i <= s->pace.steps; i++) {
        scan_end e;
        height[0] = height[1];
        height[1] = height[2];
        height[2] = above((double)i / s->pace.steps, s);
        if (ends_at(s, i, height, &e)) return e;
    }
    return (scan_end){1, INFINITY, false};
}

/* A fall within the first step was halved into, and what lies before it was not looked at: that is done on the way to it. */
static void scan_closer(limit_search *s, double first, limit_answer *answer)
{
    limit_question narrow = *s->question;
    scan_end e = scan(s, first);
    for (int i = 1; i < SCANS_MOST && e.holds * s->pace.steps < 1; i++) {
        const double past = value_at(s->question, e.past);
        if (!(fabs(past - narrow.from) > 0)) break; /* no number lies between */
        narrow.to = past;
        s->question = &narrow;
        e = scan(s, first);
    }
    const double width = fabs(narrow.to - narrow.from), value = value_at(&narrow, e.holds);
    if (isinf(e.past))
        *answer = (limit_answer){LIMIT_NEVER, narrow.to, NAN, RBOW_OK, 1e-7 * width};
    else if (e.refused)
        *answer = (limit_answer){LIMIT_NEVER, value, value, s->refused, 1e-7 * width};
    else
        *answer = (limit_answer){LIMIT_FOUND, value, NAN, RBOW_OK, e.holds * s->pace.steps < 1 ? width / s->pace.steps : 1e-7 * width};
}

bool limit_contradicts(const limit_question *q, const limit_answer *a, double now, double margin_now)
{
    const double way = q->to > q->from ? now - q->from : q->from - now, to_limit = fabs(a->limit - q->from);
    const bool inside = way >= 0 && way <= fabs(q->to - q->from);
    if (!inside || isnan(margin_now)) return false;
    if (margin_now < q->margin) return way <= to_limit && a->state != LIMIT_ALREADY;
    return a->state == LIMIT_FOUND && way > to_limit && way - to_limit <= a->resolution;
}

rbow_status limit_find_at_pace(const problem *p, const limit_question *q, limit_pace pace, limit_answer *answer)
{
    limit_search s = {.problem = p, .question = q, .descent = gsl_min_fminimizer_alloc(gsl_min_fminimizer_brent),
                      .pace = pace};
    rbow_status status = RBOW_OK;
    if (s.descent == NULL) return RBOW_NO_MEMORY;
    const double first = above(0, &s);
    *answer = (limit_answer){LIMIT_ALREADY, q->from, NAN, RBOW_OK, 0};
    if (isnan(first))
        status = s.refused;
    else if (first >= 0)
        scan_closer(&s, first, answer);
    gsl_min_fminimizer_free(s.descent);
    return status;
}

rbow_status limit_find(const problem *p, const limit_question *q, limit_answer *answer)
{
    const double near = 1e-12; /* a fall close to the start of a wide range has its digits too */
    return limit_find_at_pace(p, q, (limit_pace){LIMIT_STEPS, near}, answer);
}
