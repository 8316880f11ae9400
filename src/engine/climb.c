#include "engine/climb.h"

#include "engine/root.h"

#include <math.h>

/* A climb follows a level (the use of yield, or the interaction) as the load factor grows, to the first place where it
 * reaches 1. Looking closely at the whole tube is what costs. So the climb goes on by glances, eight at once, which also
 * tell the limit from between two of them; only there it looks closely. */

/* ---- looking ---------------------------------------------------------------------------------------- */

climb climb_of(const frame *f, double tension, level which, memory *m)
{
    const double push = f->member.compression;
    const double critical = push > 0 ? (f->critical_load + tension) / push : (double)INFINITY;
    return (climb){.frame = f, .tension = tension, .critical = critical, .level = which, .memory = m};
}

static mark buckled(double factor)
{
    return (mark){.factor = factor, .level = {INFINITY, INFINITY, INFINITY}};
}

static bool is_same(double a, double b)
{
    return a <= b && a >= b;
}

void memory_clear(memory *m)
{
    m->count = 0;
    for (int i = 0; i < LEVELS; i++) m->ahead[i].count = 0;
    m->end = 0;
    m->last.factor = m->loaded.factor = NAN;
}

mark memory_keep(memory *m, double factor, const sight *s)
{
    m->last = buckled(factor);
    if (!s->stands) return m->last;
    const double use = s->stress.use, together = s->together.value;
    m->last = (mark){factor, {use, together, fmax(use, together)}, true};
    m->place[LEVEL_USE] = (place){s->stress.at, s->stress.zone};
    m->place[LEVEL_INTERACTION] = (place){s->together.at, s->together.zone};
    m->place[LEVEL_EITHER] = m->place[use > together ? LEVEL_USE : LEVEL_INTERACTION];
    return m->last;
}

mark climb_look(climb *c, double factor)
{
    memory *m = c->memory;
    if (is_same(m->last.factor, factor)) return m->last;
    sight s;
    sight_at(c->frame, factor, c->tension, &s);
    memory_keep(m, factor, &s);
    if (isnan(m->last.level[LEVEL_USE]) || isnan(m->last.level[LEVEL_INTERACTION])) c->failed = true;
    return m->last;
}

static batch *remembered(memory *m, const double factor[GLANCES], int count)
{
    for (int i = 0; i < m->count && i < BATCHES_MOST; i++) {
        batch *b = &m->batches[i];
        if (b->count == count && is_same(b->seen[0].factor, factor[0])
            && is_same(b->seen[count - 1].factor, factor[count - 1]))
            return b;
    }
    return NULL;
}

/* So near to the limit a glance does not tell on which side. It need not where the next place is beyond: then the
 * crossing is looked for, and at closely. */
static bool is_unsure(const climb *c, const batch *b, int i)
{
    const mark *m = &b->seen[i];
    if (m->closely || !(m->level[c->level] > 0.97 && m->level[c->level] < 1)) return false;
    return i + 1 == b->count || !(m[1].level[c->level] >= 1);
}

static mark mark_of_glance(climb *c, double factor, const glances *g, int which)
{
    if (!g->serve[which]) return climb_look(c, factor);
    mark m = {.factor = factor};
    for (int i = 0; i < LEVELS; i++) m.level[i] = g->level[i][which];
    return m;
}

static batch *glance_anew(climb *c, const double factor[GLANCES], int count)
{
    memory *m = c->memory;
    batch *b = &m->batches[m->count++ % BATCHES_MOST];
    glances g;
    glances_at(c->frame, c->tension, factor, &g);
    b->count = count;
    for (int i = 0; i < count; i++) b->seen[i] = mark_of_glance(c, factor[i], &g, i);
    return b;
}

/* Given:    factor  rising
 * Returned: what is there, until eight other batches have been seen */
static const mark *glance(climb *c, const double factor[GLANCES], int count)
{
    batch *b = remembered(c->memory, factor, count);
    if (b == NULL) b = glance_anew(c, factor, count);
    for (int i = 0; i < count; i++)
        if (is_unsure(c, b, i)) b->seen[i] = climb_look(c, factor[i]);
    return b->seen;
}

static mark glance_once(climb *c, double factor)
{
    double same[GLANCES];
    if (is_same(c->memory->loaded.factor, factor)) return c->memory->loaded;
    for (int i = 0; i < GLANCES; i++) same[i] = factor;
    return glance(c, same, 1)[0];
}

static const double height_buckled = 1;

static double height_of(double share)
{
    return isinf(share) ? height_buckled : (share - 1) / (share + 1);
}

