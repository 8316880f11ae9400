#include "study/advice.h"

#include "study/compare.h"
#include "study/limit.h"

#include <math.h>
#include <stddef.h>

/* Measured with welded ends: a check takes 0.15 ms without an unknown direction, 1 ms with one, 11 ms with three, 200 ms with more. */
enum { STEPS_OF_FAST = 100, STEPS_OF_SLOW = 20, UNKNOWN_MOST = 3 };

static const double mm = 1 / 25.4;

double advice_miss_step(unit_system units)
{
    return units == UNITS_SI ? 0.5 * mm : 1.0 / 64;
}

double advice_step(unit_system units)
{
    return units == UNITS_SI ? 0.05 * mm : 0.001;
}

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

/* Directions that are not known: each makes a check several times as long. */
static int unknown_clocks(const rbow_member *m)
{
    return (m->bow > 0 && m->bow_clock <= RBOW_ANY_CLOCK) + (m->miss_a > 0 && m->miss_a_clock <= RBOW_ANY_CLOCK)
        + (m->miss_b > 0 && m->miss_b_clock <= RBOW_ANY_CLOCK) + (m->eccentricity > 0 && m->eccentricity_clock <= RBOW_ANY_CLOCK);
}

static void try_smaller(advice *a, const advice_question *q, int column, parameter at, double now, double step)
{
    const int steps = unknown_clocks(&q->problem->member) > 1 ? STEPS_OF_SLOW : STEPS_OF_FAST;
    const limit_question question = {.column = at, .from = 0, .to = now, .margin = 0};
    limit_answer found;
    if (!(fabs(now) > 0)) return;
    if (limit_find_at_pace(q->problem, &question, (limit_pace){steps, 1e-7}, &found) != RBOW_OK || found.state == LIMIT_ALREADY) return;
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

static void try_columns(advice *a, const advice_question *q)
{
    const rbow_member *m = &q->problem->member;
    try_smaller(a, q, ADVICE_MISS_A, offsetof(rbow_member, miss_a), m->miss_a, q->miss_step);
    try_smaller(a, q, ADVICE_MISS_B, offsetof(rbow_member, miss_b), m->miss_b, q->miss_step);
    try_smaller(a, q, ADVICE_GAP, offsetof(rbow_member, gap), m->gap, q->step);
    try_smaller(a, q, ADVICE_BOW, offsetof(rbow_member, bow), m->bow, q->step);
}

void advice_find(advice *a, const advice_question *q)
{
    const rbow_member *m = &q->problem->member;
    *a = (advice){.searched = true, .detailed = q->problem->details != NULL && q->problem->details->count > 0};
    if (!(margin_at(q->problem, offsetof(rbow_member, wall), m->wall) < 0)) return;
    a->searched = unknown_clocks(m) <= UNKNOWN_MOST;
    if (a->searched) try_columns(a, q);
    try_walls(a, q);
}
