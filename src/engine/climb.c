#include "engine/climb.h"

#include "engine/root.h"

#include <math.h>

/* A climb follows a level (the use of yield, or the interaction) as the load factor grows, to the first place where it
 * reaches 1. Looking closely at the whole tube is what costs. So the climb goes on by glances, then follows one peak
 * from between two steps to the limit, and only there looks closely: a peak that is higher there takes the place of
 * the first. Measured, on forced and bowed rails: 384 000 instructions a check when every look was close. */

/* ---- looking ---------------------------------------------------------------------------------------- */

climb climb_of(const frame *f, double tension, level which, memory *m)
{
    const double push = f->member.compression;
    const double critical = push > 0 ? (f->critical_load + tension) / push : (double)INFINITY;
    return (climb){.frame = f, .tension = tension, .critical = critical, .level = which, .memory = m};
}

static mark mark_of(double factor, const peak peaks[2], const stress_peak *s, const interaction *i)
{
    return (mark){factor, {s->use, i->value}, {s->at, i->at}, {s->zone, i->zone}, {peaks[0], peaks[1]}, false};
}

static mark buckled(double factor)
{
    return (mark){.factor = factor, .level = {INFINITY, INFINITY}};
}

mark mark_of_sight(double factor, const sight *s)
{
    mark m = s->stands ? mark_of(factor, s->peaks, &s->stress, &s->together) : buckled(factor);
    m.closely = true;
    return m;
}

static mark judged(climb *c, double factor, const state *s, const peak peaks[2])
{
    const stress_peak stress = stress_of(c->frame, s, peaks);
    const interaction together = interaction_of(c->frame, s, peaks);
    if (isnan(stress.use) || isnan(together.value)) c->failed = true;
    return mark_of(factor, peaks, &stress, &together);
}

static bool is_same(double a, double b)
{
    return a <= b && a >= b;
}

mark climb_look(climb *c, double factor)
{
    mark *last = &c->memory->last;
    state s;
    peak peaks[2];
    if (is_same(last->factor, factor)) return *last;
    if (frame_state(c->frame, factor, c->tension, &s) != RBOW_OK) return buckled(factor);
    peak_moments(c->frame, &s, peaks);
    *last = judged(c, factor, &s, peaks);
    last->closely = true;
    return *last;
}

void memory_clear(memory *m)
{
    m->count = 0;
    m->end = m->step = 0;
    m->last.factor = NAN;
}

static mark *remembered(memory *m, double factor)
{
    for (int i = 0; i < m->count; i++)
        if (is_same(m->seen[i].factor, factor)) return &m->seen[i];
    return NULL;
}

static mark look_at_a_glance(climb *c, double factor)
{
    state s;
    peak peaks[2];
    if (frame_state(c->frame, factor, c->tension, &s) != RBOW_OK) return buckled(factor);
    peak_glance(c->frame, &s, peaks);
    return judged(c, factor, &s, peaks);
}

/* So near to the limit a glance does not tell on which side. */
static bool is_unsure(const climb *c, const mark *m)
{
    return !m->closely && m->level[c->level] > 0.97 && m->level[c->level] < 1;
}

static mark glance(climb *c, double factor)
{
    memory *m = c->memory;
    mark *known = remembered(m, factor);
    mark seen = known != NULL ? *known : look_at_a_glance(c, factor);
    if (is_unsure(c, &seen)) seen = climb_look(c, factor);
    if (known == NULL && m->count < REMEMBERED_MOST) known = &m->seen[m->count++];
    if (known != NULL) *known = seen;
    return seen;
}

static const double height_buckled = 1;

double climb_height(const climb *c, const mark *m)
{
    const double share = m->level[c->level];
    return isinf(share) ? height_buckled : (share - 1) / (share + 1);
}

/* ---- from between two steps to the limit ------------------------------------------------------------- */

