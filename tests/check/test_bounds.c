/* The bound on which the search for maxima stands: against dense scans of single cells, against every derivative, and by
 * itself against polynomials that use up all that it is told.
 *
 * RAILBOW_STATES  how many states; 20000 by default */
#include "states.h"

#include "check/maximum.c" /* its bounds are tested from inside */

#include <gsl/gsl_errno.h>

static place place_at(const state *o, quantity what, double t, double side)
{
    const station there = station_at(&o->p.beam, t, side);
    const location at = location_of(&there);
    place p;
    look_at(&o->solved, &at, what, &p);
    return p;
}

/* Somewhere in a segment, from as wide as cells are to very narrow. */
static void some_cell(dice *d, const state *o, double ends[2], double *side)
{
    const segment *g = &o->p.segments[dice_below(d, o->p.segment_count)];
    const double from = o->p.stations.t[g->first], to = o->p.stations.t[g->first + g->count - 1];
    const double h = fmin(dice_chance(d, 0.5) ? g->cell : g->cell * dice_size(d, 1e-3, 1.5), to - from);
    ends[0] = dice_chance(d, 0.3) ? from : dice_between(d, from, to - h);
    ends[1] = dice_chance(d, 0.3) ? to : ends[0] + h;
    if (ends[1] - ends[0] > 1.5 * g->cell) ends[0] = ends[1] - h;
    *side = (from + to) / 2;
}

START_TEST(no_place_of_a_cell_exceeds_its_bound)
{
    enum { SCAN = 64 };
    const long states = number_from("RAILBOW_STATES", 20000) * 4;
    dice d = {77 + (uint64_t)number_from("RAILBOW_SEED", 0)};
    long tested[3] = {0}, tight = 0;
    for (long i = 0; i < states; i++) {
        state o;
        if (!next_state(&d, &o)) continue;
        const quantity what = dice_chance(&d, 0.5) ? MOMENT : MOVEMENT;
        const search s = search_for(&o.solved, &o.e.solution, what);
        double ends[2], side, most = 0;
        some_cell(&d, &o, ends, &side);
        const station at[2] = {station_at(&o.p.beam, ends[0], side), station_at(&o.p.beam, ends[1], side)};
        const place a = place_at(&o, what, ends[0], side), b = place_at(&o, what, ends[1], side);
        const cell_waves w = cell_waves_of(&o.solved, ends[1] - ends[0]);
        const double bound = highest_between(&s, at, &a, &b), wide = highest_in_cell(&w, what, &a, &b);
        for (int k = 0; k <= SCAN; k++) {
            const double t = fmin(fmax(ends[0] + (ends[1] - ends[0]) * k / SCAN, ends[0]), ends[1]);
            const double size = what == MOMENT ? moment_size(&o.solved, t, side) : movement_size(&o.solved, t, side);
            most = fmax(most, size * size);
        }
        sample_holds(&o.s, "the bound of a cell", !(most > bound * (1 + 2e-12) + 1e3 * s.noise));
        sample_holds(&o.s, "the bound by its ends", !(most > wide * (1 + 2e-12) + 1e3 * s.noise));
        tight += bound <= most * 1.01;
        tested[o.solved.z < strong_tension ? 0 : o.solved.z < 0 ? 1 : 2]++;
    }
    for (int i = 0; i < 3; i++) ck_assert_int_gt(tested[i], states / 20);
    ck_assert_int_gt(tight, states / 2);
}
END_TEST

/* All derivatives of the moment or the movement up to the fifth, from the equation. */
static void derivatives_at(const state *o, quantity what, double t, double side, double f[SIZES][PLANES])
{
    const equilibrium *e = &o->solved;
    const station there = station_at(&o->p.beam, t, side);
    const location at = location_of(&there);
    const double cosine[SIZES - 2] = {at.cosine, -M_PI * at.sine, -M_PI * M_PI * at.cosine, M_PI * M_PI * M_PI * at.sine};
    moments m;
    moments_at(e, &at, &m);
    for (int i = 0; i < PLANES; i++) {
        double d[SIZES] = {m.m[i], m.dm[i]};
        for (int k = 2; k < SIZES; k++)
            d[k] = e->share[HALF_WAVE][i] * cosine[k - 2] - e->z * d[k - 2] - (k == 2 ? e->share[SPREAD][i] : 0);
        for (int k = 0; k < SIZES; k++) f[k][i] = what == MOMENT ? d[k] : k >= 2 ? -d[k - 2] : 0;
    }
    if (what == MOVEMENT) movements_at(e, &at, f[0], f[1]);
}

