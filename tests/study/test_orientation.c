/* Turning the bow, against brute force: every 0.05 degree wherever a 1 degree scan leaves room for an extreme, then
 * halved down to 1e-6 degree round the best of them. */
#include "study/members.h"

#include "study/orientation.h"

typedef struct brute {
    double best, best_clock; /* degrees */
} brute;

/* Scenarios tie within 1e-9. */
static bool is_level(double a, double b)
{
    return fabs(a - b) <= 3e-9 * (1 + fabs(a));
}

static double height(const problem *p, double sign, double degrees)
{
    return sign * margin_with(p, PARAMETER(bow_clock), fmod(degrees + 360, 360) * degree);
}

static void take(brute *b, double degrees, double at)
{
    const double clock = fmod(degrees + 360, 360);
    if (at > b->best && !is_level(at, b->best))
        *b = (brute){at, clock};
    else if (is_level(at, b->best) && clock < b->best_clock)
        b->best_clock = clock, b->best = fmax(at, b->best);
}

/* The better neighbour, at ever finer steps; downhill of the clock on a level. */
static void refine(const problem *p, double sign, brute *b, double degrees)
{
    double at = height(p, sign, degrees);
    for (double step = 0.025; step > 1e-6; step /= 2) {
        const double low = height(p, sign, degrees - step), high = height(p, sign, degrees + step);
        if (low >= at && low >= high) at = low, degrees -= step;
        else if (high > at) at = high, degrees += step;
    }
    take(b, degrees, at);
}

static brute brute_force(const problem *p, const double margins[361], double sign)
{
    double coarse[361], highest = -INFINITY, widest = 0;
    brute b = {-INFINITY, 0};
    for (int i = 0; i <= 360; i++) {
        coarse[i] = sign * margins[i];
        highest = fmax(highest, coarse[i]);
        if (i > 0) widest = fmax(widest, fabs(coarse[i] - coarse[i - 1]));
        if (i < 360) take(&b, i, coarse[i]);
    }
    for (int i = 0; i < 360; i++) {
        if (fmax(coarse[i], coarse[i + 1]) + widest < highest) continue;
        double fine[23];
        for (int k = 0; k < 23; k++) take(&b, i + 0.05 * (k - 1), fine[k] = height(p, sign, i + 0.05 * (k - 1)));
        for (int k = 1; k < 22; k++)
            if (fine[k] >= fine[k - 1] && fine[k] >= fine[k + 1] && (fine[k] > fine[k - 1] || fine[k] > fine[k + 1]))
                refine(p, sign, &b, i + 0.05 * (k - 1));
    }
    return b;
}

static void ck_clock(const problem *p, const double margins[361], double sign, double got_clock, double got)
{
    const brute b = brute_force(p, margins, sign);
    const double clock = got_clock / degree;
    ck_assert_msg(got_clock >= 0 && clock < 360, "clock %g", clock);
    near_within(sign * margin_with(p, PARAMETER(bow_clock), got_clock), sign * got, 1e-7, 1e-7);
    near_within(sign * got, b.best, 1e-8, 1e-8);
    /* a top that is flat over more than that is level by a check of a scenario that ties */
    const bool is_flat = fabs(clock - b.best_clock) <= 1 && is_level(height(p, sign, clock), height(p, sign, b.best_clock));
    ck_assert_msg(fabs(clock - b.best_clock) <= 0.1 || is_flat, "clock %.4f (%.12g), want %.4f (%.12g)", clock, sign * got, b.best_clock,
                  b.best);
}

static orientation found_for(const rbow_member *m)
{
    const problem p = problem_of(m);
    orientation a;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
    ck_assert(!(fabs(a.margin_as_marked - margin_of(&p, m)) > 1e-12 * (1 + fabs(a.margin_as_marked))));
    double margins[361];
    for (int i = 0; i <= 360; i++) margins[i] = height(&p, 1, i);
    ck_clock(&p, margins, 1, a.best_clock, a.best_margin);
    ck_clock(&p, margins, -1, a.worst_clock, a.worst_margin);
    return a;
}

START_TEST(any_member_against_brute_force)
{
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    for (int i = 0; i < 30; i++) {
        const rbow_member m = any_member(r);
        found_for(&m);
    }
    gsl_rng_free(r);
}
END_TEST

/* Fixed ends: the middle and the ends want the bow on other sides, so that tops are kinks where two places meet. */
START_TEST(mirror_images_go_to_the_smaller_clock)
{
    rbow_member m = rail();
    m.end_a = m.end_b = RBOW_FIXED; /* the bow bends the ends one way and the middle the other */
    m.compression = 8000;
    m.bow = 0.1;
    m.spread_load = 12;
    for (m.spread_clock = 0; m.spread_clock < 6; m.spread_clock += 100 * degree) {
        const orientation a = found_for(&m);
        ck_assert(a.best_margin >= a.margin_as_marked && a.worst_margin <= a.margin_as_marked);
    }
}
END_TEST

