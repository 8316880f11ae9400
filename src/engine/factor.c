#include "engine/factor.h"

#include "engine/root.h"

#include <math.h>

/* A climb follows a level (the use of yield, or the interaction) as the load factor grows, to the first place where it
 * reaches 1. Looking closely at the whole tube is what costs. So the climb goes on by glances, then follows one peak
 * from between two steps to the limit, and only there looks closely: a peak that is higher there takes the place of
 * the first. */

typedef enum level { LEVEL_USE, LEVEL_INTERACTION, LEVELS } level;

typedef struct mark { /* what is seen at a load factor */
    double factor;
    double level[LEVELS];
    double at[LEVELS]; /* where along the tube, and in which zone, the level is reached */
    int zone[LEVELS];
    peak peaks[2];
    bool closely; /* not by a glance */
} mark;

enum { REMEMBERED_MOST = 32 };

/* Both levels come from one equilibrium, so what one climb sees is kept for the other. */
typedef struct memory {
    mark seen[REMEMBERED_MOST];
    int count;
    mark last; /* looked at closely */
    double end, step; /* where one climb's first walk ended and its step, for the other to meet remembered places */
} memory;

typedef struct climb {
    const frame *frame;
    double tension;
    double critical; /* load factor at which the tube buckles; INFINITY for none */
    level level;
    memory *memory;
    bool failed;
} climb;

/* ---- looking ---------------------------------------------------------------------------------------- */

void sight_at(const frame *f, double factor, double tension, sight *out)
{
    out->stands = frame_state(f, factor, tension, &out->state) == RBOW_OK;
    if (!out->stands) return;
    peak_moments(f, &out->state, out->peaks);
    out->stress = stress_of(f, &out->state, out->peaks);
    out->together = interaction_of(f, &out->state, out->peaks);
}

static mark mark_of(double factor, const peak peaks[2], const stress_peak *s, const interaction *i)
{
    return (mark){factor, {s->use, i->value}, {s->at, i->at}, {s->zone, i->zone}, {peaks[0], peaks[1]}, false};
}

static mark buckled(double factor)
{
    return (mark){.factor = factor, .level = {INFINITY, INFINITY}};
}

static mark seen_at(double factor, const sight *s)
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

static mark look_closely(climb *c, double factor)
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

static void forget(memory *m)
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
    if (is_unsure(c, &seen)) seen = look_closely(c, factor);
    if (known == NULL && m->count < REMEMBERED_MOST) known = &m->seen[m->count++];
    if (known != NULL) *known = seen;
    return seen;
}

static const double height_buckled = 1;

/* 0 at the limit, and close to linear where a tube nears its critical load and bends without bound. */
static double height(const climb *c, const mark *m)
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
    const mark m = look_closely(c, factor);
    return height(c, &m);
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
    return height(c, &m);
}

static followed leading_peak(climb *c, const mark *m)
{
    const int leads = m->zone[c->level];
    return (followed){c, leads, m->peaks[leads]};
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
    const double low = height(c, a), high = height(c, b), line = (b->factor - a->factor) / (high - low);
    double at = a->factor - low * line, flat = line;
    if (last > 1 && height(c, a - 1) < low) {
        const double bend = (line - (a->factor - a[-1].factor) / (low - height(c, a - 1))) / (high - height(c, a - 1));
        at += bend * low * high;
        flat -= bend * (low + high);
    }
    return (secant){at - flat, -1, at, 0};
}

/* The steps tell the limit to about a hundredth, and the slope there. From so near two or three secant steps end within
 * 1e-9, where a bracketing solver, which looks at both steps first, takes six. Measured: 20 us a check, so PLACEHOLDER. */
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
    const mark m = look_closely(c, factor);
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
            top = look_closely(c, seen[under--].factor);
            continue;
        }
        if (at_high < 0 && i == 0) {
            top = look_closely(c, top.factor);
            seen[last] = top;
            if (height(c, &top) < 0) return RBOW_OK;
            continue;
        }
        const bracket b = {seen[under].factor, at_low, top.factor, at_high};
        if (!(at_low < 0 && at_high > 0)) break;
        const rbow_status status = root_between(followed_height, &w, &b, height_enough, &factor);
        if (status != RBOW_OK) return status;
        top = look_closely(c, factor);
        if (height(c, &top) <= 10 * height_enough) {
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
    const mark m = look_closely(c, s.at);
    if (fabs(height(c, &m) - s.height) > 10 * height_enough) return crossing_by_rounds(c, seen, last, out);
    reached(c, &m, out);
    out->factor -= s.height / slope_of(&s);
    return RBOW_OK;
}

/* ---- step by step ------------------------------------------------------------------------------------ */

static bool is_hump(const climb *c, const mark *before, const mark *here, const mark *after)
{
    return height(c, here) > height(c, before) && height(c, here) > height(c, after);
}

