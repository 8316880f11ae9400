/* What is computed side by side, against one number at a time: load factors of a batch against single evaluations, second
 * differences against the equilibrium itself, stations against the formulas of one place, and every width of vector against
 * the narrowest, to the bit. */
#include "states.h"

#include "check/batch_versions.h"
#include "check/loads_body.h"
#include "check/maximum_body.h"

#include <gsl/gsl_errno.h>
#include <string.h>

enum { MEMBERS = 4000 };

static bool next_member(dice *d, sample *s, prepared *p)
{
    if (dice_chance(d, 0.5)) return make_state(d, s, p);
    *s = random_sample(d);
    return make_ready(s, p);
}

/* From rest to beyond buckling, or to far beyond yield; rising, even or not. */
static bool some_factors(dice *d, const prepared *p, double factor[BATCH])
{
    const double critical = critical_factor(p);
    const double most = isfinite(critical) ? critical * dice_between(d, 0.3, 1.2) : dice_size(d, 0.5, 20), from = dice_between(d, 0, 0.8) * most;
    const bool even = dice_chance(d, 0.5);
    for (int i = 0; i < BATCH; i++) {
        const double share = i / (BATCH - 1.0);
        factor[i] = from + (most - from) * (even ? share : share * share);
    }
    return even;
}

typedef struct tally {
    int settled, left; /* of load factors that stand, not under strong tension */
    double worst;      /* of what is settled, beside the single evaluation */
} tally;

static void compare(const sample *s, const prepared *p, const double factor[BATCH], tally *t)
{
    batch b;
    rbow_batch_evaluate(p, factor, false, &b);
    for (int k = 0; k < BATCH; k++) {
        evaluation e;
        rbow_evaluate(p, factor[k], false, &e);
        if (!e.stands) sample_holds(s, "buckled", b.settled[k] && isinf(b.utilisation[LIMIT_YIELD][k]) && isinf(b.utilisation[LIMIT_INTERACTION][k]));
        if (!e.stands) continue;
        const bool strong = e.solution.z < strong_tension;
        t->settled += b.settled[k] && !strong;
        t->left += !b.settled[k] && !strong;
        for (int w = 0; w < LIMITS && b.settled[k]; w++) {
            const double one = e.limits[w].utilisation, size = fmax(fabs(one), fabs(e.axial / p->column_load));
            const double off = fabs(b.utilisation[w][k] - one) / fmax(size, 1e-9);
            if (!(off <= 1e-8)) fprintf(stderr, "factor %.17g: %.17g, alone %.17g\n", factor[k], b.utilisation[w][k], one);
            sample_holds(s, "as evaluated alone", off <= 1e-8);
            t->worst = fmax(t->worst, off);
        }
    }
}

START_TEST(a_settled_lane_is_the_single_evaluation)
{
    dice d = {501};
    tally t = {0, 0, 0};
    for (int i = 0; i < MEMBERS; i++) {
        sample s;
        prepared p;
        double factor[BATCH];
        if (!next_member(&d, &s, &p)) continue;
        some_factors(&d, &p, factor);
        compare(&s, &p, factor, &t);
    }
    ck_assert_int_gt(t.settled, 5 * MEMBERS);
    ck_assert_int_lt(t.left, t.settled / 10);
}
END_TEST

static sample long_tube(double end)
{
    sample s = {tube_of(1.25, 0.058, 60), steel};
    s.member.end_a = s.member.end_b = end;
    s.member.compression = 1000;
    return s;
}

/* Sockets that point up at A and down at B bend a fixed tube into an S: two maxima, of which a side load raises one. */
START_TEST(two_maxima_are_told_apart)
{
    tally t = {0, 0, 0};
    for (int side = 0; side < 200; side++) {
        sample s = long_tube(INFINITY);
        prepared p;
        double factor[BATCH];
        s.member.miss_a = s.member.miss_b = 0.3;
        s.member.miss_b_clock = M_PI;
        s.member.spread_load = 0.002 * side;
        ck_assert(make_ready(&s, &p));
        for (int k = 0; k < BATCH; k++) factor[k] = p.critical_load / s.member.compression * (0.55 + 0.05 * k);
        compare(&s, &p, factor, &t);
    }
    ck_assert_int_gt(t.settled, 1000);
}
END_TEST