/* A side load alone decides where the bow should point: across from it or with it. */
START_TEST(one_load_and_a_pinned_strut)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.1;
    m.spread_load = 4;
    for (int at = 0; at < 360; at += 40) {
        orientation a;
        m.spread_clock = at * degree;
        const problem p = problem_of(&m);
        ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
        near_within(a.worst_clock / degree, at, 0, 0.1);
        near_within(a.best_clock / degree, (at + 180) % 360, 0, 0.1);
    }
}
END_TEST

/* Straight column alone: its curve governs wherever the bow points, unless the bow is large. */
START_TEST(level_tops_begin_at_their_smallest_clock)
{
    rbow_member m = rail();
    m.compression = 4000;
    m.bow = 0.01;
    m.spread_load = 0.2;
    m.factor_yield = 0.2;
    m.column_curve = RBOW_CURVE_EN_D;
    for (m.spread_clock = 0; m.spread_clock < 6; m.spread_clock += 2.1) found_for(&m);
    m.spread_load = 0; /* level all round */
    const orientation a = found_for(&m);
    ck_assert(a.best_clock <= 0 && a.worst_clock <= 0);
}
END_TEST

START_TEST(no_bow_and_no_limit)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow_clock = 2;
    problem p = problem_of(&m);
    orientation a;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
    ck_assert(a.best_clock <= 0 && a.worst_clock <= 0 && is_same(a.best_margin, a.margin_as_marked) && is_same(a.worst_margin, a.margin_as_marked));
    near_within(a.margin_as_marked, margin_of(&p, &m), 0, 0);

    p.member.bow = 0.1; /* nothing bends it */
    p.member.compression = 0;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
    ck_assert(isinf(a.margin_as_marked) && isinf(a.best_margin) && isinf(a.worst_margin) && a.best_clock <= 0);
}
END_TEST

/* Squeezed in with no run load: either it yields as it stands or nothing limits it, and the bow's side decides. */
START_TEST(a_built_in_state_that_yields_for_some_clocks)
{
    rbow_member m = rail();
    m.end_a = m.end_b = RBOW_FIXED;
    m.bow = 0.3;
    m.gap = -0.02;
    m.miss_a = 0.8;
    problem p = problem_of(&m);
    while (isinf(margin_with(&p, PARAMETER(bow_clock), pi)) && isinf(margin_with(&p, PARAMETER(bow_clock), 0))) p.member.miss_a += 0.005;
    orientation a;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
    ck_assert_msg(isinf(a.best_margin) && a.worst_margin <= -1, "%g %g at miss %g", a.best_margin, a.worst_margin, p.member.miss_a);
    ck_assert(isinf(margin_with(&p, PARAMETER(bow_clock), a.best_clock)));
    ck_assert(margin_with(&p, PARAMETER(bow_clock), a.worst_clock) <= -1);
}
END_TEST

/* ---- several cases of one tube ------------------------------------------------------------------------ */

enum { CASES_MOST = 5 };

static double lowest_at(const problem cases[], size_t count, double sign, double degrees)
{
    double lowest = INFINITY;
    for (size_t i = 0; i < count; i++) lowest = fmin(lowest, height(&cases[i], 1, degrees));
    return sign * lowest;
}

/* Every half degree, then every neighbour at ever finer steps round each that could still be the highest. */
static brute brute_force_of(const problem cases[], size_t count, double sign)
{
    brute b = {-INFINITY, 0};
    double at[720], widest = 0;
    for (int i = 0; i < 720; i++) at[i] = lowest_at(cases, count, sign, i / 2.0);
    for (int i = 0; i < 720; i++) take(&b, i / 2.0, at[i]), widest = fmax(widest, fabs(at[i] - at[(i + 1) % 720]));
    const double coarse = b.best;
    for (int i = 0; i < 720; i++) {
        if (at[i] + widest < coarse) continue;
        double degrees = i / 2.0, here = at[i];
        for (double step = 0.25; step > 1e-5; step /= 2) {
            const double low = lowest_at(cases, count, sign, degrees - step), high = lowest_at(cases, count, sign, degrees + step);
            if (low > here && low >= high) here = low, degrees -= step;
            else if (high > here) here = high, degrees += step;
        }
        take(&b, degrees, here);
    }
    return b;
}

static void ck_part(const problem cases[], size_t count)
{
    orientation a;
    double marked = INFINITY;
    ck_assert_int_eq(orientation_find(cases, count, &a), RBOW_OK);
    for (size_t i = 0; i < count; i++) marked = fmin(marked, margin_of(&cases[i], &cases[i].member));
    near_within(a.margin_as_marked, marked, 1e-12, 1e-12);
    const struct {
        double sign, clock, margin;
    } ends[] = {{1, a.best_clock, a.best_margin}, {-1, a.worst_clock, a.worst_margin}};
    for (int k = 0; k < 2; k++) {
        const brute b = brute_force_of(cases, count, ends[k].sign);
        const double apart = fabs(remainder(ends[k].clock / degree - b.best_clock, 360));
        near_within(ends[k].sign * ends[k].margin, b.best, 1e-7, 1e-7);
        ck_assert_msg(apart <= 0.1, "clock %.4f, want %.4f (%.12g, %.12g)", ends[k].clock / degree, b.best_clock, ends[k].margin, b.best);
    }
}

