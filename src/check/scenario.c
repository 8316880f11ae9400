#include "check/scenario.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stddef.h>

/* Ratios that differ by no more are one margin. */
static const double tie = 1e-9;

/* The other is taken where it is lower by more than a tie; the ratio is the lower one in any case. */
static void take_if_lower(scenario *least, const scenario *other)
{
    const double lowest = fmin(least->ratio, other->ratio);
    if (other->ratio < least->ratio - tie) *least = *other;
    least->ratio = lowest;
}

/* ---- corners and what is locked in ----------------------------------------------------------------------- */

static unsigned fit_of(const rbow_member *m)
{
    return (m->miss_a > 0 ? RBOW_FIT_MISS_A : 0u) | (m->miss_b > 0 ? RBOW_FIT_MISS_B : 0u)
        | (fabs(m->gap) > 0 ? RBOW_FIT_GAP : 0u);
}

rbow_status rbow_scenarios_of(const rbow_member *member, const rbow_material *material, scenarios *s)
{
    weld_corner corners[CORNERS_MOST];
    rbow_status status = RBOW_OK;
    const rbow_member *m = member;
    s->ratio = NULL;
    s->ratio_of = NULL;
    s->several_minima = false;
    s->fit = fit_of(m);
    s->unknown[CLOCK_BOW] = end_is(m->bow_clock, RBOW_ANY_CLOCK) && m->bow > 0;
    s->unknown[CLOCK_MISS_A] = end_is(m->miss_a_clock, RBOW_ANY_CLOCK) && m->miss_a > 0;
    s->unknown[CLOCK_MISS_B] = end_is(m->miss_b_clock, RBOW_ANY_CLOCK) && m->miss_b > 0;
    s->unknown[CLOCK_ECCENTRICITY] = end_is(m->eccentricity_clock, RBOW_ANY_CLOCK) && fabs(m->compression * m->eccentricity) > 0;
    s->corner_count = rbow_weld_corners(m->end_a, m->end_b, corners);
    for (int i = 0; i < s->corner_count && status == RBOW_OK; i++) {
        rbow_member corner = *m;
        double *clocks[CLOCKS] = {&corner.bow_clock, &corner.miss_a_clock, &corner.miss_b_clock, &corner.eccentricity_clock};
        for (int k = 0; k < CLOCKS; k++)
            if (end_is(*clocks[k], RBOW_ANY_CLOCK)) *clocks[k] = 0;
        corner.end_a = corners[i].end_a;
        corner.end_b = corners[i].end_b;
        s->joints[i] = corners[i].joints;
        status = rbow_prepare(&corner, material, &s->corners[i]);
    }
    return status;
}

prepared rbow_concrete(const scenarios *s, const scenario *one)
{
    prepared p = s->corners[one->corner];
    rbow_member *m = &p.member;
    const double *clock = one->clock;
    const bool same = one->kept == s->fit && end_is(m->bow_clock, clock[CLOCK_BOW]) && end_is(m->miss_a_clock, clock[CLOCK_MISS_A])
        && end_is(m->miss_b_clock, clock[CLOCK_MISS_B]) && end_is(m->eccentricity_clock, clock[CLOCK_ECCENTRICITY]);
    if (same) return p;
    if (!(one->kept & RBOW_FIT_MISS_A)) m->miss_a = 0;
    if (!(one->kept & RBOW_FIT_MISS_B)) m->miss_b = 0;
    if (!(one->kept & RBOW_FIT_GAP)) m->gap = 0;
    m->bow_clock = one->clock[CLOCK_BOW];
    m->miss_a_clock = one->clock[CLOCK_MISS_A];
    m->miss_b_clock = one->clock[CLOCK_MISS_B];
    m->eccentricity_clock = one->clock[CLOCK_ECCENTRICITY];
    rbow_prepare_loads(&p);
    return p;
}

/* ---- directions ---------------------------------------------------------------------------------------- */

enum { COARSE = 12, BEST = 3 };

typedef struct direction_search {
    const scenarios *s;
    int open[CLOCKS], count; /* the clocks that are searched */
    scenario best[BEST];     /* rising ratio */
    int found;
    rbow_status status;
} direction_search;