/* A hump between steps is climbed to its top. */
static rbow_status first_of_hump(climb *c, double low, double middle, double high, reach *out)
{
    double at;
    const mark before = look_closely(c, low), here = look_closely(c, middle), after = look_closely(c, high);
    if (!is_hump(c, &before, &here, &after)) return RBOW_OK; /* only by a glance */
    const rbow_status status = highest_between(close_height, c, low, middle, high, &at);
    if (status != RBOW_OK) return status;
    mark seen[2] = {before, look_closely(c, at)};
    return height(c, &seen[1]) < 0 ? RBOW_OK : crossing(c, seen, 1, out);
}

/* A level that is lower after the first step may still have risen at once. */
static bool rises_at_once(climb *c, const mark *from, double step, const mark *after)
{
    if (!(height(c, after) < height(c, from))) return false;
    const mark base = glance(c, from->factor), next = glance(c, from->factor + step);
    return height(c, &next) > height(c, &base);
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
        if (height(c, &seen[i]) >= 0) status = crossing(c, &seen[1], i - 1, out);
        if (is_done(status, out)) return status;
    }
    *behind = seen[steps];
    *end = seen[steps + 1];
    return RBOW_OK;
}

/* Without a change of axial load a level that grows at all grows for ever. */
static const double for_ever = 1e100;

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
    if (isnan(way) && high >= for_ever) { /* whatever acts may do nothing to the tube */
        const mark last = glance(c, high);
        if (height(c, &last) < 0) return last;
    }
    if (first) way = fmax(way, way_to_limit(LEVEL_INTERACTION, from, a, &there)); /* a NaN falls out */
    const double away = isnan(way) ? 4 * ahead : fmin(fmax(way, 0.02 * ahead), 8 * ahead);
    const bool is_there = first && away > 0.8 * ahead && away <= ahead;
    const mark end = is_there ? there : glance(c, away < left ? start + away : high);
    if (is_same(known, 0)) c->memory->end = end.factor;
    return end;
}

/* The first place between `from` and the load factor high where the level reaches 1. */
static rbow_status first_reach(climb *c, const mark *from, double high, reach *out)
{
    enum { WALKS = 80 };
    *out = (reach){INFINITY, c->tension, NAN, ZONE_TUBE};
    mark here = *from, behind = *from;
    for (int i = 0; i < WALKS && here.factor < high; i++) {
        if (height(c, &here) > -height_enough) {
            reached(c, &here, out);
            return RBOW_OK;
        }
        mark end = end_of_walk(c, &behind, i == 0, &here, high);
        const rbow_status status = walk(c, &behind, i == 0, &here, &end, out);
        if (c->failed) return RBOW_STRESS_OVERFLOW;
        if (is_done(status, out)) return status;
        here = end;
    }
    return here.factor < high ? RBOW_NO_CONVERGENCE : RBOW_OK;
}

/* ---- the three load factors -------------------------------------------------------------------------- */

static double larger(const frame *f, double (*of)(const zone *))
{
    return fmax(of(&f->zones[ZONE_TUBE]), of(&f->zones[ZONE_WELD]));
}

static double squash_load(const zone *z)
{
    return z->compression_yield * z->section.area;
}

static double pull_load(const zone *z)
{
    return z->yield * z->section.area;
}

/* The factor at which the axial load alone must have brought the tube to yield (0 where the gap does so); +1e-12 so
 * that rounding cannot leave the crossing outside. */
static double axial_yield(const frame *f, double tension)
{
    const double push = f->member.compression;
    const double factor =
        push > 0 ? (larger(f, squash_load) + tension) / push : (larger(f, pull_load) - tension) / -push;
    return fmax(0, factor * (1 + 1e-12));
}

static climb climb_of(const frame *f, double tension, level which, memory *m)
{
    const double push = f->member.compression;
    const double critical = push > 0 ? (f->critical_load + tension) / push : (double)INFINITY;
    return (climb){.frame = f, .tension = tension, .critical = critical, .level = which, .memory = m};
}

static rbow_status only_at_rest(const climb *c, const mark *rest, reach *out)
{
    *out = (reach){INFINITY, c->tension, NAN, ZONE_TUBE};
    if (height(c, rest) >= 0) reached(c, rest, out);
    return RBOW_OK;
}

/* With a push it stops at the elastic critical factor: a straight slender tube gets there first. */
static rbow_status yield_factor(const frame *f, double tension, const mark *rest, memory *m, reach *out)
{
    climb c = climb_of(f, tension, LEVEL_USE, m);
    const double push = f->member.compression;
    if (!frame_runs(f)) return only_at_rest(&c, rest, out);
    if (!(push > 0 || push < 0)) return first_reach(&c, rest, for_ever, out);

    const double yield = axial_yield(f, tension), most = fmin(c.critical, yield);
    const rbow_status status = first_reach(&c, rest, fmin(c.critical * (1 - 1e-10), yield), out);
    if (status == RBOW_OK && !(out->factor <= most)) *out = (reach){most, tension, NAN, ZONE_TUBE};
    return status;
}

