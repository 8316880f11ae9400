/* What is not known of a member: members whose worst scenario is known beforehand, ties, and a use that exceeds 1 by
 * little. test_scenario.c holds the rest to brute force. */
#include "classes.h"

#include "check/load_factors.h"

#include <gsl/gsl_errno.h>

static const double degree = 3.14159265358979323846 / 180;
static const double full_turn = 2 * 3.14159265358979323846;
static const double found_to = 1e-6;

/* Its bow's direction is not known. */
static rbow_member bowed_strut(void)
{
    rbow_member m = tube_of(1.25, 0.058, 36);
    m.compression = 3000;
    m.bow = 0.1;
    m.bow_clock = RBOW_ANY_CLOCK;
    return m;
}

/* A pinned strut under one side load: the bow is worst with the load, and its margin is that of the clock typed. */
START_TEST(the_bow_goes_with_the_load)
{
    rbow_member m = bowed_strut();
    m.spread_load = 4;
    for (int at = 0; at < 360; at += 40) {
        m.spread_clock = at * degree;
        const rbow_result worst = check(&m, &steel);
        near_within(remainder(worst.bow_clock_taken - m.spread_clock, full_turn), 0, 0, 0.1 * degree);
        rbow_member typed = m;
        typed.bow_clock = m.spread_clock;
        near_within(worst.margin, check(&typed, &steel).margin, 0, found_to);
        ck_assert(isnan(worst.miss_a_clock_taken) && isnan(worst.miss_b_clock_taken));
    }
}
END_TEST

/* All in one plane: its mirror image ties, and the smaller clock is taken. */
START_TEST(mirror_images)
{
    dice d = {701};
    for (int i = 0; i < 60; i++) {
        sample s = symmetric(&d);
        rbow_member *m = &s.member;
        m->bow = 0.004 * m->length;
        m->spread_clock = 0;
        m->miss_a_clock = m->miss_b_clock = 0;
        m->bow_clock = RBOW_ANY_CLOCK;
        rbow_status fault;
        if (rbow_member_faults(m, &s.material, &fault, 1) > 0) continue;
        const rbow_result r = check_sample(&s);
        sample_holds(&s, "the clock in the first half", r.bow_clock_taken >= 0 && r.bow_clock_taken <= full_turn / 2 + 0.1 * degree);
    }
}
END_TEST

/* Level all round: the smallest clock, and the margin of any. */
START_TEST(only_a_bow)
{
    rbow_member m = bowed_strut();
    const rbow_result any_clock = check(&m, &steel);
    near_within(any_clock.bow_clock_taken, 0, 0, 0);
    for (m.bow_clock = 0; m.bow_clock < 6; m.bow_clock += 1) near_within(check(&m, &steel).margin, any_clock.margin, 1e-9, 1e-9);
}
END_TEST

/* Without a run load either nothing limits it, or it yields as it stands. */
START_TEST(no_run_load)
{
    rbow_member m = bowed_strut();
    m.compression = 0;
    m.end_a = m.end_b = RBOW_WELDED;
    m.miss_a = 0.05;
    m.miss_a_clock = RBOW_ANY_CLOCK;
    rbow_result r = check(&m, &steel);
    ck_assert(isinf(r.margin) && isinf(r.margin_as_built) && isinf(r.margin_unforced) && isinf(r.margin_best));
    ck_assert(r.governs == RBOW_BY_NONE && r.joints_taken == RBOW_JOINTS_SOFT && r.fit_taken == RBOW_FIT_AS_BUILT);
    near_within(r.bow_clock_taken, 0, 0, 0);
    near_within(r.miss_a_clock_taken, 0, 0, 0);
    m.miss_a = 1.4; /* yields with stiff ends, not with soft ones */
    r = check(&m, &steel);
    near_within(r.margin, -1, 0, 0);
    near_within(r.margin_as_built, -1, 0, 0);
    ck_assert(isinf(r.margin_unforced) && r.fit_taken == RBOW_FIT_AS_BUILT);
    ck_assert((r.remarks & RBOW_REMARK_SET) != 0);
}
END_TEST