static double least_ratio_of(const rbow_member *m, const load_factors *k)
{
    return fmin(fmin(k->column, k->limits[LIMIT_INTERACTION].factor) / m->factor, k->limits[LIMIT_YIELD].factor / m->factor_yield);
}

/* Whether the scenario's ratio lies below `most`; then it is in it. Where nothing is unknown it is most likely the one
 * that governs, and all its factors are found at once. */
static bool is_below(direction_search *d, scenario *one, double most)
{
    const prepared p = rbow_concrete(d->s, one);
    rbow_status status;
    one->solved = d->s->ratio == NULL && d->count == 0 && d->s->corner_count == 1 && one->kept == d->s->fit && isinf(most);
    if (one->solved) {
        status = rbow_load_factors(&p, &one->factors);
        one->ratio = least_ratio_of(&p.member, &one->factors);
    } else if (d->s->ratio == NULL) {
        status = rbow_least_ratio(&p, most, &one->ratio);
    } else {
        status = d->s->ratio(d->s->ratio_of, &p, most, &one->ratio);
    }
    if (status != RBOW_OK) d->status = status;
    return status == RBOW_OK && one->ratio < most;
}

/* The share of a ratio that it may lie above one within `step` of it. The ratio bends by at most `bend` of itself in each
 * clock: of a ratio (1 - m cos t)/load, by m/(1 - m), so m may be up to 0.98 of what the tube has. */
static double reach_of(const direction_search *d, double step)
{
    const double bend = 64;
    return fmin(1, d->count * bend / 8 * step * step);
}

static bool are_neighbours(const direction_search *d, const scenario *a, const scenario *b)
{
    bool near = true;
    for (int k = 0; k < d->count; k++)
        near = near && fabs(remainder(a->clock[d->open[k]] - b->clock[d->open[k]], 2 * M_PI)) < 1.5 * 2 * M_PI / COARSE;
    return near;
}

/* Of neighbours the lowest alone is kept; among equals the one found first: clocks are tried in rising order. */
static void keep_if_better(direction_search *d, scenario one, double most)
{
    const double lowest = d->found > 0 ? fmin(most, d->best[0].ratio) : most;
    const double in_reach = lowest / (1 - reach_of(d, M_PI / COARSE)); /* of what it may fall below */
    const double highest = d->found < BEST ? in_reach : fmin(in_reach, d->best[BEST - 1].ratio);
    if (!is_below(d, &one, highest) || !(one.ratio < highest * (1 - 1e-12))) return;
    int kept = 0;
    for (int i = 0; i < d->found; i++) {
        const bool near = are_neighbours(d, &d->best[i], &one);
        if (near && d->best[i].ratio <= one.ratio * (1 + 1e-12)) return;
        if (!near) d->best[kept++] = d->best[i];
    }
    int i = d->found = kept < BEST ? kept + 1 : BEST;
    for (i--; i > 0 && d->best[i - 1].ratio > one.ratio + tie; i--) d->best[i] = d->best[i - 1];
    d->best[i] = one;
}

static void try_all(direction_search *d, scenario one, int from, double most)
{
    if (from >= d->count || from >= CLOCKS) {
        keep_if_better(d, one, most);
        return;
    }
    for (int i = 0; i < COARSE && d->status == RBOW_OK; i++) {
        one.clock[d->open[from]] = 2 * M_PI * i / COARSE;
        try_all(d, one, from + 1, most);
    }
}

static double wrapped(double clock)
{
    const double turned = fmod(clock, 2 * M_PI);
    return turned < 0 ? turned + 2 * M_PI : turned;
}

static scenario turned(direction_search *d, const scenario *from, int clock, double by)
{
    scenario next = *from;
    next.clock[clock] = wrapped(next.clock[clock] + by);
    is_below(d, &next, 2 * from->ratio); /* what is higher is as good as twice */
    return next;
}

/* One clock to the vertex of the parabola through three places, or to the lowest of them.
 * Returned: whether the parabola told the ratio at its vertex */
