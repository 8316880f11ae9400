#include "engine/factor.h"

#include "engine/root.h"
#include "engine/stress.h"

#include <math.h>

typedef enum level { LEVEL_USE, LEVEL_INTERACTION, LEVELS } level;

enum { REMEMBERED_MOST = 64 };

/* The two levels at a load factor come from one equilibrium, so each is remembered for the other's climb. */
typedef struct memory {
    double factor[REMEMBERED_MOST], height[REMEMBERED_MOST][LEVELS];
    int count;
    double hint; /* where one climb's range ended, for the other's, which then meets remembered places; 0 for none */
} memory;

/* What is followed as the load factor grows. */
typedef struct climb {
    const frame *frame;
    double tension;
    level level;
    memory *memory;
    int halvings; /* that are left */
    bool failed;
} climb;

/* A level u is mapped to (u - 1)/(u + 1): 0 at the limit, and close to linear at the pole, where a tube near its
 * critical load bends without bound. */
static double mapped(double u)
{
    return isinf(u) ? 1 : (u - 1) / (u + 1);
}

static void measure(const climb *c, double factor, double height[LEVELS])
{
    state s;
    peak peaks[2];
    if (frame_state(c->frame, factor, c->tension, &s) == RBOW_UNSTABLE) {
        height[LEVEL_USE] = height[LEVEL_INTERACTION] = 1;
        return;
    }
    peak_moments(c->frame, &s, peaks);
    height[LEVEL_USE] = mapped(stress_of(c->frame, &s, peaks).use);
    height[LEVEL_INTERACTION] = mapped(interaction_of(c->frame, &s, peaks).value);
}

static bool is_same(double a, double b)
{
    return a <= b && a >= b;
}

static double height(double factor, void *context)
{
    climb *c = context;
    memory *m = c->memory;
    int i = 0;
    while (i < m->count && !is_same(m->factor[i], factor)) i++;
    if (i == m->count) {
        if (i == REMEMBERED_MOST) i = --m->count;
        m->factor[i] = factor;
        measure(c, factor, m->height[i]);
        m->count++;
    }
    const double h = m->height[i][c->level];
    if (isnan(h)) c->failed = true;
    return h;
}

/* Heights whose size is below this are the limit: the factor is then right to about as many digits, a hundred times
 * better than promised. The last step of the solver usually leaves far less. */
static const double level_enough = 1e-12;

typedef struct step { /* a load factor and how high the level is there */
    double factor, height;
} step;

static step step_at(climb *c, double factor)
{
    return (step){factor, height(factor, c)};
}

static rbow_status crossing(climb *c, step below, step above, double *factor)
{
    const bracket b = {below.factor, below.height, above.factor, above.height};
    return root_between(height, c, &b, level_enough, factor);
}

static double bend_of(const step s[3])
{
    return fabs(s[0].height - 2 * s[1].height + s[2].height);
}

/* Over even steps of a parabola the top of a hump lies above the highest step by an eighth of its bend at most, and the
 * slope differs from the mean by half of it; what is more is for what is no parabola. A hump and the valley behind it
 * may cancel in one bend: a quarter of the bend of the stretch that was halved, a parabola's own, still counts. */
static const double sure_to_climb = 8, left_when_halved = 0.25;

/* The most that sixty thousand random members took was 67; what takes more is rounding in loads beyond reason. */
enum { HALVINGS_MOST = 1000 };

static rbow_status first_in(climb *c, const step s[3], double known, double *factor);

static rbow_status first_in_half(climb *c, step a, step b, double bend, double *factor)
{
    const bool crosses = b.height >= 0;
    *factor = INFINITY;
    if (c->failed) return RBOW_OK;
    if (!crosses && fmax(a.height, b.height) + bend < 0) return RBOW_OK;
    if (c->halvings == 0 || bend <= level_enough || b.height - a.height > sure_to_climb * bend)
        return crosses ? crossing(c, a, b, factor) : RBOW_OK;
    c->halvings--;
    const step s[3] = {a, step_at(c, (a.factor + b.factor) / 2), b};
    return first_in(c, s, bend, factor);
}