/* A half-wave bow's pinned answer is endless at z = pi^2, which a welded tube passes. */
START_TEST(resonance_is_passed)
{
    tally t = {0, 0, 0};
    sample s = long_tube(RBOW_SOFT_WELD);
    prepared p;
    double factor[BATCH];
    s.member.bow = 0.1;
    ck_assert(make_ready(&s, &p));
    const double resonance = M_PI * M_PI * p.unit / s.member.length / s.member.compression;
    for (int power = -15; power <= -2; power++) {
        for (int k = 0; k < BATCH; k++) factor[k] = resonance * (1 + (k - 3.5) * pow(10, power));
        compare(&s, &p, factor, &t);
    }
    ck_assert_int_eq(t.left, 0);
    ck_assert_double_lt(t.worst, 1e-10);
}
END_TEST

/* ---- second differences -------------------------------------------------------------------------------- */

/* Of the moments at all stations, from eight equilibria one at a time; and what rounding may leave of it. */
static void bends_of(const prepared *p, const double factor[BATCH], double bend[MIDDLES], double *rounding)
{
    double m[BATCH][STATIONS_MOST][PLANES];
    *rounding = 0;
    for (int k = 0; k < BATCH; k++) {
        plane_loads loads;
        equilibrium e;
        const double axial = axial_at(p, factor[k]);
        tube_loads acting;
        loads_at(p, factor[k], &acting);
        planes_beside(&acting, &loads);
        equilibrium_of(&p->beam, relative_load(p, axial), &loads, &e);
        for (int i = 0; i < p->station_count; i++) {
            const stations *s = &p->stations;
            const location at = {s->t[i], s->cosine[i], s->sine[i], s->point_side[i], s->kink_side[i]};
            moments here;
            moments_at(&e, &at, &here);
            for (int j = 0; j < PLANES; j++) m[k][i][j] = axial < p->critical_load ? here.m[j] : (double)NAN;
        }
        double shares = 0;
        for (int i = 0; i < SHAPES; i++) shares += hypot(e.share[i][UP], e.share[i][RIGHT]);
        *rounding = fmax(*rounding, axial < p->critical_load ? shares : 0);
    }
    double steepest = 0;
    for (int k = 0; k < MIDDLES; k++) {
        bend[k] = isnan(m[k + 2][0][UP]) || isnan(m[k][0][UP]) ? (double)NAN : 0;
        for (int g = 0; g < p->segment_count && !isnan(bend[k]); g++) {
            const fibre_factors *z = &p->zones[p->segments[g].zone].factors;
            const double stress = z->stress_per_moment * fmax(z->share_pressed, z->share_pulled);
            steepest = fmax(steepest, stress);
            for (int i = p->segments[g].first; i < p->segments[g].first + p->segments[g].count; i++)
                bend[k] = fmax(bend[k], stress * hypot(m[k][i][UP] - 2 * m[k + 1][i][UP] + m[k + 2][i][UP],
                                                       m[k][i][RIGHT] - 2 * m[k + 1][i][RIGHT] + m[k + 2][i][RIGHT]));
        }
    }
    *rounding *= 1e-12 * steepest;
}

START_TEST(second_differences_are_those_of_the_moments)
{
    dice d = {504};
    int tested = 0;
    for (int i = 0; i < MEMBERS; i++) {
        sample s;
        prepared p;
        double factor[BATCH], bend[MIDDLES], rounding;
        batch b;
        if (!next_member(&d, &s, &p)) continue;
        const double critical = critical_factor(&p), most = isfinite(critical) ? critical * dice_between(&d, 0.3, 1.2) : 5;
        for (int k = 0; k < BATCH; k++) factor[k] = most * k / (BATCH - 1);
        if (fabs(axial_at(&p, factor[6]) / p.critical_load - 1) < 1e-3) continue;
        bends_of(&p, factor, bend, &rounding);
        rbow_batch_evaluate(&p, factor, true, &b);
        for (int k = 0; k < MIDDLES; k++) {
            sample_holds(&s, "there is a second difference", isnan(bend[k]) == isnan(b.second_difference[k]));
            if (isnan(bend[k])) continue;
            sample_near(&s, "second difference", b.second_difference[k], bend[k], 1e-6, rounding);
            tested += bend[k] > rounding;
        }
    }
    ck_assert_int_gt(tested, MEMBERS);
}
END_TEST

/* ---- stations ------------------------------------------------------------------------------------------- */