/* Heights whose size is below this are the limit: the factor is then right to about as many digits, a hundred times
 * better than promised. */
static const double height_enough = 1e-12;

static double close_height(double factor, void *context)
{
    climb *c = context;
    const mark m = climb_look(c, factor);
    return climb_height(c, &m);
}

typedef struct followed { /* one peak, from load factor to load factor */
    climb *climb;
    int zone;
    peak peak;
} followed;

static double followed_height(double factor, void *context)
{
    followed *w = context;
    climb *c = w->climb;
    state s;
    peak peaks[2] = {{.size = -1}, {.size = -1}};
    if (frame_state(c->frame, factor, c->tension, &s) != RBOW_OK) return height_buckled;
    peak_follow(c->frame, &s, &w->peak);
    peaks[w->zone] = w->peak;
    const mark m = judged(c, factor, &s, peaks);
    return climb_height(c, &m);
}

static followed leading_peak(climb *c, const mark *m)
{
    const int leads = m->zone[c->level];
    return (followed){c, leads, m->peaks[leads]};
}

reach climb_never(const climb *c)
{
    return (reach){INFINITY, c->tension, NAN, ZONE_TUBE};
}

static void reached(const climb *c, const mark *m, reach *out)
{
    *out = (reach){m->factor, c->tension, m->at[c->level], m->zone[c->level]};
}

typedef struct secant { /* two places of the followed height */
    double before, height_before, at, height;
} secant;

static double slope_of(const secant *s)
{
    return (s->height - s->height_before) / (s->at - s->before);
}

/* Where the inverse parabola through the last three steps, or the line through two, is 0, and how it lies there. */
static secant guessed(const climb *c, const mark *seen, int last)
{
    const mark *a = &seen[last - 1], *b = &seen[last];
    const double low = climb_height(c, a), high = climb_height(c, b), line = (b->factor - a->factor) / (high - low);
    const double lowest = last > 1 ? climb_height(c, a - 1) : (double)INFINITY;
    double at = a->factor - low * line, flat = line;
    if (lowest < low) {
        const double bend = (line - (a->factor - a[-1].factor) / (low - lowest)) / (high - lowest);
        at += bend * low * high;
        flat -= bend * (low + high);
    }
    return (secant){at - flat, -1, at, 0};
}

/* The steps tell the limit to about a hundredth, and the slope there. From so near two or three secant steps end within
 * 1e-9, where a bracketing solver, which looks at both steps first, takes six. Measured:
 * 169 000 instructions a check with the solver, 151 000 so. */
static bool meets_limit(followed *w, const mark *seen, int last, secant *s)
{
    const double low = seen[last - 1].factor, high = seen[last].factor;
    *s = guessed(w->climb, seen, last);
    double slope = slope_of(s), next = s->at;
    for (int i = 0; i < 7; i++) {
        if (!(next > low && next < high)) return false;
        *s = (secant){s->at, s->height, next, followed_height(next, w)};
        if (i > 0) slope = slope_of(s);
        if (fabs(s->height) <= 1e-9) return i > 0 && slope > 0;
        next = s->at - s->height / slope;
    }
    return false;
}

static rbow_status crossing_looked_at_closely(climb *c, double low, double high, reach *out)
{
    double factor;
    const bracket b = {low, close_height(low, c), high, close_height(high, c)};
    if (!(b.at_low < 0 && b.at_high >= 0)) return RBOW_NO_CONVERGENCE;
    const rbow_status status = root_between(close_height, c, &b, height_enough, &factor);
    if (status != RBOW_OK) return status;
    const mark m = climb_look(c, factor);
    reached(c, &m, out);
    return RBOW_OK;
}

/* Given: seen  marks up the climb: the first below the limit, by glances the others, too, but for the last
 * The last may only seem to reach it: then a closer look takes its place, and out stays as it is. Each round follows a
 * peak that was higher, where the one before reached the limit. */