/* The first crossing in a stretch that begins below the limit, known by its ends and a place between; each half that
 * may hide one is halved again. `known`: the bend of what this is a half of, or of the stretch before. */
static rbow_status first_in(climb *c, const step s[3], double known, double *factor)
{
    const double bend = fmax(left_when_halved * known, bend_of(s));
    const rbow_status status = first_in_half(c, s[0], s[1], bend, factor);
    if (status != RBOW_OK || isfinite(*factor)) return status;
    return first_in_half(c, s[1], s[2], bend, factor);
}

/* The end of a range may lie far behind the crossing, whose steps would then be coarse. */
static void bring_nearer(climb *c, double low, step *end)
{
    while (end->height >= 0 && end->factor - low > 1e-12 * end->factor) {
        const step nearer = step_at(c, low + (end->factor - low) / 4);
        if (nearer.height < 0) return;
        *end = nearer;
    }
}

/* Where a climb is looked at. Moments go with 1/(critical load - axial load), so the stretches are even in the logarithm
 * of that distance, counted to a tenth above the critical load so that they end. */
typedef struct grid {
    double low, high; /* load factors */
    double from, to;  /* the distance at both, in critical loads */
    double push;      /* by which a load factor of 1 lessens it; 0: stretches even in the load factor */
    int stretches;
} grid;

/* What is locked in may be relieved by the run load before it grows, or the reverse: then the climb is looked at
 * closely. Where the axial load does not change, moments are straight lines and their largest has no hump. */
