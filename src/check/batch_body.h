/* The functions that evaluate several numbers at once, for one width of vector: VERSION(name), LANES. */
#include "check/batch_versions.h"
#include "check/maximum_body.h"
#include "check/loads_body.h"
#include "mechanics/stress_body.h"

#include <float.h>
#include <gsl/gsl_math.h>
#include <string.h>

INLINE real load_lanes(const double from[LANES])
{
    real a;
    memcpy(&a, from, sizeof a);
    return a;
}

INLINE void store_lanes(real a, double to[LANES])
{
    memcpy(to, &a, sizeof a);
}

/* ---- several stations ------------------------------------------------------------------------------ */

INLINE void store_place(const place *p, along *all_places, int i)
{
    store_lanes(p->node.square, &all_places->square[i]);
    store_lanes(p->node.g, &all_places->g[i]);
    store_lanes(p->node.g1, &all_places->g1[i]);
    store_lanes(p->node.g2, &all_places->g2[i]);
    store_lanes(p->m, &all_places->m[i]);
    store_lanes(p->dm, &all_places->dm[i]);
    store_lanes(p->size, &all_places->size[i]);
    store_lanes(p->slope, &all_places->slope[i]);
}

INLINE place load_place(const along *all_places, int i)
{
    return (place){
        .node = {load_lanes(&all_places->square[i]), load_lanes(&all_places->g[i]), load_lanes(&all_places->g1[i]),
                 load_lanes(&all_places->g2[i])},
        .m = load_lanes(&all_places->m[i]),
        .dm = load_lanes(&all_places->dm[i]),
        .size = load_lanes(&all_places->size[i]),
        .slope = load_lanes(&all_places->slope[i]),
    };
}

INLINE void look_along(const prepared *p, const solution *solved, quantity what, along *out)
{
    const equilibrium e = equilibrium_from(&p->beam, solved);
    const stations *s = &p->stations;
    for (int i = 0; i < p->station_count; i += LANES) {
        const location at = {load_lanes(&s->t[i]), load_lanes(&s->cosine[i]), load_lanes(&s->sine[i]),
                             load_lanes(&s->point_side[i]), load_lanes(&s->kink_side[i])};
        place here;
        look_at(&e, &at, what, &here);
        store_place(&here, out, i);
    }
    for (int i = 0; i + 1 < p->station_count; i += LANES) {
        const place a = load_place(out, i), b = load_place(out, i + 1);
        const cell_waves w = cell_waves_of(&e, load_lanes(&s->cell[i]));
        store_lanes(highest_in_cell(&w, what, &a, &b), &out->bound[i]);
    }
}

void VERSION(rbow_along)(const prepared *p, const solution *solved, quantity what, along *out)
{
    if (what == MOMENT)
        look_along(p, solved, MOMENT, out);
    else
        look_along(p, solved, MOVEMENT, out);
}

/* ---- several load factors -------------------------------------------------------------------------- */

typedef struct cell_end {
    node node;
    real m, dm; /* as in place */
} cell_end;

typedef struct top { /* of one zone */
    real best;       /* the largest square found; below 0 if the zone does not exist */
    real bound;      /* of the cell with the largest bound; below 0 for none */
    real next_bound; /* the largest bound of the other cells */
    cell_end left, right; /* of that cell */
    real at, h;        /* its left end and its width */
    real point_side, kink_side;
} top;

INLINE node choose_node(mask m, const node *a, const node *b)
{
    return (node){choose(m, a->square, b->square), choose(m, a->g, b->g), choose(m, a->g1, b->g1), choose(m, a->g2, b->g2)};
}

