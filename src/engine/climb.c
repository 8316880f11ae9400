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

static mark noted(climb *c, mark m)
{
    if (isnan(m.level[LEVEL_USE]) || isnan(m.level[LEVEL_INTERACTION])) c->failed = true;
    return m;
}

static mark judged(climb *c, double factor, const state *s, const peak peaks[2])
{
    const stress_peak stress = stress_of(c->frame, s, peaks);
    const interaction together = interaction_of(c->frame, s, peaks);
    return noted(c, mark_of(factor, peaks, &stress, &together));
}

static bool is_same(double a, double b)
{
    return a <= b && a >= b;
}

mark climb_look(climb *c, double factor)
{
    mark *last = &c->memory->last;
    if (is_same(last->factor, factor)) return *last;
    sight s;
    sight_at(c->frame, factor, c->tension, &s);
    *last = noted(c, mark_of_sight(factor, &s));
    return *last;
}

void memory_clear(memory *m)
{
    m->count = 0;
    m->end = 0;
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
    return !m->closely && m->level[c->level] > 0.99 && m->level[c->level] < 1;
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

/* ---- the first crossing in a stretch ------------------------------------------------------------------ */

static bool is_done(rbow_status status, const reach *out)
{
    return status != RBOW_OK || isfinite(out->factor);
}

/* How far the level is past its limit, which bends less there than the height; far beyond it no matter how far. */
static double past_limit(const climb *c, const mark *m)
{
    return fmin(m->level[c->level], 3) - 1;
}

static double bend_of(const climb *c, const mark s[3])
{
    return fabs(past_limit(c, &s[0]) - 2 * past_limit(c, &s[1]) + past_limit(c, &s[2]));
}

/* The most that a random hundred thousand members took was 67; what takes more is rounding in loads beyond reason. */
enum { HALVINGS_MOST = 1000 };

/* Over even steps of a parabola the top of a hump lies above the highest step by an eighth of its bend at most, and the
 * slope differs from the mean by half of it; what is more is for what is no parabola. A hump and the valley behind it
 * may cancel in one bend: a quarter of the bend of the stretch that was halved, a parabola's own, still counts. */
static const double sure_to_climb = 8, left_when_halved = 0.25;

static bool may_cross(const climb *c, const mark *a, const mark *b, double bend)
{
    return fmax(past_limit(c, a), past_limit(c, b)) + bend >= 0;
}

static bool is_sure_to_climb(const climb *c, const mark *a, const mark *b, double bend)
{
    return past_limit(c, b) - past_limit(c, a) > sure_to_climb * bend;
}

static rbow_status first_in(climb *c, const mark s[3], double known, reach *out);

static rbow_status first_in_half(climb *c, const mark *a, const mark *b, double bend, reach *out)
{
    const bool crosses = climb_height(c, b) >= 0;
    mark seen[2] = {*a, *b};
    if (c->failed || (!crosses && !may_cross(c, a, b, bend))) return RBOW_OK;
    if (c->halvings == 0 || bend <= height_enough || is_sure_to_climb(c, a, b, bend))
        return crosses ? crossing(c, seen, 1, out) : RBOW_OK;
    c->halvings--;
    const mark s[3] = {*a, climb_look(c, (a->factor + b->factor) / 2), *b};
    return first_in(c, s, bend, out);
}

/* The first crossing in a stretch that begins below the limit, looked at closely at its ends and half way; each half
 * that may hide one is halved again. `known`: the bend of what this is a half of, or of the stretch before. */
static rbow_status first_in(climb *c, const mark s[3], double known, reach *out)
{
    const double bend = fmax(left_when_halved * known, bend_of(c, s));
    const rbow_status status = first_in_half(c, &s[0], &s[1], bend, out);
    return is_done(status, out) ? status : first_in_half(c, &s[1], &s[2], bend, out);
}

static rbow_status first_looked_at_closely(climb *c, const mark s[3], double known, reach *out)
{
    mark close[3];
    for (int i = 0; i < 3; i++) close[i] = climb_look(c, s[i].factor);
    return first_in(c, close, known, out);
}

/* ---- stretch by stretch ------------------------------------------------------------------------------- */

/* Where a climb is looked at. Moments go with 1/(critical load - axial load), so the stretches are even in the logarithm
 * of that distance, counted to a tenth above the critical load so that they end. */
typedef struct grid {
    double low, high; /* load factors */
    double from, to;  /* the distance at both, in critical loads */
    double push;      /* by which a load factor of 1 lessens it; 0: stretches even in the load factor */
    int stretches;
} grid;

/* What is locked in may be relieved by the run load before it grows, or the reverse: then the stretches are shorter.
 * Where the axial load does not change, moments are straight lines and their largest has no hump. */
static grid grid_of(const climb *c, double low, double high)
{
    const frame *f = c->frame;
    const rbow_member *m = &f->member;
    const bool forced = m->miss_a > 0 || m->miss_b > 0 || fabs(c->tension) > 0;
    grid g = {low, high, 1.1 - frame_axial(f, low, c->tension) / f->critical_load,
              1.1 - frame_axial(f, high, c->tension) / f->critical_load, m->compression / f->critical_load, 1};
    const double apart = fabs(log(g.to / g.from));
    if (apart > 1e-6)
        g.stretches += (int)(apart / (forced ? 0.2 : 0.3));
    else
        g.push = 0;
    return g;
}

static double grid_place(const grid *g, double share)
{
    if (share >= 1) return g->high;
    if (!(fabs(g->push) > 0)) return g->low + share * (g->high - g->low);
    return g->low + (g->from - g->from * pow(g->to / g->from, share)) / g->push;
}

/* Given:    places  [1] to [3] the glances of a stretch, [0] one before; where one only seems to reach the limit, a
 *                   closer look takes its place
 *           known   the bend of the stretch before */
static rbow_status first_in_stretch(climb *c, const grid *g, mark places[4], double known, reach *out)
{
    const bool straight = !(fabs(g->push) > 0);
    const double bend = straight ? 0 : fmax(left_when_halved * known, bend_of(c, &places[1]));
    for (int i = 2; i <= 3; i++) {
        const mark *a = &places[i - 1], *b = &places[i];
        const bool crosses = climb_height(c, b) >= 0, sure = straight || is_sure_to_climb(c, a, b, bend);
        if (!crosses && (straight || !may_cross(c, a, b, bend))) continue;
        if (!sure) {
            const rbow_status status = first_looked_at_closely(c, &places[1], known, out);
            places[3] = climb_look(c, places[3].factor);
            return status;
        }
        const rbow_status status = crosses ? crossing(c, places, i, out) : RBOW_OK;
        if (is_done(status, out)) return status;
    }
    return RBOW_OK;
}

/* Given:    from  below the limit, looked at closely
 *           end   a glance; replaced by a closer look where it only seems to reach the limit
 * Returned: behind  the last place before end */
static rbow_status walk(climb *c, mark *behind, const mark *from, mark *end, reach *out)
{
    const grid g = grid_of(c, from->factor, end->factor);
    const double halves = 2 * g.stretches;
    mark places[4] = {*behind, *from};
    double bend = 0;
    for (int i = 1; i <= g.stretches; i++) {
        places[2] = glance(c, grid_place(&g, (2 * i - 1) / halves));
        places[3] = i < g.stretches ? glance(c, grid_place(&g, 2 * i / halves)) : *end;
        const rbow_status status = first_in_stretch(c, &g, places, bend, out);
        if (is_done(status, out)) return status;
        bend = bend_of(c, &places[1]);
        *behind = places[0] = places[2];
        places[1] = places[3];
    }
    *end = places[3];
    return RBOW_OK;
}

/* How far from one place the limit is by the straight line through two, and a little more; NaN where it does not rise.
 * Levels mostly curve upward, which makes it too far rather than too near. */
static double way_to_limit(level which, const mark *from, const mark *a, const mark *b)
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
        c->halvings = HALVINGS_MOST;
        mark end = end_of_walk(c, &behind, i == 0, &here, high);
        const rbow_status status = walk(c, &behind, &here, &end, out);
        if (c->failed) return RBOW_STRESS_OVERFLOW;
        if (is_done(status, out)) return status;
        here = end;
    }
    return RBOW_NO_CONVERGENCE;
}