static grid grid_of(const climb *c, double low, double high)
{
    const frame *f = c->frame;
    const rbow_member *m = &f->member;
    grid g = {low, high, 1.1 - frame_axial(f, low, c->tension) / f->critical_load,
              1.1 - frame_axial(f, high, c->tension) / f->critical_load, m->compression / f->critical_load, 1};
    const bool forced = m->miss_a > 0 || m->miss_b > 0 || fabs(c->tension) > 0;
    const double apart = fabs(log(g.to / g.from));
    if (apart > 1e-6)
        g.stretches += (int)(apart / (forced ? 0.1 : 0.2));
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

/* The first place in [low, high] where the level reaches 1; INFINITY where it does not. */
static rbow_status first_reach(climb *c, double low, double high, double *factor)
{
    *factor = low;
    step s[3] = {step_at(c, low)};
    if (s[0].height >= 0) return RBOW_OK;
    *factor = INFINITY;
    if (!(low < high)) return RBOW_OK;

    const double hint = c->memory->hint;
    const bool hinted = hint > low && hint < high && height(hint, c) >= 0;
    step end = step_at(c, hinted ? hint : high);
    if (!hinted) bring_nearer(c, low, &end);
    c->memory->hint = end.factor;
    const grid g = grid_of(c, low, end.factor);
    double bend = 0;
    c->halvings = HALVINGS_MOST;
    for (int i = 1; i <= g.stretches && !c->failed; i++) {
        s[1] = step_at(c, grid_place(&g, (i - 0.5) / g.stretches));
        s[2] = step_at(c, grid_place(&g, (double)i / g.stretches));
        const rbow_status status = first_in(c, s, bend, factor);
        if (status != RBOW_OK || isfinite(*factor)) return status;
        bend = bend_of(s);
        s[0] = s[2];
    }
    return c->failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}

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

/* Without a change of axial load the level grows for ever once it grows: go up until it is past 1. */
static double far_enough(climb *c)
{
    double high = 1;
    while (high < 1e200 && height(high, c) < 0) high *= 8;
    return high;
}

/* The factor at which the axial load alone must have brought the tube to yield (0 where the gap does so); +1e-12 so that rounding cannot
 * leave the crossing outside. */
static double axial_yield(const frame *f, double tension)
{
    const double push = f->member.compression;
    const double factor =
        push > 0 ? (larger(f, squash_load) + tension) / push : (larger(f, pull_load) - tension) / -push;
    return fmax(0, factor * (1 + 1e-12));
}

/* With a push it stops at the elastic critical factor: a straight slender tube gets there first. */
static rbow_status yield_factor(const frame *f, double tension, memory *m, double *factor)
{
    climb c = {.frame = f, .tension = tension, .level = LEVEL_USE, .memory = m};
    const double push = f->member.compression;
    if (!frame_runs(f)) {
        *factor = height(0, &c) >= 0 ? 0 : INFINITY;
        return c.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
    }
    if (!(push > 0 || push < 0)) return first_reach(&c, 0, far_enough(&c), factor);

    const double critical = push > 0 ? (f->critical_load + tension) / push : (double)INFINITY;
    const double yield = axial_yield(f, tension);
    const rbow_status status = first_reach(&c, 0, fmin(critical * (1 - 1e-10), yield), factor);
    if (status == RBOW_OK) *factor = fmin(*factor, fmin(critical, yield));
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
static rbow_status interaction_factor(const frame *f, double tension, double column, memory *m, double *factor)
{
    climb c = {.frame = f, .tension = tension, .level = LEVEL_INTERACTION, .memory = m};
    const double push = f->member.compression;
    *factor = INFINITY;
    if (push > 0) {
        const double low = fmax(0, tension / push);
        const double cap = (f->critical_load + tension) / push * (1 - 1e-10);
        const rbow_status status = first_reach(&c, fmin(low, column), fmin(column, cap), factor);
        *factor = fmin(*factor, column);
        return status;
    }
    if (!(tension < 0)) return RBOW_OK;
    if (push < 0) return first_reach(&c, 0, tension / push, factor);
    if (frame_runs(f)) return first_reach(&c, 0, far_enough(&c), factor);
    *factor = height(0, &c) >= 0 ? 0 : INFINITY;
    return c.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}

static rbow_status factors_with(const frame *f, double tension, factors *out)
{
    *out = (factors){.yield_tension = tension, .interaction_tension = tension};
    if (-tension >= f->critical_load) return RBOW_OK; /* it buckles where it stands: all three 0 */
    out->column = column_factor(f, tension);
    memory m;
    m.count = 0, m.hint = 0;
    const rbow_status status = yield_factor(f, tension, &m, &out->yield);
    if (status != RBOW_OK) return status;
    return interaction_factor(f, tension, out->column, &m, &out->interaction);
}

/* Locked-in tension may have relaxed, so its help is not counted: not under a push, and not where it would only
 * stiffen the tube against what bends it. */
rbow_status factors_of(const frame *f, factors *out)
{
    rbow_status status = factors_with(f, f->tension, out);
    if (status != RBOW_OK || !(f->tension > 0)) return status;

    factors relaxed;
    status = factors_with(f, 0, &relaxed);
    if (relaxed.yield < out->yield) out->yield = relaxed.yield, out->yield_tension = 0;
    if (relaxed.interaction < out->interaction) out->interaction = relaxed.interaction, out->interaction_tension = 0;
    out->column = fmin(out->column, relaxed.column);
    return status;
}

rbow_status least_ratio_of(const frame *unforced, double *ratio)
{
    const frame *f = unforced;
    const rbow_member *m = &f->member;
    const double column = column_factor(f, 0);
    double together, yield;
    memory met;
    met.count = 0, met.hint = 0;
    rbow_status status = interaction_factor(f, 0, column, &met, &together);
    if (status != RBOW_OK) return status;
    *ratio = fmin(column, together) / m->factor;

    climb c = {.frame = f, .level = LEVEL_USE, .memory = &met};
    if (isfinite(*ratio) && height(*ratio * m->factor_yield, &c) < 0) return RBOW_OK;
    status = yield_factor(f, 0, &met, &yield);
    *ratio = fmin(*ratio, yield / m->factor_yield);
    return status;
}
