#include "check/maximum.h"

#include "check/maximum_body.h"

#include <math.h>

/* Branch and bound. All stations are evaluated first. A cell between two of them is divided only while its bound
 * (maximum_body.h) exceeds the best value found: at the zero of the slope if the square changes from rising to falling, else
 * in the middle. The cells that remain cannot exceed the best value by more than `tie`. */
static const double tie = 1e-12;

/* No known member needs so many; numbers that overflow do. */
enum { HALVINGS_MOST = 60, LOOKS_MOST = 4000 };

typedef struct search {
    const equilibrium *e;
    quantity what;
    double noise; /* square of the rounding error of the shares */
    double best;  /* square; below 0 before the first */
    station at;   /* of the best value */
    bool between; /* whether it lies inside a segment */
    int looks;    /* evaluations that are left */
} search;

/* Values within 20 `tie` of each other count as equal: the smaller x and the larger value are kept. */
static void offer(search *s, const station *at, double square, bool between)
{
    const double slack = 20 * tie * s->best;
    const bool higher = s->best < 0 || square > s->best + slack;
    const bool tied = !higher && square >= s->best - slack;
    if (square > s->best || isnan(square)) s->best = square; /* NaN stays */
    if (!higher && !(tied && at->t < s->at.t)) return;
    s->at = *at;
    s->between = between;
}

static void look(const search *s, const station *at, place *out)
{
    const location there = location_of(at);
    look_at(s->e, &there, s->what, out);
}

/* ---- how high the square can be in a cell ---------------------------------------------------------------- */

/* Under tension the waves w'' = n^2 w and their derivatives are largest at an end of the cell. The rest of the moment is a
 * constant plus the wave of the half-wave bow. So a cell may be wide where the waves have decayed. */
static void sizes_in_tension(const search *s, const station at[2], double sizes[SIZES])
{
    const equilibrium *e = s->e;
    const double n2 = -e->z, per = 1 / (e->z - M_PI * M_PI), pi2 = M_PI * M_PI;
    double even = 0, odd = 0, level[PLANES], ripple[PLANES];
    for (int i = 0; i < PLANES; i++) {
        level[i] = e->share[SPREAD][i] / n2;
        ripple[i] = e->share[HALF_WAVE][i] * per;
    }
    for (int k = 0; k < 2; k++) {
        const location there = location_of(&at[k]);
        double waves[PLANES], slopes[PLANES];
        moments m;
        moments_at(e, &there, &m);
        for (int i = 0; i < PLANES; i++) {
            waves[i] = m.m[i] - level[i] - ripple[i] * at[k].cosine;
            slopes[i] = m.dm[i] + ripple[i] * M_PI * at[k].sine;
        }
        even = larger(even, length_bound(waves));
        odd = larger(odd, length_bound(slopes));
    }
    const double bow = length_bound(ripple);
    sizes[0] = even + length_bound(level) + bow;
    sizes[1] = odd + M_PI * bow;
    sizes[2] = n2 * even + pi2 * bow;
    sizes[3] = n2 * odd + M_PI * pi2 * bow;
    sizes[4] = n2 * n2 * even + pi2 * pi2 * bow;
    sizes[5] = n2 * n2 * odd + M_PI * pi2 * pi2 * bow;
}

static double highest_between(const search *s, const station at[2], const place *a, const place *b)
{
    const double h = at[1].t - at[0].t;
    double sizes[SIZES];
    if (!(s->e->z < -1)) {
        const cell_waves w = cell_waves_of(s->e, h);
        return highest_in_cell(&w, s->what, a, b);
    }
    sizes_in_tension(s, at, sizes);
    if (s->what == MOVEMENT) movement_sizes(a, b, h, sizes);
    const cell_bounds c = cell_bounds_of(sizes, h);
    return bound_of_cell(&c, &a->node, &b->node);
}

/* ---- a cell -------------------------------------------------------------------------------------------- */