static rbow_status crossing_by_rounds(climb *c, mark *seen, int last, reach *out)
{
    enum { ROUNDS = 20 };
    mark top = seen[last];
    int under = last - 1;
    for (int i = 0; i < ROUNDS; i++) {
        followed w = leading_peak(c, &top);
        double factor;
        const double at_high = followed_height(top.factor, &w), at_low = followed_height(seen[under].factor, &w);
        if (at_low >= 0 && under > 0) {
            top = climb_look(c, seen[under--].factor);
            continue;
        }
        if (at_high < 0 && i == 0) {
            top = climb_look(c, top.factor);
            seen[last] = top;
            if (climb_height(c, &top) < 0) return RBOW_OK;
            continue;
        }
        const bracket b = {seen[under].factor, at_low, top.factor, at_high};
        if (!(at_low < 0 && at_high > 0)) break;
        const rbow_status status = root_between(followed_height, &w, &b, height_enough, &factor);
        if (status != RBOW_OK) return status;
        top = climb_look(c, factor);
        if (climb_height(c, &top) <= 10 * height_enough) {
            reached(c, &top, out);
            return RBOW_OK;
        }
    }
    return crossing_looked_at_closely(c, seen[under].factor, top.factor, out);
}

static rbow_status crossing(climb *c, mark *seen, int last, reach *out)
{
    followed w = leading_peak(c, &seen[last]);
    secant s;
    if (!meets_limit(&w, seen, last, &s)) return crossing_by_rounds(c, seen, last, out);
    const mark m = climb_look(c, s.at);
    if (fabs(climb_height(c, &m) - s.height) > 10 * height_enough) return crossing_by_rounds(c, seen, last, out);
    reached(c, &m, out);
    out->factor -= s.height / slope_of(&s);
    return RBOW_OK;
}

/* ---- step by step ------------------------------------------------------------------------------------ */

static bool is_hump(const climb *c, const mark *before, const mark *here, const mark *after)
{
    return climb_height(c, here) > climb_height(c, before) && climb_height(c, here) > climb_height(c, after);
}

/* A hump between steps is climbed to its top. */
static rbow_status first_of_hump(climb *c, double low, double middle, double high, reach *out)
{
    double at;
    const mark before = climb_look(c, low), here = climb_look(c, middle), after = climb_look(c, high);
    if (!is_hump(c, &before, &here, &after)) return RBOW_OK; /* only by a glance */
    const rbow_status status = highest_between(close_height, c, low, middle, high, &at);
    if (status != RBOW_OK) return status;
    mark seen[2] = {before, climb_look(c, at)};
    return climb_height(c, &seen[1]) < 0 ? RBOW_OK : crossing(c, seen, 1, out);
}

/* A level that is lower after the first step may still have risen at once. */
static bool rises_at_once(climb *c, const mark *from, double step, const mark *after)
{
    if (!(climb_height(c, after) < climb_height(c, from))) return false;
    const mark base = glance(c, from->factor), next = glance(c, from->factor + step);
    return climb_height(c, &next) > climb_height(c, &base);
}

enum { STEPS_MOST = 8 };

/* What is locked in may be relieved by the run load before it grows, or the reverse: then the climb is looked
 * at in more steps. A later walk need not take shorter ones than the first. */
static int steps_of(const climb *c, double span)
{
    const rbow_member *m = &c->frame->member;
    const int most = m->miss_a > 0 || m->miss_b > 0 || fabs(c->tension) > 0 ? STEPS_MOST : 3;
    const double enough = ceil(span / c->memory->step * (1 - 1e-9));
    return enough < most ? (int)fmax(enough, 1) : most;
}

static bool is_done(rbow_status status, const reach *out)
{
    return status != RBOW_OK || isfinite(out->factor);
}

/* Given:    behind  the last step before, or NULL
 *           from    below the limit, looked at closely
 *           end     a glance; replaced by a closer look where it only seems to reach the limit
 * Returned: behind  the last step before end */