static bool step_down(direction_search *d, scenario *at, int clock, double step)
{
    const scenario low = turned(d, at, clock, -step), high = turned(d, at, clock, step);
    const double bend = low.ratio - 2 * at->ratio + high.ratio, rise = high.ratio - low.ratio;
    const bool inside = bend > 0 && fabs(rise) < 2 * bend;
    const scenario vertex = inside ? turned(d, at, clock, -step * rise / (2 * bend)) : *at;
    const double told = inside ? at->ratio - rise * rise / (8 * bend) : (double)NAN;
    const scenario *const next[] = {&low, &high, &vertex};
    for (int i = 0; i < 3; i++)
        if (next[i]->ratio < at->ratio * (1 - 1e-12)) *at = *next[i];
    const bool level = fabs(low.ratio - high.ratio) + fabs(bend) <= 1e-12 * at->ratio;
    return level || fabs(vertex.ratio - told) <= tie * at->ratio;
}

/* Whether no coarse step of one clock leads lower: if one does, that place has been found, too. */
static bool is_lowest_around(direction_search *d, const scenario *at)
{
    for (int k = 0; k < d->count; k++) {
        for (int side = -1; side <= 1; side += 2) {
            scenario next = *at;
            next.clock[d->open[k]] = wrapped(next.clock[d->open[k]] + side * 2 * M_PI / COARSE);
            if (is_below(d, &next, at->ratio) && next.ratio < at->ratio * (1 - 1e-12)) return false;
        }
    }
    return true;
}

/* Parabolas of ever smaller steps, to a hundredth of a degree, or to where they tell the ratio and it falls no more. A ratio with
 * several minima within a step can look like a parabola whose vertex is between them: there no parabola ends the search. */
static void refine_from(direction_search *d, scenario *at, double most, double step)
{
    const double least = 0.01 * M_PI / 180;
    for (; step > least && d->status == RBOW_OK && at->ratio * (1 - reach_of(d, step)) < most;) {
        const scenario from = *at;
        bool told = true;
        for (int k = 0; k < d->count; k++) told = step_down(d, at, d->open[k], step) && told;
        if (told && !d->s->several_minima && from.ratio - at->ratio <= tie * at->ratio) return;
        bool far = false;
        for (int k = 0; k < d->count; k++)
            far = far || fabs(remainder(at->clock[d->open[k]] - from.clock[d->open[k]], 2 * M_PI)) > 0.9 * step;
        if (!far) step /= d->s->several_minima ? 2 : 4;
    }
}

/* Of several minima within a step, those beside the one that is found. */
static void refine_beside(direction_search *d, scenario *at, double most)
{
    const double step = M_PI / COARSE;
    const scenario middle = *at;
    for (int k = 0; k < d->count; k++) {
        for (int i = -4; i <= 4; i++) {
            scenario other = turned(d, &middle, d->open[k], i * step / 4);
            refine_from(d, &other, most, step / 8);
            if (other.ratio < at->ratio * (1 - 1e-12)) *at = other;
        }
    }
}

static void refine(direction_search *d, scenario *at, double most)
{
    refine_from(d, at, most, M_PI / COARSE);
    if (d->s->several_minima) refine_beside(d, at, most);
}

static double sum_of_clocks(const scenario *s)
{
    double sum = 0;
    for (int k = 0; k < CLOCKS; k++) sum += s->clock[k];
    return sum;
}

rbow_status rbow_worst_direction(const scenarios *s, int corner, unsigned kept, double most, scenario *worst)
{
    direction_search d = {.s = s, .status = RBOW_OK};
    const rbow_member *m = &s->corners[0].member;
    scenario one = {.corner = corner, .kept = kept, .ratio = most,
                    .clock = {m->bow_clock, m->miss_a_clock, m->miss_b_clock, m->eccentricity_clock}};
    const unsigned needs[CLOCKS] = {[CLOCK_MISS_A] = RBOW_FIT_MISS_A, [CLOCK_MISS_B] = RBOW_FIT_MISS_B};
    for (int k = 0; k < CLOCKS; k++)
        if (s->unknown[k] && (needs[k] & ~kept) == 0) d.open[d.count++] = k;
    *worst = one;
    if (!(most > 0)) return RBOW_OK; /* nothing is below 0 */
    try_all(&d, one, 0, most);
    double lowest = most;
    for (int i = 0; i < d.found && d.count > 0; i++) {
        if (i == 0 || is_lowest_around(&d, &d.best[i])) refine(&d, &d.best[i], lowest);
        lowest = fmin(lowest, d.best[i].ratio);
    }
    bool any = false;
    for (int i = 0; i < d.found; i++) {
        const scenario *b = &d.best[i];
        if (!(b->ratio < most)) continue;
        lowest = fmin(b->ratio, worst->ratio);
        const bool lower = b->ratio < worst->ratio - tie;
        const bool smaller = any && b->ratio <= worst->ratio + tie && sum_of_clocks(b) < sum_of_clocks(worst) - 1e-3;
        if (!any || lower || smaller) *worst = *b;
        worst->ratio = lowest;
        any = true;
    }
    return d.status;
}