/* If a bound exceeds the best value only by rounding, the cell needs no search. */
INLINE void keep_cell(top *t, real bound, const place *a, const place *b, const stations *s, int i)
{
    const mask is_open = less(t->best * (1 + 1e-12), bound) | MASK_NOT(less(bound, all((double)INFINITY)));
    const real open = choose(is_open, bound, all(-1));
    const mask higher = less(t->bound, open);
    t->next_bound = larger(smaller(t->bound, open), t->next_bound);
    t->bound = larger(open, t->bound);
    if (!MASK_ANY(higher)) return;
    t->left.node = choose_node(higher, &a->node, &t->left.node);
    t->right.node = choose_node(higher, &b->node, &t->right.node);
    t->left.m = choose(higher, a->m, t->left.m);
    t->left.dm = choose(higher, a->dm, t->left.dm);
    t->right.m = choose(higher, b->m, t->right.m);
    t->right.dm = choose(higher, b->dm, t->right.dm);
    t->at = choose(higher, all(s->t[i]), t->at);
    t->h = choose(higher, all(s->cell[i]), t->h);
    t->point_side = choose(higher, all(s->point_side[i]), t->point_side);
    t->kink_side = choose(higher, all(s->kink_side[i]), t->kink_side);
}

/* Two stations at the same position: the end of a segment and the start of the next. */
static inline bool is_load_between(const stations *s, int last)
{
    return s->point_side[last] < s->point_side[last + 1] || s->kink_side[last] < s->kink_side[last + 1];
}

INLINE location location_at(const stations *s, int i)
{
    return (location){all(s->t[i]), all(s->cosine[i]), all(s->sine[i]), all(s->point_side[i]), all(s->kink_side[i])};
}

/* Given: half  the waves at half the distance from mid-length */
INLINE void moments_at_station(const equilibrium *e, const stations *s, int i, wave half, moments *out)
{
    const location at = location_at(s, i);
    moments_by_waves(e, &at, pulls_strongly(e->z) ? waves_about_middle(e->z, at.t) : double_wave(e->z, half), out);
}

/* Returned: seen  the moments at every station
 *           tops  the best value of each zone
 *           sum   of all squares; it is NaN if one of them is */
INLINE void look_at_stations(const prepared *p, const equilibrium *e, moments seen[STATIONS_MOST], top tops[ZONES], real *sum)
{
    const stations *s = &p->stations;
    wave half = wave_at(e->z, all(s->t[0] / 2));
    *sum = all(0);
    for (int i = 0; i < p->segment_count; i++) {
        const segment *g = &p->segments[i];
        const wave step = wave_at(e->z, all(g->cell / 2));
        real best = tops[g->zone].best;
        for (int k = g->first; k < g->first + g->count; k++) {
            if (k > g->first) half = next_wave(e->z, half, step);
            if (k > g->first || k == 0 || is_load_between(s, k - 1)) moments_at_station(e, s, k, half, &seen[k]);
            else seen[k] = seen[k - 1];
            const real square = seen[k].m[UP] * seen[k].m[UP] + seen[k].m[RIGHT] * seen[k].m[RIGHT];
            best = larger(square, best);
            *sum += square;
        }
        tops[g->zone].best = best;
    }
}

INLINE real slope_of_square(const moments *m)
{
    return m->m[UP] * m->dm[UP] + m->m[RIGHT] * m->dm[RIGHT];
}

/* The lanes in which simple bounds do not finish a cell: the moment can exceed the best value, and the slope g of its square
 * can change its sign, as |g'| <= |m'|^2 + |m||m''|. Given: a, b  the moments at both ends; best  a square */
INLINE mask is_unclear(const cell_waves *w, const moments *a, const moments *b, real best)
{
    real bend;
    const real most = moment_bound(w, larger(length_bound(a->m), length_bound(b->m)), &bend), square = most * most;
    const real slope = larger(length_bound(a->dm), length_bound(b->dm)) + w->h * 0.5 * bend;
    const real change = w->h * (slope * slope + most * bend);
    const mask is_high = less(best * (1 + 1e-12), square) | MASK_NOT(less(square, all((double)INFINITY)));
    return is_high & MASK_NOT(less(slope_of_square(a) + change, all(0)) | less(change - slope_of_square(b), all(0)));
}