/* A slender strut that its column curve alone limits: all corners and fits tie. */
START_TEST(ties)
{
    rbow_member m = tube_of(1, 0.035, 90);
    m.column_curve = RBOW_CURVE_EN_D;
    m.compression = 100;
    m.end_a = m.end_b = RBOW_WELDED;
    m.factor_yield = 0.01;
    rbow_result r = check(&m, &steel);
    ck_assert(r.governs == RBOW_BY_COLUMN && r.joints_taken == RBOW_JOINTS_SOFT && r.fit_taken == RBOW_FIT_AS_BUILT);
    near_within(r.margin_best, r.margin, 0, 1e-9);
    m.miss_a = 1e-12; /* nothing that counts: kept and gone tie */
    r = check(&m, &steel);
    ck_assert(r.governs == RBOW_BY_COLUMN && r.joints_taken == RBOW_JOINTS_SOFT && r.fit_taken == RBOW_FIT_AS_BUILT);
    near_within(r.margin_unforced, r.margin_as_built, 0, 1e-9);
    m.gap = 0.01; /* what helps is gone; with the miss kept or gone ties */
    r = check(&m, &steel);
    ck_assert(r.governs == RBOW_BY_COLUMN && r.joints_taken == RBOW_JOINTS_SOFT && r.fit_taken == RBOW_FIT_RELAXED);
    ck_assert(r.fit_kept == RBOW_FIT_MISS_A && r.margin_as_built > r.margin);
    near_within(r.margin_unforced, r.margin, 0, 1e-9);
    m.miss_a = 0;
    ck_assert_int_eq(check(&m, &steel).fit_taken, RBOW_FIT_UNFORCED);
    m.end_a = RBOW_FIXED;
    ck_assert_int_eq(check(&m, &steel).joints_taken, RBOW_JOINTS_SOFT);
    m.end_b = RBOW_FIXED;
    ck_assert_int_eq(check(&m, &steel).joints_taken, RBOW_JOINTS_NONE);
}
END_TEST

/* A forced fit between welded joints: stiff ends are worse, by the closed forms 6 EI/L^2 and its soft share. */
START_TEST(stiff_ends_of_a_forced_fit)
{
    rbow_member m = tube_of(1.25, 0.058, 36);
    m.end_a = m.end_b = RBOW_WELDED;
    m.miss_a = m.miss_b = 0.1;
    m.miss_b_clock = full_turn / 2;
    m.torque = 3000; /* bends nothing */
    const rbow_result r = check(&m, &steel);
    const double ei = steel.elastic_modulus * r.section.inertia;
    near_within(r.fit_moment, 6 * ei * 0.1 / 36 / 36, 1e-9, 0);
    ck_assert_int_eq(r.joints_taken, RBOW_JOINTS_STIFF);
    ck_assert(r.margin_best > r.margin && r.margin_unforced > r.margin_as_built);
    near_within(r.critical_load, 2 * 9.869604401089358 * ei / 36 / 36, 1e-12, 0); /* of soft ends: c = 2 */
}
END_TEST

/* A clock of 0 that is typed is a direction as any other. */
START_TEST(a_typed_clock_is_taken)
{
    rbow_member m = bowed_strut();
    m.spread_load = 4;
    m.spread_clock = 90 * degree;
    const double unknown = check(&m, &steel).margin;
    m.bow_clock = 0;
    const rbow_result typed = check(&m, &steel);
    near_within(typed.bow_clock_taken, 0, 0, 0);
    ck_assert(typed.margin > unknown + 0.01);
    m.bow_clock = 200 * degree;
    near_within(check(&m, &steel).bow_clock_taken, 200 * degree, 0, 0);
}
END_TEST

/* 1 in at each joint, at most half the length. */
START_TEST(a_weld_zone_that_is_not_given)
{
    for (double length = 1; length < 40; length *= 1.7) {
        rbow_member m = tube_of(1.25, 0.058, length), typed = m;
        m.compression = typed.compression = -5000;
        m.spread_load = typed.spread_load = 20;
        m.end_a = typed.end_a = RBOW_FIXED;
        m.weld_zone = RBOW_UNSET;
        typed.weld_zone = length > 2 ? 1 : length / 2;
        near_within(check(&m, &steel).margin, check(&typed, &steel).margin, 0, 0);
        typed.weld_zone = 0;
        ck_assert(check(&typed, &steel).margin > check(&m, &steel).margin + 0.1);
    }
}
END_TEST

/* ---- a use that exceeds 1 by 1e-5 and comes back ------------------------------------------------------ */

static double top_near(const sample *s, double top)
{
    double low = 0.9 * top, high = 1.1 * top;
    for (int i = 0; i < 80; i++) {
        const double a = low + (high - low) / 3, b = high - (high - low) / 3;
        if (use_at(s, a) < use_at(s, b)) low = a;
        else high = b;
    }
    return (low + high) / 2;
}

