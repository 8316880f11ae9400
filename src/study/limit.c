#include "study/limit.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <math.h>
#include <stdbool.h>

enum { STEPS = 400, ROUNDS_MOST = 100 };

typedef struct walk {
    const problem *problem;
    const limit_question *question;
    rbow_status refused; /* the last refusal */
} walk;

/* Margin above the target at a share of the way; NaN where the model refuses. Without a limit it is large. */
static double above(double share, void *context)
{
    walk *w = context;
    const limit_question *q = w->question;
    rbow_member m = w->problem->member;
    rbow_margin answer;
    knob_set(&m, q->column, share < 1 ? q->from + share * (q->to - q->from) : q->to);
    const rbow_status status = problem_margin(w->problem, &m, &answer);
    if (status != RBOW_OK) {
        w->refused = status;
        return NAN;
    }
    return fmin(answer.margin - q->margin, 1e6);
}

/* The margin may jump (a wall that another material row serves), so the fall is halved into, not interpolated.
 * A place where the model refuses counts as neither side. */
static double fall_between(walk *w, double holds, double falls)
{
    for (int i = 0; i < ROUNDS_MOST && falls - holds > 1e-10; i++) {
        const double middle = (holds + falls) / 2;
        if (above(middle, w) < 0)
            falls = middle;
        else
            holds = middle;
    }
    return falls;
}

static double edge_between(walk *w, double fine, double refused)
{
    for (int i = 0; i < ROUNDS_MOST && refused - fine > 1e-10; i++) {
        const double middle = (fine + refused) / 2;
        if (isnan(above(middle, w)))
            refused = middle;
        else
            fine = middle;
    }
    return fine;
}

/* The bottom of a dip: its place if it is under the target, else NaN. */
static double dip_under(walk *w, double left, double middle, double right)
{
    gsl_function f = {.function = above, .params = w};
    gsl_min_fminimizer *s = gsl_min_fminimizer_alloc(gsl_min_fminimizer_brent);
    double bottom = NAN;
    if (s != NULL && gsl_min_fminimizer_set(s, &f, middle, left, right) == GSL_SUCCESS)
        for (int i = 0; i < ROUNDS_MOST && isnan(bottom); i++) {
            if (gsl_min_fminimizer_iterate(s) != GSL_SUCCESS) break;
            if (gsl_min_fminimizer_f_minimum(s) < 0) bottom = gsl_min_fminimizer_x_minimum(s);
            if (gsl_min_fminimizer_x_upper(s) - gsl_min_fminimizer_x_lower(s) < 1e-7) break;
        }
    if (s != NULL) gsl_min_fminimizer_free(s);
    return bottom;
}

static double value_at(const limit_question *q, double share)
{
    return share < 1 ? q->from + share * (q->to - q->from) : q->to;
}

rbow_status limit_find(const problem *p, const limit_question *q, limit_answer *answer)
{
    walk w = {.problem = p, .question = q};
    double height[3] = {NAN, NAN, above(0, &w)};
    *answer = (limit_answer){LIMIT_ALREADY, q->from, NAN, RBOW_OK};
    if (isnan(height[2])) return w.refused;
    if (height[2] < 0) return RBOW_OK;

    for (int i = 1; i <= STEPS; i++) {
        const double here = (double)i / STEPS, before = (double)(i - 1) / STEPS;
        height[0] = height[1];
        height[1] = height[2];
        height[2] = above(here, &w);
        const bool refused = isnan(height[2]);
        const double end = refused ? edge_between(&w, before, here) : here;
        const double last = refused ? above(end, &w) : height[2];
        double fall = NAN;
        if (i > 1 && height[1] < height[0] && height[1] <= last)
            fall = dip_under(&w, (double)(i - 2) / STEPS, before, end);
        if (isnan(fall) && last < 0) fall = end;
        if (!isnan(fall)) {
            const double holds = fall > before ? before : (double)(i - 2) / STEPS;
            *answer = (limit_answer){LIMIT_FOUND, value_at(q, fall_between(&w, holds, fall)), NAN, RBOW_OK};
            return RBOW_OK;
        }
        if (refused) {
            *answer = (limit_answer){LIMIT_NEVER, value_at(q, end), value_at(q, end), w.refused};
            return RBOW_OK;
        }
    }
    *answer = (limit_answer){LIMIT_NEVER, q->to, NAN, RBOW_OK};
    return RBOW_OK;
}