/* Given: counts  the lanes that are asked for */
INLINE void look_at_cells(const prepared *p, const equilibrium *e, const moments seen[STATIONS_MOST], mask counts, top tops[ZONES])
{
    const stations *s = &p->stations;
    for (int i = 0; i < p->segment_count; i++) {
        const segment *g = &p->segments[i];
        const cell_waves w = cell_waves_of(e, all(g->cell));
        top *t = &tops[g->zone];
        for (int k = g->first; k + 1 < g->first + g->count; k++) {
            if (!MASK_ANY(counts & is_unclear(&w, &seen[k], &seen[k + 1], t->best))) continue;
            const location at_a = location_at(s, k), at_b = location_at(s, k + 1);
            place a, b;
            look_at_moments(e, &at_a, &seen[k], &a);
            look_at_moments(e, &at_b, &seen[k + 1], &b);
            keep_cell(t, highest_in_cell(&w, MOMENT, &a, &b), &a, &b, s, k);
        }
    }
}

INLINE location location_near(const top *t, real at)
{
    const wave w = wave_at(all(M_PI * M_PI), at);
    return (location){at, w.c, M_PI * w.s, t->point_side, t->kink_side};
}

/* Where the slope changes from rising to falling, the moment is evaluated again, twice, and the rest of the cell is bounded
 * from there. A lane is settled if this bound and those of all other cells do not exceed the value. */
static const double settled_within = 1e-11;

INLINE mask settle(const equilibrium *e, top *t)
{
    const mask none = MASK_NOT(less(t->best * (1 + settled_within), t->bound));
    if (MASK_BITS(none) == ALL_LANES) return none;
    const mask turns = less(all(0), t->left.node.g) & less(t->right.node.g, all(0));
    mask open = MASK_NOT(none); /* a lane that is done keeps its value, whatever its neighbours still need */
    real s[SIZES], bound = all((double)INFINITY);
    real share = choose(turns, zero_of_slope(&t->left.node, &t->right.node, t->h), all(0.5));
    const cell_waves w = cell_waves_of(e, t->h);
    const place left = {.m = t->left.m, .dm = t->left.dm}, right = {.m = t->right.m, .dm = t->right.dm};
    moment_sizes(&w, &left, &right, s);
    for (int i = 0; i < 2; i++) {
        const location at = location_near(t, t->at + share * t->h);
        place p;
        look_at(e, &at, MOMENT, &p);
        const node *n = &p.node;
        const cell_bounds before = cell_bounds_of(s, share * t->h), behind = cell_bounds_of(s, (1 - share) * t->h);
        const real from_left = bound_from_end(&before, n->square, -n->g, n->g1, -n->g2);
        const real from_right = bound_from_end(&behind, n->square, n->g, n->g1, n->g2);
        t->best = larger(choose(open, n->square, all(-1)), t->best);
        bound = choose(open, larger(from_left, from_right), bound);
        open &= less(t->best * (1 + settled_within), bound);
        if (!MASK_ANY(open)) break;
        share = smaller(larger(share - n->g / (n->g1 * t->h), all(1e-4)), all(1 - 1e-4));
    }
    const real enough = t->best * (1 + settled_within);
    return MASK_NOT(less(enough, t->next_bound)) & (none | (turns & MASK_NOT(less(enough, bound))));
}

INLINE void utilisation_of(const prepared *p, const top tops[ZONES], real factor, real axial, real out[LIMITS])
{
    const double torque = fabs(p->member.torque);
    out[LIMIT_YIELD] = out[LIMIT_INTERACTION] = all(-1);
    for (int i = 0; i < ZONES; i++) {
        const fibres f = fibres_of(&p->zones[i].factors, root(larger(tops[i].best, all(0))), axial, factor * torque, torque > 0);
        const mask there = MASK_NOT(less(tops[i].best, all(0)));
        out[LIMIT_YIELD] = choose(there, larger(larger(f.utilisation_pressed, f.utilisation_pulled), out[LIMIT_YIELD]), out[LIMIT_YIELD]);
        out[LIMIT_INTERACTION] = choose(there, larger(f.utilisation_bent, out[LIMIT_INTERACTION]), out[LIMIT_INTERACTION]);
    }
    out[LIMIT_INTERACTION] = interaction_of(axial, p->column_load, out[LIMIT_INTERACTION]);
}