START_TEST(one_clock_for_several_cases)
{
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    for (int n = 0; n < 30; n++) {
        problem cases[CASES_MOST];
        const size_t count = 2 + gsl_rng_uniform_int(r, CASES_MOST - 1);
        const rbow_member tube = any_member(r);
        for (size_t i = 0; i < count; i++) { /* the same tube under other loads */
            rbow_member m = any_member(r);
            m.od = tube.od, m.wall = tube.wall, m.length = tube.length, m.point_at = tube.length / 3;
            m.bow = n % 7 == 0 && i == 0 ? 0 : tube.bow, m.bow_shape = tube.bow_shape;
            m.end_a = m.end_b = n % 2 == 0 ? RBOW_FIXED : 30000;
            cases[i] = problem_of(&m);
        }
        ck_part(cases, count);
    }
    gsl_rng_free(r);
}
END_TEST

/* Two equal cases whose loads come from 0 and 90 degrees: the best clock is across from the middle of them. */
START_TEST(between_two_loads)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.1;
    m.spread_load = 4;
    problem cases[2] = {problem_of(&m), problem_of(&m)};
    cases[1].member.spread_clock = 90 * degree;
    orientation a;
    ck_assert_int_eq(orientation_find(cases, 2, &a), RBOW_OK);
    near_within(a.best_clock / degree, 225, 0, 0.1);
    near_within(a.worst_clock / degree, 0, 0, 0.1); /* 90 is as bad */
    cases[1].member.wall = -1;
    ck_assert_int_eq(orientation_find(cases, 2, &a), RBOW_BAD_WALL);
}
END_TEST

/* Loads of any size are numbers, not "no limit". */
START_TEST(a_very_small_load_is_a_load)
{
    rbow_member m = rail();
    m.compression = 1e-30;
    m.bow = 0.1;
    const problem p = problem_of(&m);
    orientation a;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
    near_within(a.best_margin, margin_of(&p, &m), 1e-9, 0);
    ck_assert(a.best_margin > 1e30);
}
END_TEST

START_TEST(a_case_that_the_model_refuses)
{
    rbow_member m = rail();
    m.bow = 30;
    const problem p = problem_of(&m);
    orientation a;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_BOW_TOO_STEEP);
}
END_TEST

START_TEST(margins_round_the_clock)
{
    rbow_member m = rail();
    double margins[8];
    m.compression = 3000;
    m.bow = 0.1;
    m.spread_load = 4;
    problem p = problem_of(&m);
    orientation_margins(&p, 1, margins, 8);
    for (int i = 0; i < 8; i++) near_within(margins[i], margin_with(&p, PARAMETER(bow_clock), 45 * i * degree), 1e-12, 0);
    p.member.compression = p.member.spread_load = 0;
    orientation_margins(&p, 1, margins, 8);
    for (int i = 0; i < 8; i++) ck_assert(isinf(margins[i]) && margins[i] > 0);
    p.member.wall = -1;
    orientation_margins(&p, 1, margins, 8);
    for (int i = 0; i < 8; i++) ck_assert(isnan(margins[i]));
}
END_TEST

/* Any number of whole turns names the same clock. */
START_TEST(clocks_beyond_a_turn)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.1;
    m.spread_load = 4;
    m.bow_clock = 30 * degree;
    problem p = problem_of(&m);
    orientation a, b;
    ck_assert_int_eq(orientation_find(&p, 1, &a), RBOW_OK);
    for (int turns = -3; turns <= 3; turns++) {
        p.member.bow_clock = 30 * degree + turns * 2 * pi;
        ck_assert_int_eq(orientation_find(&p, 1, &b), RBOW_OK);
        near_within(b.margin_as_marked, a.margin_as_marked, 1e-12, 0);
        near_within(b.best_clock, a.best_clock, 0, 0);
    }
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, any_member_against_brute_force);
    tcase_add_test(cases, mirror_images_go_to_the_smaller_clock);
    tcase_add_test(cases, one_load_and_a_pinned_strut);
    tcase_add_test(cases, level_tops_begin_at_their_smallest_clock);
    tcase_add_test(cases, no_bow_and_no_limit);
    tcase_add_test(cases, a_built_in_state_that_yields_for_some_clocks);
    tcase_add_test(cases, one_clock_for_several_cases);
    tcase_add_test(cases, between_two_loads);
    tcase_add_test(cases, a_very_small_load_is_a_load);
    tcase_add_test(cases, a_case_that_the_model_refuses);
    tcase_add_test(cases, margins_round_the_clock);
    tcase_add_test(cases, clocks_beyond_a_turn);
}

int main(void)
{
    return run_tests("orientation", fill);
}