static void search_cell(search *s, const station at[2], const place *a, const place *b, int halvings)
{
    const double h = at[1].t - at[0].t;
    const double bound = highest_between(s, at, a, b);
    if (bound <= s->best * (1 + tie) + s->noise || isnan(s->best)) return;
    if (halvings == 0 || s->looks-- <= 0) { /* gives NaN and not a wrong value */
        if (!(bound <= s->best * (1 + 1e-9) + s->noise)) s->best = NAN;
        return;
    }
    const bool turns = a->node.g > 0 && b->node.g < 0;
    const double t = at[0].t + (turns ? zero_of_slope(&a->node, &b->node, h) : 0.5) * h;
    const station middle = station_at(s->e->beam, t, t);
    place p;
    look(s, &middle, &p);
    offer(s, &middle, p.node.square, true);
    search_cell(s, (station[2]){at[0], middle}, a, &p, halvings - 1);
    search_cell(s, (station[2]){middle, at[1]}, &p, b, halvings - 1);
}

static station station_of(const stations *s, int i)
{
    return (station){s->t[i], s->cosine[i], s->sine[i], s->point_side[i], s->kink_side[i]};
}

static place place_of(const along *seen, int i)
{
    return (place){.node = {seen->square[i], seen->g[i], seen->g1[i], seen->g2[i]}, .m = seen->m[i], .dm = seen->dm[i],
                   .size = seen->size[i], .slope = seen->slope[i]};
}

/* Given: of  the search for each zone */
static void search_tube(const prepared *p, const solution *solved, search *const of[ZONES])
{
    along seen;
    rbow_along(p, solved, of[ZONE_TUBE]->what, &seen);
    for (int i = 0; i < p->segment_count; i++) {
        const segment *g = &p->segments[i];
        for (int k = g->first; k < g->first + g->count; k++) {
            const station at = station_of(&p->stations, k);
            offer(of[g->zone], &at, seen.square[k], k > g->first && k + 1 < g->first + g->count);
        }
    }
    for (int i = 0; i < p->segment_count; i++) {
        const segment *g = &p->segments[i];
        search *s = of[g->zone];
        for (int k = g->first; k + 1 < g->first + g->count; k++) {
            if (seen.bound[k] <= s->best * (1 + tie) + s->noise) continue;
            const station at[2] = {station_of(&p->stations, k), station_of(&p->stations, k + 1)};
            const place a = place_of(&seen, k), b = place_of(&seen, k + 1);
            search_cell(s, at, &a, &b, HALVINGS_MOST);
        }
    }
}

static search search_for(const equilibrium *e, const solution *solved, quantity what)
{
    search s = {.e = e, .what = what, .best = -1, .looks = LOOKS_MOST};
    double shares = 0;
    for (int i = 0; i < SHAPES; i++) shares += length_bound(solved->share[i]);
    if (what == MOVEMENT) shares += length_bound(solved->turn) + length_bound(solved->offset);
    s.noise = 1e-28 * shares * shares;
    return s;
}

/* The value is flat at a maximum, so the position has fewer digits than the value; one step of Newton's method adds them. */
static void polish(search *s)
{
    place p;
    if (s->best < 0 || !s->between) return;
    look(s, &s->at, &p);
    const double t = s->at.t - p.node.g / p.node.g1;
    if (!(p.node.g1 < 0 && fabs(t - s->at.t) < 1e-2)) return;
    const station at = station_at(s->e->beam, t, s->at.t);
    look(s, &at, &p);
    if (!(p.node.square >= s->best * (1 - 20 * tie))) return;
    if (p.node.square > s->best) s->best = p.node.square;
    s->at = at;
}

static peak peak_of(const search *s)
{
    return (peak){s->best < 0 ? -1 : sqrt(s->best), s->at.t};
}

void rbow_largest_moments(const prepared *p, const solution *solved, bool places, peak peaks[ZONES])
{
    const equilibrium e = equilibrium_from(&p->beam, solved);
    search tube = search_for(&e, solved, MOMENT), weld = tube;
    search_tube(p, solved, (search *[ZONES]){[ZONE_TUBE] = &tube, [ZONE_WELD] = &weld});
    if (places) {
        polish(&tube);
        polish(&weld);
    }
    peaks[ZONE_TUBE] = peak_of(&tube);
    peaks[ZONE_WELD] = peak_of(&weld);
}

peak rbow_largest_movement(const prepared *p, const solution *solved, double movement[PLANES])
{
    const equilibrium e = equilibrium_from(&p->beam, solved);
    search s = search_for(&e, solved, MOVEMENT);
    search_tube(p, solved, (search *[ZONES]){[ZONE_TUBE] = &s, [ZONE_WELD] = &s});
    polish(&s);
    const location there = location_of(&s.at);
    double slope[PLANES];
    movements_at(&e, &there, movement, slope);
    return peak_of(&s);
}