/* ---- all of them --------------------------------------------------------------------------------------- */

/* Over the corners from one on. Replaces `least` where a margin is lower by more than a tie. */
static rbow_status search_corners(const scenarios *s, int from, unsigned kept, scenario *least)
{
    for (int i = from; i < s->corner_count; i++) {
        scenario worst;
        const rbow_status status = rbow_worst_direction(s, i, kept, least->ratio, &worst);
        if (status != RBOW_OK) return status;
        take_if_lower(least, &worst);
    }
    return RBOW_OK;
}

/* Where some of what is locked in has gone. */
static rbow_status search_relaxed(const scenarios *s, scenario *least)
{
    rbow_status status = RBOW_OK;
    for (unsigned kept = (s->fit - 1) & s->fit; kept > 0 && status == RBOW_OK; kept = (kept - 1) & s->fit)
        status = search_corners(s, 0, kept, least);
    return status;
}

/* The first corner's. Given: likely  a ratio that it is likely to lie below, or INFINITY: it saves time */
static rbow_status first_of(const scenarios *s, unsigned kept, double likely, scenario *first)
{
    const rbow_status status = rbow_worst_direction(s, 0, kept, likely, first);
    return status == RBOW_OK && isfinite(likely) && first->ratio >= likely ? rbow_worst_direction(s, 0, kept, INFINITY, first) : status;
}

rbow_status rbow_worst_case(const scenarios *s, scenario *governs)
{
    rbow_status status = first_of(s, s->fit, INFINITY, governs);
    if (status == RBOW_OK) status = search_corners(s, 1, s->fit, governs);
    if (status == RBOW_OK) status = search_relaxed(s, governs);
    if (status == RBOW_OK && s->fit != 0) status = search_corners(s, 0, 0, governs);
    return status;
}

static rbow_status search_as_built(const scenarios *s, worst_cases *out)
{
    out->least_as_built = INFINITY;
    out->most_as_built = -INFINITY;
    for (int i = 0; i < s->corner_count; i++) {
        const scenario *worst = &out->as_built[i];
        const rbow_status status = rbow_worst_direction(s, i, s->fit, INFINITY, &out->as_built[i]);
        if (status != RBOW_OK) return status;
        if (i == 0) out->governs = *worst;
        else take_if_lower(&out->governs, worst);
        out->least_as_built = fmin(out->least_as_built, worst->ratio);
        out->most_as_built = fmax(out->most_as_built, worst->ratio);
    }
    return RBOW_OK;
}

static rbow_status search_unforced(const scenarios *s, worst_cases *out)
{
    scenario least;
    out->least_unforced = out->least_as_built;
    if (s->fit == 0) return RBOW_OK;
    rbow_status status = first_of(s, 0, 1.5 * out->least_as_built, &least);
    if (status == RBOW_OK) status = search_corners(s, 1, 0, &least);
    out->least_unforced = least.ratio;
    if (status == RBOW_OK) take_if_lower(&out->governs, &least);
    return status;
}

rbow_status rbow_worst_cases(const scenarios *s, worst_cases *out)
{
    rbow_status status = search_as_built(s, out);
    if (status == RBOW_OK) status = search_relaxed(s, &out->governs);
    return status == RBOW_OK ? search_unforced(s, out) : status;
}