/* No derivative anywhere in a cell is larger than the sizes on which its bound stands. */
START_TEST(no_derivative_exceeds_its_size)
{
    enum { SCAN = 16 };
    const long states = number_from("RAILBOW_STATES", 20000) * 2;
    dice d = {79 + (uint64_t)number_from("RAILBOW_SEED", 0)};
    for (long i = 0; i < states; i++) {
        state o;
        if (!next_state(&d, &o)) continue;
        const quantity what = dice_chance(&d, 0.5) ? MOMENT : MOVEMENT;
        const search s = search_for(&o.solved, &o.e.solution, what);
        double ends[2], side, by_ends[SIZES], by_waves[SIZES] = {0};
        some_cell(&d, &o, ends, &side);
        const double h = ends[1] - ends[0];
        const station at[2] = {station_at(&o.p.beam, ends[0], side), station_at(&o.p.beam, ends[1], side)};
        const place a = place_at(&o, what, ends[0], side), b = place_at(&o, what, ends[1], side);
        const cell_waves w = cell_waves_of(&o.solved, h);
        const bool pulled = o.solved.z < -1;
        moment_sizes(&w, &a, &b, by_ends);
        if (what == MOVEMENT) movement_sizes(&a, &b, h, by_ends);
        if (pulled) sizes_in_tension(&s, at, by_waves);
        if (pulled && what == MOVEMENT) movement_sizes(&a, &b, h, by_waves);
        for (int k = 0; k <= SCAN; k++) {
            double f[SIZES][PLANES];
            derivatives_at(&o, what, ends[0] + h * k / SCAN, side, f);
            for (int j = 0; j < SIZES; j++) {
                const double noise = 1e3 * sqrt(s.noise) * pow(1 + fabs(o.solved.z), j / 2.0), size = hypot(f[j][UP], f[j][RIGHT]);
                sample_holds(&o.s, "sizes by the ends", !(size > by_ends[j] * (1 + 1e-9) + noise));
                if (pulled) sample_holds(&o.s, "sizes by the waves", !(size > by_waves[j] * (1 + 1e-9) + noise));
            }
        }
    }
}
END_TEST

static double dot(const double a[PLANES], const double b[PLANES])
{
    return a[UP] * b[UP] + a[RIGHT] * b[RIGHT];
}

/* What is told of a place: F = f.f and g = F'/2 with its two derivatives, by the derivatives of f. */
START_TEST(a_place_is_told_as_it_is)
{
    dice d = {83 + (uint64_t)number_from("RAILBOW_SEED", 0)};
    for (int i = 0; i < 4000; i++) {
        state o;
        if (!next_state(&d, &o)) continue;
        const quantity what = dice_chance(&d, 0.5) ? MOMENT : MOVEMENT;
        double ends[2], side, f[SIZES][PLANES];
        some_cell(&d, &o, ends, &side);
        const place p = place_at(&o, what, ends[0], side);
        derivatives_at(&o, what, ends[0], side, f);
        double size[4], off[4]; /* of each derivative, and what rounding leaves of it */
        for (int k = 0; k < 4; k++) {
            size[k] = sqrt(dot(f[k], f[k]));
            off[k] = 1e3 * sqrt(search_for(&o.solved, &o.e.solution, what).noise) * pow(1 + fabs(o.solved.z), k / 2.0) + 1e-12 * size[k];
        }
        sample_holds(&o.s, "F", fabs(p.node.square - dot(f[0], f[0])) <= (2 * size[0] + off[0]) * off[0]);
        sample_holds(&o.s, "g", fabs(p.node.g - dot(f[0], f[1])) <= (size[0] + off[0]) * off[1] + size[1] * off[0]);
        sample_holds(&o.s, "g'", fabs(p.node.g1 - dot(f[1], f[1]) - dot(f[0], f[2])) <= (2 * size[1] + off[1]) * off[1] + (size[0] + off[0]) * off[2] + size[2] * off[0]);
        sample_holds(&o.s, "g''", fabs(p.node.g2 - 3 * dot(f[1], f[2]) - dot(f[0], f[3]))
                                      <= 3 * ((size[1] + off[1]) * off[2] + size[2] * off[1]) + (size[0] + off[0]) * off[3] + size[3] * off[0]);
    }
}
END_TEST

/* ---- the bound by itself --------------------------------------------------------------------------------- */

typedef struct polynomial { /* g = F'/2 over the way s from 0 to 1 through a cell, and F at 0 */
    double square, c[5];
} polynomial;

static double square_at(const polynomial *p, double s)
{
    double sum = 0;
    for (int k = 4; k >= 0; k--) sum = sum * s + p->c[k] / (k + 1);
    return p->square + 2 * s * sum;
}

static node node_at(const polynomial *p, double s)
{
    const double *c = p->c;
    return (node){square_at(p, s), c[0] + s * (c[1] + s * (c[2] + s * (c[3] + s * c[4]))),
                  c[1] + s * (2 * c[2] + s * (3 * c[3] + s * 4 * c[4])), 2 * c[2] + s * (6 * c[3] + s * 12 * c[4])};
}

/* The bound is told the third and fourth derivatives of g as they are and no larger: each part of it is then as tight as
 * it may be. */
static double bound_of(const polynomial *p, const node *a, const node *b)
{
    const double third = fmax(fabs(6 * p->c[3]), fabs(6 * p->c[3] + 24 * p->c[4])), fourth = fabs(24 * p->c[4]);
    const double sizes[SIZES] = {1, 0, 0, 0, third, fourth};
    const cell_bounds c = cell_bounds_of(sizes, 1);
    return bound_of_cell(&c, a, b);
}