/* Returned: moment  at the stations, if it is not NULL: BATCH numbers for each plane */
INLINE void evaluate_lanes(const prepared *p, const double factor[LANES], int first, batch *out, double *moment)
{
    const real lambda = load_lanes(factor), axial = lambda * p->member.compression - p->tension, zero = all(0);
    const cell_end no_end = {{zero, zero, zero, zero}, zero, zero};
    const real nothing = all(-1), no_cell = all(-2); /* in a zone that does not exist no cell exceeds the best value */
    const mask stands = less(axial, all(p->critical_load));
    plane_loads loads;
    equilibrium e;
    top tops[ZONES];
    moments seen[STATIONS_MOST];
    real sum, use[LIMITS];
    loads_at(p, lambda, &loads);
    /* a lane beyond its critical load is evaluated without axial load, so that its numbers stay finite */
    equilibrium_of(&p->beam, relative_load(p, choose(stands, axial, zero)), &loads, &e);
    for (int i = 0; i < ZONES; i++)
        tops[i] = (top){nothing, no_cell, no_cell, no_end, no_end, zero, zero, zero, zero};
    look_at_stations(p, &e, seen, tops, &sum);
    look_at_cells(p, &e, seen, stands, tops);
    mask settled = less(sum, all(DBL_MAX));
    for (int i = 0; i < ZONES; i++) settled &= settle(&e, &tops[i]);
    utilisation_of(p, tops, lambda, axial, use);
    for (int i = 0; i < LANES; i++) {
        const bool up = MASK_BITS(stands) >> i & 1;
        out->settled[first + i] = !up || MASK_BITS(settled) >> i & 1;
        for (int k = 0; k < LIMITS; k++) out->utilisation[k][first + i] = up ? REAL_LANE(use[k], i) : (double)INFINITY;
    }
    for (int k = 0; k < p->station_count && moment != NULL; k++)
        for (int i = 0; i < PLANES; i++) store_lanes(seen[k].m[i], &moment[(k * PLANES + i) * BATCH + first]);
}

INLINE real second_difference(const double *m)
{
    return load_lanes(m) - 2 * load_lanes(m + 1) + load_lanes(m + 2);
}

/* The curvature of the moments over the load factor. Given: moment  as from evaluate_lanes; the last two of BATCH have no
 * second difference, and what they read has no meaning */
INLINE void second_differences(const prepared *p, const double *moment, batch *out)
{
    real square[BATCH / LANES];
    double largest[BATCH];
    for (int j = 0; j < BATCH / LANES; j++) square[j] = all(0);
    for (int g = 0; g < p->segment_count; g++) {
        const segment *s = &p->segments[g];
        const fibre_factors *k = &p->zones[s->zone].factors;
        const double stress = k->stress_per_moment * fmax(k->share_pressed, k->share_pulled);
        for (int i = s->first; i < s->first + s->count; i++) {
            for (int j = 0; j < BATCH / LANES; j++) {
                const double *up = &moment[(i * PLANES + UP) * BATCH + j * LANES], *right = up + (RIGHT - UP) * BATCH;
                const real a = stress * second_difference(up), b = stress * second_difference(right);
                square[j] = larger(a * a + b * b, square[j]);
            }
        }
    }
    for (int j = 0; j < BATCH / LANES; j++) store_lanes(square[j], &largest[j * LANES]);
    for (int j = 0; j < MIDDLES; j++) /* the last of three is the first that may have no equilibrium */
        out->second_difference[j] = isfinite(out->utilisation[LIMIT_YIELD][j + 2]) ? sqrt(largest[j]) : (double)NAN;
}

void VERSION(rbow_batch_evaluate)(const prepared *p, const double factor[BATCH], bool even, batch *out)
{
    double moment[STATIONS_MOST * PLANES * BATCH + 2], *behind = &moment[p->station_count * PLANES * BATCH];
    behind[0] = behind[1] = 0;
    for (int i = 0; i < BATCH; i += LANES) evaluate_lanes(p, &factor[i], i, out, even ? moment : NULL);
    if (even) second_differences(p, moment, out);
}
