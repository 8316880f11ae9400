#include "study/advice.h"

#include "study/compare.h"
#include "study/limit.h"

#include <math.h>
#include <stddef.h>

static double margin_at(const problem *p, parameter column, double value)
{
    rbow_member m = p->member;
    rbow_margin answer;
    parameter_set(&m, column, value);
    return problem_margin(p, &m, &answer) == RBOW_OK ? answer.margin : (double)NAN;
}

/* Toward 0, so that the rounded value lies on the way that the search went. */
static double rounded(double value, double step)
{
    return copysign(step * floor(fabs(value) / step), value);
}

static void add(advice *a, const advice_question *q, int column, double now, double to, double margin)
{
    if (margin >= 0) a->rows[a->count++] = (advice_row){q->name, column, now, to, margin};
}

static void try_smaller(advice *a, const advice_question *q, int column, parameter at, double now, double step)
{
    const limit_question question = {.column = at, .from = 0, .to = now, .margin = 0};
    limit_answer found;
    if (!(fabs(now) > 0)) return;
    if (limit_find(q->problem, &question, &found) != RBOW_OK || found.state == LIMIT_ALREADY) return;
    const double to = rounded(found.limit, step);
    if (fabs(to) > 0) add(a, q, column, now, to, margin_at(q->problem, at, to));
}

static void try_walls(advice *a, const advice_question *q)
{
    const rbow_member *m = &q->problem->member;
    for (size_t i = 0; i < q->wall_count; i++) {
        if (fabs(q->walls[i] - m->wall) <= 1e-9) continue;
        const compared tried = compare_tube(q->problem, (tube){.wall = q->walls[i]});
        if (tried.status != RBOW_OK || tried.result.verdict != RBOW_HOLDS) continue;
        add(a, q, ADVICE_WALL, m->wall, q->walls[i], tried.result.margin);
        return;
    }
}

void advice_find(advice *a, const advice_question *q)
{
    const rbow_member *m = &q->problem->member;
    a->count = 0;
    if (!(margin_at(q->problem, offsetof(rbow_member, wall), m->wall) < 0)) return;
    try_smaller(a, q, ADVICE_MISS_A, offsetof(rbow_member, miss_a), m->miss_a, q->miss_step);
    try_smaller(a, q, ADVICE_MISS_B, offsetof(rbow_member, miss_b), m->miss_b, q->miss_step);
    try_smaller(a, q, ADVICE_GAP, offsetof(rbow_member, gap), m->gap, q->step);
    try_smaller(a, q, ADVICE_BOW, offsetof(rbow_member, bow), m->bow, q->step);
    try_walls(a, q);
}