START_TEST(stations_are_single_places)
{
    dice d = {502};
    for (int i = 0; i < MEMBERS; i++) {
        sample s;
        prepared p;
        evaluation e;
        if (!next_member(&d, &s, &p)) continue;
        rbow_evaluate(&p, 1, false, &e);
        if (!e.stands) continue;
        const equilibrium solved = equilibrium_from(&p.beam, &e.solution);
        for (int what = MOMENT; what <= MOVEMENT; what++) {
            along seen;
            rbow_along(&p, &e.solution, (quantity)what, &seen);
            for (int k = 0; k < p.station_count; k++) {
                const double side = p.stations.t[k] + (k > 0 && p.stations.cell[k] <= 0 ? -1e-3 : 0);
                const station there = station_at(&p.beam, p.stations.t[k], k + 1 < p.station_count && p.stations.cell[k] > 0 ? p.stations.t[k] + 1e-300 : side);
                const location at = {there.t, there.cosine, there.sine, p.stations.point_side[k], p.stations.kink_side[k]};
                place one;
                look_at(&solved, &at, (quantity)what, &one);
                sample_holds(&s, "square", fabs(seen.square[k] - one.node.square) <= 1e-12 * one.node.square);
                sample_holds(&s, "slope", fabs(seen.g[k] - one.node.g) <= 1e-12 * one.node.square + 1e-12 * fabs(one.node.g));
            }
        }
    }
}
END_TEST

/* ---- every width ----------------------------------------------------------------------------------------- */

static bool same(double a, double b)
{
    return (isnan(a) && isnan(b)) || memcmp(&a, &b, sizeof a) == 0;
}

static void same_batch(const sample *s, const prepared *p, const double factor[BATCH], batch_function *version)
{
    batch one, other;
    tube_loads loads[BATCH];
    for (int k = 0; k < BATCH; k++) loads_at(p, factor[k], &loads[k]);
    rbow_batch_evaluate_loads_1(p, loads, true, &one);
    version(p, loads, true, &other);
    for (int k = 0; k < BATCH; k++) {
        sample_holds(s, "every width settles the same", one.settled[k] == other.settled[k]);
        for (int w = 0; w < LIMITS; w++)
            sample_holds(s, "every width has the same utilisation", same(one.utilisation[w][k], other.utilisation[w][k]));
    }
    for (int k = 0; k < MIDDLES; k++)
        sample_holds(s, "every width has the same second difference", same(one.second_difference[k], other.second_difference[k]));
}

static void same_along(const sample *s, const prepared *p, const solution *at, along_function *version)
{
    for (int what = MOMENT; what <= MOVEMENT; what++) {
        along one, other;
        rbow_along_1(p, at, (quantity)what, &one);
        version(p, at, (quantity)what, &other);
        for (int k = 0; k < p->station_count; k++) {
            const bool alike = same(one.square[k], other.square[k]) && same(one.g[k], other.g[k]) && same(one.g1[k], other.g1[k])
                && same(one.g2[k], other.g2[k]) && same(one.m[k], other.m[k]) && same(one.dm[k], other.dm[k])
                && same(one.size[k], other.size[k]) && same(one.slope[k], other.slope[k]);
            sample_holds(s, "every width has the same places", alike);
            sample_holds(s, "every width has the same bounds", k + 1 == p->station_count || same(one.bound[k], other.bound[k]));
        }
    }
}

START_TEST(every_width_gives_the_same)
{
    dice d = {503};
    int tested = 0;
    for (int i = 0; i < MEMBERS; i++) {
        sample s;
        prepared p;
        evaluation e;
        double factor[BATCH];
        if (!next_member(&d, &s, &p)) continue;
        some_factors(&d, &p, factor);
        const double per = s.member.length / p.unit;
        if (fmin(axial_at(&p, factor[0]), axial_at(&p, factor[BATCH - 1])) * per >= strong_tension) {
            same_batch(&s, &p, factor, rbow_batch_evaluate_loads_2);
#ifdef BATCH_VERSIONS
            if (__builtin_cpu_supports("avx2")) same_batch(&s, &p, factor, rbow_batch_evaluate_loads_avx2);
            if (__builtin_cpu_supports("avx512dq")) same_batch(&s, &p, factor, rbow_batch_evaluate_loads_avx512);
#endif
            tested++;
        }
        rbow_evaluate(&p, 1, false, &e);
        if (!e.stands || e.solution.z < strong_tension) continue;
        same_along(&s, &p, &e.solution, rbow_along_2);
#ifdef BATCH_VERSIONS
        if (__builtin_cpu_supports("avx2")) same_along(&s, &p, &e.solution, rbow_along_avx2);
        if (__builtin_cpu_supports("avx512dq")) same_along(&s, &p, &e.solution, rbow_along_avx512);
#endif
    }
    ck_assert_int_gt(tested, MEMBERS / 2);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_settled_lane_is_the_single_evaluation);
    tcase_add_test(cases, two_maxima_are_told_apart);
    tcase_add_test(cases, resonance_is_passed);
    tcase_add_test(cases, second_differences_are_those_of_the_moments);
    tcase_add_test(cases, stations_are_single_places);
    tcase_add_test(cases, every_width_gives_the_same);
    tcase_set_timeout(cases, 120);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/batch", fill);
}