/* The first factor at which the use is 1, between 0.9 of the top and it, by the plain check; NaN if it is no such hump. */
static double crossing_of(sample *s)
{
    const plain_tube t = plain_tube_of(&s->member, &s->material);
    const double c = s->member.compression, critical = t.buckling_load;
    const double coarse = first_top(s, c > 0 ? 0.999 * (critical + t.tension) / c : critical / fmax(1e-9, -c) * 10);
    if (!(coarse > 0)) return NAN;
    double top = 0;
    for (int i = 0; i < 3; i++) {
        top = top_near(s, coarse);
        bend_by(&s->member, 1 / use_at(s, top));
        scale_yields(&s->material, use_at(s, top) / (1 + 1e-5));
        top = top_near(s, top);
    }
    double low = 0.9 * top, high = top;
    if (fabs(use_at(s, top) - 1 - 1e-5) > 1e-9 || use_at(s, 0) >= 1 || use_at(s, low) >= 1 || use_at(s, 1.1 * top) >= 1) return NAN;
    for (int i = 0; i < 60; i++) *(use_at(s, (low + high) / 2) < 1 ? &low : &high) = (low + high) / 2;
    return high;
}

START_TEST(a_low_hump)
{
    enum { HUMPS = 5 };
    dice d = {801};
    for (int found = 0, tries = 0; found < HUMPS; tries++) {
        sample s = hump(&d);
        rbow_status fault;
        rbow_result r;
        ck_assert_int_lt(tries, 40 * HUMPS);
        s.member.gap = 0;
        const double first = crossing_of(&s);
        if (!(first > 0) || rbow_member_faults(&s.member, &s.material, &fault, 1) > 0) continue;
        prepared p;
        load_factors k;
        ck_assert_int_eq(rbow_prepare(&s.member, &s.material, &p), RBOW_OK);
        ck_assert_int_eq(rbow_load_factors(&p, &k), RBOW_OK);
        sample_near(&s, "yield_factor", k.limits[LIMIT_YIELD].factor, first, 1e-7, 0);
        r = check_sample(&s);
        sample_holds(&s, "margin no higher", r.margin <= first / (s.member.factor_yield > 0 ? s.member.factor_yield : s.member.factor) - 1 + 1e-7);
        found++;
    }
}
END_TEST

/* Bow and end moments cancel here, and their difference curves far more before the hump than after it. */
START_TEST(a_low_hump_of_shares_that_cancel)
{
    sample s = {tube_of(0.75, 0.12, 67.402673510303131), steel};
    s.material.yield = s.material.compression_yield = 6530.8678696580837;
    s.material.weld_yield = 181305.37184890648;
    s.material.elastic_modulus = 29e6;
    s.member.end_a = s.member.end_b = 715.16173766657289;
    s.member.compression = -112.33070204733419;
    s.member.moment_a = s.member.moment_b = 280.58255322432137;
    s.member.spread_load = -0.34989286684357895;
    s.member.bow = 0.014152142652942238;
    s.member.bow_shape = RBOW_BOW_ARC;
    s.member.bow_clock = 0;
    s.member.weld_zone = 29.283124327977813;
    prepared p;
    load_factors k;
    ck_assert(use_at(&s, 8.0) < 1 && use_at(&s, 8.067166) > 1 + 9e-6 && use_at(&s, 8.2) < 1);
    ck_assert_int_eq(rbow_prepare(&s.member, &s.material, &p), RBOW_OK);
    ck_assert_int_eq(rbow_load_factors(&p, &k), RBOW_OK);
    sample_near(&s, "yield_factor", k.limits[LIMIT_YIELD].factor, 8.02703037042907, 1e-7, 0);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, the_bow_goes_with_the_load);
    tcase_add_test(cases, mirror_images);
    tcase_add_test(cases, only_a_bow);
    tcase_add_test(cases, no_run_load);
    tcase_add_test(cases, ties);
    tcase_add_test(cases, stiff_ends_of_a_forced_fit);
    tcase_add_test(cases, a_typed_clock_is_taken);
    tcase_add_test(cases, a_weld_zone_that_is_not_given);
    tcase_add_test(cases, a_low_hump);
    tcase_add_test(cases, a_low_hump_of_shares_that_cancel);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/scenario_structured", fill);
}