/* Flat at both ends and higher between; falling, and raised by the last terms; rising, with a dip of the slope; any. */
static polynomial some_polynomial(dice *d)
{
    const double e = dice_size(d, 1e-6, 1);
    const int kind = dice_below(d, 4);
    polynomial p = {.square = 1};
    if (kind == 0) return (polynomial){1, {0, e, -3 * e, 2 * e, 0}};
    if (kind == 1) {
        p.c[0] = -e * dice_between(d, 0, 0.1);
        p.c[1] = -e * dice_between(d, 0, 1);
        p.c[2] = e * dice_between(d, 0, 2);
        p.c[3] = e * dice_between(d, 0, 4);
        return p;
    }
    if (kind == 2) {
        const double dip = e * dice_between(d, 1.5, 3) * 16; /* e - dip s^2 (1 - s)^2 */
        return (polynomial){1, {e, 0, -dip, 2 * dip, -dip}};
    }
    for (int k = 0; k < 5; k++) p.c[k] = state_sign(d) * e * dice_size(d, 1e-2, 1);
    return p;
}

START_TEST(no_polynomial_exceeds_its_bound)
{
    enum { SCAN = 64, POLYNOMIALS = 200000 };
    dice d = {83};
    for (int i = 0; i < POLYNOMIALS; i++) {
        const polynomial p = some_polynomial(&d);
        const bool back = dice_chance(&d, 0.5); /* seen from the other end */
        const node a = node_at(&p, 0), b = node_at(&p, 1);
        const node turned_a = {a.square, -a.g, a.g1, -a.g2}, turned_b = {b.square, -b.g, b.g1, -b.g2};
        const double bound = back ? bound_of(&p, &turned_b, &turned_a) : bound_of(&p, &a, &b);
        for (int k = 0; k <= SCAN; k++) {
            const double square = square_at(&p, (double)k / SCAN);
            if (square > bound + 1e-11) ck_abort_msg("%g %g %g %g %g: %.17g at %d, bound %.17g", p.c[0], p.c[1], p.c[2],
                                                     p.c[3], p.c[4], square, k, bound);
        }
    }
}
END_TEST

/* A vector all of whose derivatives point one way, exp(n t), uses up every term. */
START_TEST(sizes_of_a_square_are_met)
{
    for (double n = 0.5; n < 8; n += 0.5) {
        double s[SIZES];
        for (int k = 0; k < SIZES; k++) s[k] = pow(n, k);
        const cell_bounds c = cell_bounds_of(s, 0.1);
        near_within(c.b3, 8 * pow(n, 4), 1e-12, 0); /* of g = n exp(2 n t) */
        near_within(c.g_error, 16 * pow(n, 5) * 1e-4 / 384, 1e-12, 0);
        near_within(c.square_error, 16 * pow(n, 4) * 1e-4 / 384, 1e-12, 0);
        const double f[] = {sqrt(0.5), sqrt(0.5)}, f1[] = {n * f[0], n * f[1]}, f2[] = {n * f1[0], n * f1[1]};
        const double f3[] = {n * f2[0], n * f2[1]};
        const node at = node_of(f, f1, f2, f3);
        near_within(at.square, 1, 1e-12, 0);
        near_within(at.g, n, 1e-12, 0);
        near_within(at.g1, 2 * n * n, 1e-12, 0);
        near_within(at.g2, 4 * n * n * n, 1e-12, 0);
    }
}
END_TEST

/* Rounding of a sum is 1e-14 of what adds up to it: of a movement also where the joints stand and how they turn, of a moment not. */
START_TEST(rounding_of_what_adds_up)
{
    static const struct {
        solution solved;
        double moment, movement; /* what adds up */
    } of[] = {
        {{.share[SPREAD] = {3, 0}}, 3, 3}, {{.share[SPREAD] = {3, 0}, .share[ODD] = {0, -2}}, 5, 5},
        {{.offset = {0, -4}}, 0, 4}, {{.turn = {7, 0}}, 0, 7}, {{.share[EVEN] = {1, 0}, .offset = {2, 0}, .turn = {0, 4}}, 1, 7},
    };
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        near_within(search_for(NULL, &of[i].solved, MOMENT).noise, 1e-28 * of[i].moment * of[i].moment, 1e-12, 0);
        near_within(search_for(NULL, &of[i].solved, MOVEMENT).noise, 1e-28 * of[i].movement * of[i].movement, 1e-12, 0);
    }
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, no_place_of_a_cell_exceeds_its_bound);
    tcase_add_test(cases, no_derivative_exceeds_its_size);
    tcase_add_test(cases, a_place_is_told_as_it_is);
    tcase_add_test(cases, no_polynomial_exceeds_its_bound);
    tcase_add_test(cases, sizes_of_a_square_are_met);
    tcase_add_test(cases, rounding_of_what_adds_up);
    tcase_set_timeout(cases, 3000);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/bounds", fill);
}