static rbow_status walk(climb *c, mark *behind, bool first, const mark *from, mark *end, reach *out)
{
    const double span = end->factor - from->factor;
    const int steps = steps_of(c, span);
    const double wide = span / steps, at_once = 1e-6 * wide;
    mark seen[STEPS_MOST + 2];
    seen[0] = *behind;
    seen[1] = *from;
    if (is_same(c->memory->step, 0)) c->memory->step = wide;
    for (int i = 2; i <= steps + 1; i++) {
        rbow_status status = RBOW_OK;
        seen[i] = i == steps + 1 ? *end : glance(c, from->factor + (i - 1) * wide);
        if (i == 2 && first) {
            if (rises_at_once(c, from, at_once, &seen[i]))
                status = first_of_hump(c, from->factor, from->factor + at_once, seen[i].factor, out);
        } else if (is_hump(c, &seen[i - 2], &seen[i - 1], &seen[i])) {
            status = first_of_hump(c, seen[i - 2].factor, seen[i - 1].factor, seen[i].factor, out);
        }
        if (is_done(status, out)) return status;
        if (climb_height(c, &seen[i]) >= 0) status = crossing(c, &seen[1], i - 1, out);
        if (is_done(status, out)) return status;
    }
    *behind = seen[steps];
    *end = seen[steps + 1];
    return RBOW_OK;
}

/* How far from one place the limit is by the straight line through two, and a little more; NaN where it does not rise.
 * Levels mostly curve upward, which makes it too far rather than too near. */
static double way_to_limit(int which, const mark *from, const mark *a, const mark *b)
{
    const double rise = b->level[which] - a->level[which];
    return rise > 0 ? 1.02 * (1 - from->level[which]) / rise * (b->factor - a->factor) : (double)NAN;
}

/* Steps should be short, and few lie behind the limit: a walk ends a little beyond it, as far as a straight line tells;
 * the first, beyond the other level's limit, too, which is looked for next. */
static mark end_of_walk(climb *c, const mark *behind, bool first, const mark *from, double high)
{
    const double known = c->memory->end, start = from->factor, left = high - start;
    if (first && known > start && known < high) return glance(c, known);
    const double ahead = fmin(fmax(1, start), left / 2);
    const mark there = first ? glance(c, start + ahead) : *from;
    const mark *a = first ? from : behind;
    double way = way_to_limit(c->level, from, a, &there);
    if (isnan(way) && high >= FOR_EVER) { /* whatever acts may do nothing to the tube */
        const mark last = glance(c, high);
        if (climb_height(c, &last) < 0) return last;
    }
    if (first) way = fmax(way, way_to_limit(LEVEL_INTERACTION, from, a, &there)); /* a NaN falls out */
    const double away = isnan(way) ? 4 * ahead : fmin(fmax(way, 0.02 * ahead), 8 * ahead);
    const bool is_there = first && away > 0.8 * ahead && away <= ahead;
    const mark end = is_there ? there : glance(c, away < left ? start + away : high);
    if (is_same(known, 0)) c->memory->end = end.factor;
    return end;
}

rbow_status climb_to_limit(climb *c, const mark *from, double high, reach *out)
{
    enum { WALKS = 80 };
    *out = climb_never(c);
    mark here = *from, behind = *from;
    for (int i = 0; i < WALKS; i++) {
        if (climb_height(c, &here) > -height_enough) {
            reached(c, &here, out);
            return RBOW_OK;
        }
        if (!(here.factor < high)) return RBOW_OK;
        mark end = end_of_walk(c, &behind, i == 0, &here, high);
        const rbow_status status = walk(c, &behind, i == 0, &here, &end, out);
        if (c->failed) return RBOW_STRESS_OVERFLOW;
        if (is_done(status, out)) return status;
        here = end;
    }
    return RBOW_NO_CONVERGENCE;
}