double climb_height(const climb *c, const mark *m)
{
    return height_of(m->level[c->level]);
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

reach climb_never(const climb *c)
{
    return (reach){INFINITY, c->tension, NAN, ZONE_TUBE};
}

static rbow_status reached_at(climb *c, double factor, reach *out)
{
    const memory *m = c->memory;
    climb_look(c, factor);
    *out = (reach){factor, c->tension, m->place[c->level].at, m->place[c->level].zone};
    return RBOW_OK;
}

static rbow_status first_in(climb *c, const mark s[3], double known, reach *out);

/* Glances may have told the ends wrong. Where the low one is beyond the limit, the first crossing is before it; where the
 * high one is not, it is between or, as far as can be told, there. */
static rbow_status crossing_looked_at_closely(climb *c, double low, double high, reach *out)
{
    const mark under = climb_look(c, low), over = climb_look(c, high);
    const bool before = climb_height(c, &under) >= 0;
    if (before && !(c->start.factor < low)) return reached_at(c, low, out);
    if (before || climb_height(c, &over) < 0) {
        const mark *a = before ? &c->start : &under, *b = before ? &under : &over;
        const mark s[3] = {*a, climb_look(c, (a->factor + b->factor) / 2), *b};
        const rbow_status status = first_in(c, s, 0, out);
        return status != RBOW_OK || isfinite(out->factor) ? status : reached_at(c, b->factor, out);
    }
    double factor;
    const bracket b = {low, climb_height(c, &under), high, climb_height(c, &over)};
    const rbow_status status = root_between(close_height, c, &b, height_enough, &factor);
    return status == RBOW_OK ? reached_at(c, factor, out) : status;
}

static step step_of(level which, const mark *m)
{
    return (step){m->factor, height_of(m->level[which])};
}

static void space_evenly(const step ends[2], double factor[], int count)
{
    for (int i = 0; i < count; i++) factor[i] = ends[0].factor + (i + 1) * (ends[1].factor - ends[0].factor) / (count + 1);
}

/* Given: first, count  the glances between the ends; those that do not serve are left out */
static void take_steps(steps *s, level which, const step ends[2], const double factor[], const glances *g, int first, int count)
{
    s->count = 0;
    s->at[s->count++] = ends[0];
    for (int i = first; i < first + count; i++)
        if (g->serve[i]) s->at[s->count++] = (step){factor[i], height_of(g->level[which][i])};
    s->at[s->count++] = ends[1];
}

static void glance_between(const climb *c, const step ends[2], steps *s)
{
    double factor[GLANCES];
    glances g;
    space_evenly(ends, factor, GLANCES);
    glances_at(c->frame, c->tension, factor, &g);
    take_steps(s, c->level, ends, factor, &g, 0, GLANCES);
}

/* Where the places seen in walks have a level pass its limit first. */
static bool is_ahead(const climb *c, level which, step ends[2])
{
    const memory *m = c->memory;
    const mark *before = &c->start;
    for (int i = 0; i < m->count && i < BATCHES_MOST; i++) {
        for (int k = 0; k < m->batches[i].count; k++) {
            const mark *here = &m->batches[i].seen[k];
            if (here->level[which] >= 1) {
                ends[0] = step_of(which, before);
                ends[1] = step_of(which, here);
                return ends[0].height < 0 && ends[0].factor < ends[1].factor;
            }
            before = here;
        }
    }
    return false;
}

static bool is_between(const steps *s, const step ends[2])
{
    return s->count > 0 && is_same(s->at[0].factor, ends[0].factor) && is_same(s->at[s->count - 1].factor, ends[1].factor);
}

/* The steps between two places, and in the same glance those of the other level, which is mostly asked for next. */
static const steps *glance_at_both(climb *c, const step ends[2])
{
    enum { HALF = GLANCES / 2 };
    const level other = c->level == LEVEL_USE ? LEVEL_INTERACTION : LEVEL_USE; /* after either none is asked for */
    steps *own = &c->memory->ahead[c->level], *next = &c->memory->ahead[other];
    step far[2];
    double factor[GLANCES];
    glances g;
    if (is_between(own, ends)) return own;
    if (c->level == LEVEL_EITHER || !is_ahead(c, other, far) || is_between(next, far)) {
        glance_between(c, ends, own);
        return own;
    }
    space_evenly(ends, factor, HALF);
    space_evenly(far, &factor[HALF], HALF);
    glances_at(c->frame, c->tension, factor, &g);
    take_steps(own, c->level, ends, factor, &g, 0, HALF);
    take_steps(next, other, far, factor, &g, HALF, HALF);
    return own;
}

typedef struct guess { /* where the height is 0, and how fast the factor grows with it there */
    double factor, per_height;
} guess;

/* By the cubic through the four steps around the one that is the first beyond the limit, of the factor over the height;
 * by the straight line where that leaves the step. */
static guess guess_before(const steps *s, int beyond)
{
    const int first = beyond < 2 ? 0 : beyond > s->count - 2 ? s->count - 4 : beyond - 2;
    const step *at = &s->at[first], *low = &s->at[beyond - 1], *high = &s->at[beyond];
    double share[4];
    for (int i = 0; i < 4; i++) share[i] = at[i].factor;
    for (int j = 1; j < 4; j++)
        for (int i = 3; i >= j; i--) share[i] = (share[i] - share[i - 1]) / (at[i].height - at[i - j].height);
    guess g = {share[3], 0};
    for (int i = 2; i >= 0; i--) {
        g.per_height = g.factor - at[i].height * g.per_height;
        g.factor = share[i] - at[i].height * g.factor;
    }
    if (g.factor >= low->factor && g.factor <= high->factor && g.per_height > 0) return g;
    const double line = (high->factor - low->factor) / (high->height - low->height);
    return (guess){low->factor - low->height * line, line};
}

/* Where glances tell the limit so well that a close look differs by less than this, the slope gives the rest. It must be
 * that of the way there from the step before, and of the way on to the step behind: a level has a knee where another place
 * or another limit takes over, and one next to buckling where the tube is almost straight. */
static const double height_near = 1e-7, next_to_buckling = 0.99, slope_apart = 0.2;

static bool is_slope(const guess *g, const step *a, const step *b)
{
    const double chord = (b->factor - a->factor) / (b->height - a->height);
    return fabs(g->per_height / chord - 1) < slope_apart;
}

static bool is_met(const climb *c, double height, const guess *g, const step *low, const step *high)
{
    const step here = {g->factor, height};
    if (fabs(height) <= 10 * height_enough) return true;
    return fabs(height) <= height_near && is_slope(g, low, &here) && is_slope(g, &here, high)
        && g->factor < next_to_buckling * c->critical;
}

/* Given: a, b  below the limit and beyond it, with one crossing between */
static rbow_status crossing(climb *c, const mark *a, const mark *b, reach *out)
{
    enum { ROUNDS = 4 };
    step ends[2] = {step_of(c->level, a), step_of(c->level, b)};
    for (int i = 0; i < ROUNDS; i++) {
        steps finer;
        const steps *s = &finer;
        int beyond = 1;
        if (i == 0)
            s = glance_at_both(c, ends);
        else
            glance_between(c, ends, &finer);
        if (s->count < 4) break;
        while (beyond < s->count - 1 && s->at[beyond].height < 0) beyond++;
        const guess g = guess_before(s, beyond);
        const mark m = climb_look(c, g.factor);
        const double height = climb_height(c, &m);
        if (is_met(c, height, &g, &s->at[beyond - 1], &s->at[beyond])) {
            reached_at(c, m.factor, out);
            out->factor -= height * g.per_height;
            return RBOW_OK;
        }
        ends[0] = s->at[beyond - 1];
        ends[1] = s->at[beyond];
    }
    return crossing_looked_at_closely(c, a->factor, b->factor, out);
}

/* ---- the first crossing in a stretch ------------------------------------------------------------------ */

static bool is_done(rbow_status status, const reach *out)
{
    return status != RBOW_OK || isfinite(out->factor);
}

/* How far the level is past its limit, which bends less there than the height; far beyond it no matter how far. */
static double past_limit(const climb *c, const mark *m)
{
    const double share = m->level[c->level];
    return (share < 3 ? share : 3) - 1;
}

static double bend_of(const climb *c, const mark *a, const mark *middle, const mark *b)
{
    return fabs(past_limit(c, a) - 2 * past_limit(c, middle) + past_limit(c, b));
}

/* The most that a random hundred thousand members took was 67; what takes more is rounding in loads beyond reason. */
enum { HALVINGS_MOST = 1000 };

/* Over even steps of a parabola the top of a hump lies above the highest step by an eighth of its bend at most, and the
 * slope differs from the mean by half of it; what is more is for what is no parabola. A hump and the valley behind it
 * may cancel in one bend: a quarter of the bend of the stretch that was halved, a parabola's own, still counts. */
static const double sure_to_climb = 8, left_when_halved = 0.25;

static bool may_cross(const climb *c, const mark *a, const mark *b, double bend)
{
    return past_limit(c, a) + bend >= 0 || past_limit(c, b) + bend >= 0;
}

static bool is_sure_to_climb(const climb *c, const mark *a, const mark *b, double bend)
{
    return past_limit(c, b) - past_limit(c, a) > sure_to_climb * bend;
}

static rbow_status first_in_half(climb *c, const mark *a, const mark *b, double bend, reach *out)
{
    const bool crosses = climb_height(c, b) >= 0;
    if (c->failed || (!crosses && !may_cross(c, a, b, bend))) return RBOW_OK;
    if (c->halvings == 0 || bend <= height_enough || is_sure_to_climb(c, a, b, bend))
        return crosses ? crossing(c, a, b, out) : RBOW_OK;
    c->halvings--;
    const mark s[3] = {*a, climb_look(c, (a->factor + b->factor) / 2), *b};
    return first_in(c, s, bend, out);
}

/* The first crossing in a stretch that begins below the limit, looked at closely at its ends and half way; each half
 * that may hide one is halved again. `known`: the bend of what this is a half of, or of the stretch before. */
static rbow_status first_in(climb *c, const mark s[3], double known, reach *out)
{
    const double bend = fmax(left_when_halved * known, bend_of(c, &s[0], &s[1], &s[2]));
    const rbow_status status = first_in_half(c, &s[0], &s[1], bend, out);
    return is_done(status, out) ? status : first_in_half(c, &s[1], &s[2], bend, out);
}

static rbow_status first_looked_at_closely(climb *c, const mark *const s[3], double known, reach *out)
{
    mark close[3];
    for (int i = 0; i < 3; i++) close[i] = climb_look(c, s[i]->factor);
    return first_in(c, close, known, out);
}

/* ---- stretch by stretch ------------------------------------------------------------------------------- */

/* Where a climb is looked at. Moments go with 1/(critical load - axial load), so the stretches are even in the logarithm
 * of that distance, counted to a tenth above the critical load so that they end. */
typedef struct grid {
    double low, high; /* load factors */
    double from, to;  /* the distance at both, in critical loads */
    double push;      /* by which a load factor of 1 lessens it; 0: stretches even in the load factor */
    double ratio;     /* of the distances of two places */
    int places, done; /* two to a stretch */
} grid;

/* What is locked in may be relieved by the run load before it grows, or the reverse: then the stretches are shorter.
 * Where the axial load does not change, moments are straight lines and their largest has no hump. */
static grid grid_of(const climb *c, double low, double high)
{
    const frame *f = c->frame;
    const rbow_member *m = &f->member;
    const bool forced = m->miss_a > 0 || m->miss_b > 0 || fabs(c->tension) > 0;
    grid g = {low, high, 1.1 - frame_axial(f, low, c->tension) / f->critical_load,
              1.1 - frame_axial(f, high, c->tension) / f->critical_load, m->compression / f->critical_load, 1, 2, 0};
    const double apart = log(g.to / g.from);
    if (fabs(apart) > 1e-6) {
        g.places = GLANCES * (1 + (int)(fabs(apart) / (GLANCES * (forced ? 0.12 : 0.15))));
        g.ratio = exp(apart / g.places);
    } else {
        g.push = 0;
    }
    return g;
}

static double next_place(grid *g, double *distance)
{
    if (++g->done == g->places) return g->high;
    if (!(fabs(g->push) > 0)) return g->low + (g->high - g->low) * g->done / g->places;
    *distance *= g->ratio;
    return g->low + (g->from - *distance) / g->push;
}

static rbow_status first_in_parts(climb *c, const mark *const s[3], double known, reach *out);

/* Given:    s         the glances of a stretch
 *           straight  whether levels cannot bend downward
 *           whole     not yet in parts
 *           before    the bend of the stretch before
 * Returned: before    that of this one */
static rbow_status first_in_stretch(climb *c, bool straight, bool whole, const mark *const s[3], double *before, reach *out)
{
    const double known = *before, own = straight ? 0 : bend_of(c, s[0], s[1], s[2]), left = left_when_halved * known;
    const double bend = own > left ? own : left;
    *before = own;
    for (int i = 1; i <= 2; i++) {
        const mark *a = s[i - 1], *b = s[i];
        const bool crosses = b->level[c->level] >= 1, sure = straight || is_sure_to_climb(c, a, b, bend);
        if (!crosses && (straight || !may_cross(c, a, b, bend))) continue;
        if (!sure) return whole ? first_in_parts(c, s, known, out) : first_looked_at_closely(c, s, known, out);
        if (crosses) return crossing(c, a, b, out);
    }
    return RBOW_OK;
}

/* Glances, in shorter stretches, cost less than to look closely. */
static rbow_status first_in_parts(climb *c, const mark *const s[3], double known, reach *out)
{
    double factor[GLANCES], bend = known;
    const double low = s[0]->factor, high = s[2]->factor;
    for (int i = 0; i < GLANCES - 1; i++) factor[i] = low + (high - low) * (i + 1) / GLANCES;
    factor[GLANCES - 1] = high;
    const mark *seen = glance(c, factor, GLANCES);
    for (int i = 0; i < GLANCES; i += 2) {
        const mark *part[3] = {i > 0 ? &seen[i - 1] : s[0], &seen[i], &seen[i + 1]};
        const rbow_status status = first_in_stretch(c, false, false, part, &bend, out);
        if (is_done(status, out)) return status;
    }
    return RBOW_OK;
}

/* Given:    from   below the limit
 * Returned: last   the two last glances, where the limit is not reached before */
static rbow_status walk(climb *c, const mark *from, double end, mark last[2], reach *out)
{
    grid g = grid_of(c, from->factor, end);
    double bend = 0, distance = g.from, factor[GLANCES] = {0};
    last[1] = *from;
    while (g.done < g.places) {
        int count = 0;
        while (count < GLANCES && g.done < g.places) factor[count++] = next_place(&g, &distance);
        const mark *seen = glance(c, factor, count);
        for (int i = 0; i < count; i += 2) {
            const mark *s[3] = {i > 0 ? &seen[i - 1] : &last[1], &seen[i], &seen[i + 1]};
            const rbow_status status = first_in_stretch(c, !(fabs(g.push) > 0), true, s, &bend, out);
            if (is_done(status, out)) return status;
        }
        last[0] = seen[count - 2];
        last[1] = seen[count - 1];
    }
    return RBOW_OK;
}

/* How far from one place the limit is by the straight line through two, and a little more; NaN where it does not rise.
 * Levels mostly curve upward, which makes it too far rather than too near. */
static double way_to_limit(level which, const mark *from, const mark *a, const mark *b)
{
    const double rise = b->level[which] - a->level[which];
    return rise > 0 ? 1.05 * (1 - from->level[which]) / rise * (b->factor - a->factor) : (double)NAN;
}

/* Steps should be short, and few lie behind the limit: a walk ends a little beyond it, as far as a straight line tells;
 * the first, beyond the other level's limit, too, which is looked for next. */
static double end_of_walk(climb *c, const mark *behind, bool first, const mark *from, double high)
{
    const double known = c->memory->end, start = from->factor, left = high - start;
    const bool ends_itself = c->level != LEVEL_USE && c->frame->member.compression > 0; /* at the column load */
    if (first && known > start && known < (ends_itself ? c->critical : high)) return known;
    const double ahead = fmin(fmax(1, start), left / 2);
    const mark there = first ? glance_once(c, start + ahead) : *from;
    const mark *a = first ? from : behind;
    double way = way_to_limit(c->level, from, a, &there);
    if (isnan(way) && high >= FOR_EVER) { /* whatever acts may do nothing to the tube */
        const mark last = glance_once(c, high);
        if (climb_height(c, &last) < 0) return high;
    }
    if (first) way = fmax(way, way_to_limit(LEVEL_INTERACTION, from, a, &there)); /* a NaN falls out */
    const double away = isnan(way) ? 4 * ahead : fmin(fmax(way, 0.1 * ahead), 8 * ahead);
    const double end = away < left ? start + away : high;
    if (is_same(known, 0)) c->memory->end = end;
    return end;
}

rbow_status climb_to_limit(climb *c, const mark *from, double high, reach *out)
{
    enum { WALKS = 80 };
    *out = climb_never(c);
    mark here = *from, last[2];
    for (int i = 0; i < WALKS; i++) {
        if (climb_height(c, &here) > -height_enough) return reached_at(c, here.factor, out);
        if (!(here.factor < high)) return RBOW_OK;
        c->halvings = HALVINGS_MOST;
        c->start = here;
        const double end = end_of_walk(c, &last[0], i == 0, &here, high);
        const rbow_status status = walk(c, &here, end, last, out);
        if (c->failed) return RBOW_STRESS_OVERFLOW;
        if (is_done(status, out)) return status;
        here = last[1];
    }
    return RBOW_NO_CONVERGENCE;
}