static double column_factor(const frame *f, double tension)
{
    const double push = f->member.compression;
    if (push > 0) return fmax(0, (f->column_load + tension) / push);
    return -tension >= f->column_load ? 0 : INFINITY;
}

/* Counted only where the tube is in compression: from the factor that uses up a locked-in tension, or up
 * to the one that pulls a squeezed tube free. It never exceeds the column factor. */
static rbow_status interaction_factor(const frame *f, double tension, const mark *rest, memory *m, reach *out)
{
    climb c = climb_of(f, tension, LEVEL_INTERACTION, m);
    const double push = f->member.compression;
    *out = (reach){INFINITY, tension, NAN, ZONE_TUBE};
    if (push > 0) {
        const double column = column_factor(f, tension);
        const double low = fmin(fmax(0, tension / push), column);
        const mark from = low > 0 ? look_closely(&c, low) : *rest;
        const rbow_status status = first_reach(&c, &from, fmin(column, c.critical * (1 - 1e-10)), out);
        if (status == RBOW_OK && !(out->factor <= column)) *out = (reach){column, tension, NAN, ZONE_TUBE};
        return status;
    }
    if (!(tension < 0)) return RBOW_OK;
    if (push < 0) return first_reach(&c, rest, tension / push, out);
    return frame_runs(f) ? first_reach(&c, rest, for_ever, out) : only_at_rest(&c, rest, out);
}

/* Given: fit, loaded  seen with this tension */
static rbow_status factors_with(const frame *f, double tension, const mark *fit, const mark *loaded, factors *out)
{
    *out = (factors){0, {0, tension, NAN, ZONE_TUBE}, {0, tension, NAN, ZONE_TUBE}};
    if (-tension >= f->critical_load) return RBOW_OK; /* it buckles where it stands: all three 0 */
    memory m;
    forget(&m);
    if (isfinite(loaded->level[LEVEL_USE])) m.seen[m.count++] = *loaded;
    out->column = column_factor(f, tension);
    const rbow_status status = yield_factor(f, tension, fit, &m, &out->yield);
    if (status != RBOW_OK) return status;
    return interaction_factor(f, tension, fit, &m, &out->interaction);
}

static bool is_number(const sight *s)
{
    return !s->stands || (isfinite(s->stress.use) && isfinite(s->together.value));
}

/* Locked-in tension may have relaxed, so its help is not counted: not under a push, and not where it would only
 * stiffen the tube against what bends it. */
rbow_status factors_of(const frame *f, const sight *fit, const sight *loaded, factors *out)
{
    if (!is_number(fit) || !is_number(loaded)) return RBOW_STRESS_OVERFLOW;
    mark rest = seen_at(0, fit), run = seen_at(1, loaded);
    rbow_status status = factors_with(f, f->tension, &rest, &run, out);
    if (status != RBOW_OK || !(f->tension > 0)) return status;

    factors relaxed;
    sight s;
    sight_at(f, 0, 0, &s);
    rest = seen_at(0, &s);
    sight_at(f, 1, 0, &s);
    run = seen_at(1, &s);
    status = factors_with(f, 0, &rest, &run, &relaxed);
    if (relaxed.yield.factor < out->yield.factor) out->yield = relaxed.yield;
    if (relaxed.interaction.factor < out->interaction.factor) out->interaction = relaxed.interaction;
    out->column = fmin(out->column, relaxed.column);
    return status;
}

/* Nothing is locked in: at rest the tube is free of moments. */
static mark at_rest(void)
{
    return (mark){.peaks = {{.size = 0}, {.size = 0}}};
}

rbow_status least_ratio_of(const frame *unforced, double *ratio)
{
    const frame *f = unforced;
    const rbow_member *m = &f->member;
    const mark rest = at_rest();
    reach together, yield;
    memory met;
    forget(&met);
    rbow_status status = interaction_factor(f, 0, &rest, &met, &together);
    if (status != RBOW_OK) return status;
    *ratio = fmin(column_factor(f, 0), together.factor) / m->factor;

    const double at = *ratio * m->factor_yield;
    climb c = climb_of(f, 0, LEVEL_USE, &met);
    if (isfinite(at)) {
        const bool was_there = fabs(met.last.factor - at) < 1e-8 * at && height(&c, &met.last) < -1e-6;
        const mark there = was_there ? met.last : look_closely(&c, at);
        if (height(&c, &there) < 0) return RBOW_OK;
    }
    status = yield_factor(f, 0, &rest, &met, &yield);
    *ratio = fmin(*ratio, yield.factor / m->factor_yield);
    return status;
}
