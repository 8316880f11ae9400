/* The load factors of details: against a dense scan, over all unknowns, and where a detail changes nothing. */
#include "details.h"

#include <gsl/gsl_errno.h>

static const double pi = 3.14159265358979323846;

static double toward(dice *d)
{
    return dice_between(d, 0, 2 * pi);
}

/* A concrete member with loads of every kind. */
static rbow_member some_member(dice *d)
{
    static const double ends[] = {RBOW_PINNED, RBOW_FIXED, RBOW_SOFT_WELD, RBOW_STIFF_WELD, 2e5};
    rbow_member m = tube_of(1.25, .058, dice_between(d, 15, 60));
    m.end_a = ends[dice_below(d, 5)];
    m.end_b = ends[dice_below(d, 5)];
    m.compression = dice_chance(d, .15) ? 0 : dice_between(d, -3000, 6000);
    m.moment_a = dice_between(d, -2000, 2000);
    m.moment_b = dice_chance(d, .5) ? 0 : dice_between(d, -3000, 3000);
    m.moment_clock = toward(d);
    m.spread_load = dice_chance(d, .5) ? 0 : dice_between(d, -10, 10);
    m.point_load = dice_chance(d, .5) ? 0 : dice_between(d, -200, 200);
    m.point_at = dice_between(d, 0, m.length);
    m.torque = dice_chance(d, .5) ? 0 : dice_between(d, -1500, 1500);
    m.bow = dice_chance(d, .3) ? 0 : m.length * dice_size(d, 1e-4, 5e-3);
    m.bow_shape = dice_below(d, 3);
    m.bow_clock = toward(d);
    if ((m.end_a > 0 || m.end_a < 0) && dice_chance(d, .5)) m.miss_a = dice_between(d, 0, .3);
    if ((m.end_b > 0 || m.end_b < 0) && dice_chance(d, .5)) m.miss_b = dice_between(d, 0, .3);
    m.miss_a_clock = toward(d);
    m.miss_b_clock = toward(d);
    m.gap = dice_chance(d, .5) ? 0 : dice_between(d, -.005, .01);
    m.weld_zone = dice_chance(d, .5) ? 1 : 0;
    m.factor_yield = dice_chance(d, .5) ? RBOW_UNSET : 1.1;
    return m;
}

static rbow_detail some_detail(dice *d, const rbow_member *m)
{
    const double at = dice_chance(d, .3) ? 0 : dice_between(d, 0, m->length);
    switch (dice_below(d, 6)) {
        case 0: return detail_of(RBOW_DETAIL_PLACE, at);
        case 1: return hole_at(at, dice_between(d, 0, .5), 1 + dice_below(d, 2));
        case 2: {
            rbow_detail hole = hole_at(at, dice_between(d, 0, .5), 1 + dice_below(d, 2));
            hole.hole_clock = toward(d);
            return hole;
        }
        case 3: {
            rbow_detail ring = detail_of(RBOW_DETAIL_RING_WELD, at);
            ring.throat = dice_between(d, .02, .06);
            return ring;
        }
        case 4: return sleeve_at(at, 1.125, .058, dice_below(d, 2));
        default: return socket_at(at, 1.125, .065);
    }
}

/* The largest utilisation; INFINITY without an equilibrium. */
static double highest_use(const rbow_detail *d, const rbow_member *m, double factor)
{
    rbow_section_forces f;
    double use[RBOW_DETAIL_MODES], most = 0;
    if (rbow_member_forces(m, &steel, factor, d->at, &f) != RBOW_OK) return INFINITY;
    ck_assert_int_eq(rbow_detail_use(d, m, &steel, &f, use), RBOW_OK);
    for (int i = 0; i < RBOW_DETAIL_MODES; i++) most = fmax(most, use[i]);
    return most;
}

/* Of a concrete member without a forced fit one scenario is left: its factor is never above the first crossing of a dense scan,
 * and there the detail is at its limit. */
START_TEST(against_a_dense_scan)
{
    dice d = {2024};
    int crossings = 0;
    for (int i = 0; i < 150; i++) {
        rbow_member m = some_member(&d);
        m.miss_a = m.miss_b = m.gap = 0;
        const rbow_detail detail = some_detail(&d, &m);
        rbow_detail_result r;
        ck_assert_int_eq(rbow_detail_check(&detail, &m, &steel, &r), RBOW_OK);
        const double end = isfinite(r.factor) ? 1.5 * r.factor : 50;
        for (int k = 0; k <= 200; k++) {
            const double factor = end * k / 200;
            const double use = highest_use(&detail, &m, factor);
            if (factor < r.factor * (1 - 1e-7)) ck_assert_msg(use < 1 + 1e-6, "member %d: %.9g at %.9g, factor %.9g", i, use, factor, r.factor);
        }
        if (!isfinite(r.factor) || r.factor <= 0) continue;
        const bool buckles = fmin(r.yield_factor, r.weld_factor) >= r.factor && r.mode == RBOW_DETAIL_BY_BUCKLING;
        if (buckles) ck_assert(isinf(highest_use(&detail, &m, r.factor * (1 + 1e-9))));
        else near_within(highest_use(&detail, &m, r.factor), 1, 0, 1e-5);
        crossings += !buckles;
    }
    ck_assert_int_gt(crossings, 100);
}
END_TEST

/* No concrete member is worse than what the check takes, and one is as bad. */
START_TEST(over_the_unknowns)
{
    dice d = {77};
    for (int i = 0; i < 12; i++) {
        rbow_member m = some_member(&d);
        m.end_a = RBOW_WELDED;
        m.end_b = i % 2 ? RBOW_WELDED : RBOW_PINNED;
        m.bow = .05;
        m.miss_a = i % 3 ? .1 : 0;
        m.miss_b = 0;
        m.bow_clock = RBOW_ANY_CLOCK;
        if (i % 4 == 0) m.miss_a_clock = RBOW_ANY_CLOCK;
        const rbow_detail detail = some_detail(&d, &m);
        rbow_detail_result r, one;
        ck_assert_int_eq(rbow_detail_check(&detail, &m, &steel, &r), RBOW_OK);
        double lowest = INFINITY;
        for (int k = 0; k < 150; k++) {
            rbow_member c = m;
            c.end_a = k % 2 ? RBOW_SOFT_WELD : RBOW_STIFF_WELD;
            if (i % 2) c.end_b = k / 2 % 2 ? RBOW_SOFT_WELD : RBOW_STIFF_WELD;
            if (k / 4 % 2) c.miss_a = 0;
            if (k / 8 % 2) c.gap = 0;
            c.bow_clock = toward(&d);
            if (i % 4 == 0) c.miss_a_clock = toward(&d);
            ck_assert_int_eq(rbow_detail_check(&detail, &c, &steel, &one), RBOW_OK);
            lowest = fmin(lowest, one.margin);
        }
        ck_assert_msg(r.margin <= lowest + 1e-6, "member %d: %.9g above %.9g", i, r.margin, lowest);
        if (isinf(r.margin)) continue;
        rbow_member taken = m;
        const int j = r.joints_taken;
        taken.end_a = j == RBOW_JOINTS_STIFF || j == RBOW_JOINTS_STIFF_SOFT ? RBOW_STIFF_WELD : RBOW_SOFT_WELD;
        if (i % 2) taken.end_b = j == RBOW_JOINTS_STIFF || j == RBOW_JOINTS_SOFT_STIFF ? RBOW_STIFF_WELD : RBOW_SOFT_WELD;
        taken.bow_clock = r.bow_clock_taken;
        if (!isnan(r.miss_a_clock_taken)) taken.miss_a_clock = r.miss_a_clock_taken;
        else taken.miss_a = 0;
        ck_assert_int_eq(rbow_detail_check(&detail, &taken, &steel, &one), RBOW_OK);
        ck_assert_msg(one.margin <= r.margin + 1e-6, "member %d: %.9g, taken %.9g", i, r.margin, one.margin);
    }
}
END_TEST

/* A place where the tube reaches its yield is the tube; no place reaches it earlier. */
START_TEST(a_place_is_the_tube)
{
    dice d = {5};
    for (int i = 0; i < 40; i++) {
        rbow_member m = some_member(&d);
        m.miss_a = m.miss_b = m.gap = 0;
        rbow_limit limit;
        rbow_detail_result r;
        ck_assert_int_eq(rbow_member_limit(&m, &steel, RBOW_BY_YIELD, &limit), RBOW_OK);
        if (!isfinite(limit.factor) || isnan(limit.at) || limit.factor <= 0 || limit.level < 1 - 1e-7) continue;
        rbow_detail place = detail_of(RBOW_DETAIL_PLACE, limit.at);
        ck_assert_int_eq(rbow_detail_check(&place, &m, &steel, &r), RBOW_OK);
        near_within(r.factor, limit.factor, 2e-7, 0);
        place.at = dice_between(&d, 0, m.length);
        ck_assert_int_eq(rbow_detail_check(&place, &m, &steel, &r), RBOW_OK);
        ck_assert(r.factor >= limit.factor * (1 - 2e-7));
    }
}
END_TEST

/* A weld far stronger than the tube, and a hole of no size, leave the margin of the tube as it is. */
START_TEST(strong_welds_change_nothing)
{
    dice d = {9};
    for (int i = 0; i < 40; i++) {
        const rbow_member m = some_member(&d);
        rbow_result tube;
        rbow_detail_result r, place;
        ck_assert_int_eq(rbow_member_check(&m, &steel, &tube), RBOW_OK);
        rbow_detail strong = detail_of(RBOW_DETAIL_RING_WELD, dice_between(&d, 0, m.length));
        strong.weld_strength = 200e3; /* 0.6 F_EXX is above the yield with the shear that the tube's check leaves out */
        ck_assert_int_eq(rbow_detail_check(&strong, &m, &steel, &r), RBOW_OK);
        ck_assert(r.margin >= tube.margin - 1e-6);
        const rbow_detail none = hole_at(strong.at, 0, 1), there = detail_of(RBOW_DETAIL_PLACE, strong.at);
        ck_assert_int_eq(rbow_detail_check(&none, &m, &steel, &r), RBOW_OK);
        ck_assert_int_eq(rbow_detail_check(&there, &m, &steel, &place), RBOW_OK);
        if (isfinite(place.margin)) near_within(r.margin, place.margin, 1e-6, 1e-6);
        ck_assert(place.margin >= tube.margin - 1e-6);
    }
}
END_TEST

/* A simply supported tube with a point load in the middle: M = W x/2, V = W/2 before it, -W/2 beyond it; and under any loads the
 * shear is the slope of the moment. */
START_TEST(forces_along_a_tube)
{
    rbow_member m = tube_of(1.25, .058, 40);
    rbow_section_forces f, before, behind;
    m.point_load = 100;
    m.torque = 70;
    ck_assert_int_eq(rbow_member_forces(&m, &steel, 2, 10, &f), RBOW_OK);
    near_within(fabs(f.moment_up), 2 * 100 / 2 * 10, 1e-12, 0);
    near_within(fabs(f.shear_up), 2 * 100 / 2, 1e-12, 0);
    near_within(f.torque, 140, 1e-15, 0);
    ck_assert_int_eq(rbow_member_forces(&m, &steel, 2, 30, &behind), RBOW_OK);
    near_within(behind.shear_up, -f.shear_up, 1e-12, 0);
    dice d = {31};
    for (int i = 0; i < 100; i++) {
        m = some_member(&d);
        const double at = dice_between(&d, .01, .99) * m.length, step = 1e-4, factor = dice_between(&d, -.5, 1);
        if (fabs(at - m.point_at) < .01 || fabs(at - m.length / 2) < .01) continue;
        if (rbow_member_forces(&m, &steel, factor, at, &f) != RBOW_OK) continue;
        ck_assert_int_eq(rbow_member_forces(&m, &steel, factor, at - step, &before), RBOW_OK);
        ck_assert_int_eq(rbow_member_forces(&m, &steel, factor, at + step, &behind), RBOW_OK);
        near_within(f.shear_up, (behind.moment_up - before.moment_up) / (2 * step), 1e-5, 1e-4);
        near_within(f.shear_right, (behind.moment_right - before.moment_right) / (2 * step), 1e-5, 1e-4);
    }
}
END_TEST

/* Both corners of a hole of known clock are as near to the worst direction of a bow or miss: it lies beside the hole's axis or across
 * from it, on either side. No typed direction is worse than the worst. */
START_TEST(worst_direction_beside_a_hole)
{
    dice d = {61};
    for (int i = 0; i < 24; i++) {
        rbow_member m = tube_of(1.5, i % 2 ? .095 : .058, i % 2 ? 12 : 48);
        rbow_detail hole = hole_at(m.length / 4, .1875, 1 + i / 2 % 2);
        rbow_detail_result worst, one;
        hole.hole_clock = i % 3 ? 0 : pi / 2;
        m.end_a = m.end_b = RBOW_FIXED;
        m.weld_zone = 0;
        m.compression = dice_between(&d, 2000, 9000);
        m.point_load = dice_between(&d, -100, 100);
        m.miss_a = m.length / 100;
        m.miss_a_clock = RBOW_ANY_CLOCK;
        ck_assert_int_eq(rbow_detail_check(&hole, &m, &steel, &worst), RBOW_OK);
        for (int k = 0; k < 720; k++) {
            m.miss_a_clock = k * pi / 360;
            ck_assert_int_eq(rbow_detail_check(&hole, &m, &steel, &one), RBOW_OK);
            ck_assert_msg(worst.margin <= one.margin + 1e-6, "%d: %.9g, at %d half degrees %.9g", i, worst.margin, k, one.margin);
        }
    }
}
END_TEST

/* At a point load the shear jumps; the side with more of it counts. A short tube with the load near one joint, and its mirror image:
 * M = W a b/L, V = W b/L on the side of the near joint, in a line weld of throat t. */
START_TEST(ring_weld_at_a_point_load)
{
    const double a = 1, b = 7, length = 8, load = 1500, od = 1.25, throat = .03;
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        rbow_member m = tube_of(od, .058, length);
        rbow_detail_result r;
        rbow_detail d = detail_of(RBOW_DETAIL_RING_WELD, mirrored ? b : a);
        d.throat = throat;
        m.point_load = load;
        m.point_at = d.at;
        const double direct = load * a * b / length / (pi * od * od / 4), shear = 2 * load * b / length / (pi * od);
        ck_assert_int_eq(rbow_detail_check(&d, &m, &steel, &r), RBOW_OK);
        near_within(r.factor, .6 * 70e3 * throat / hypot(direct, shear), 1e-7, 0);
        near_within(r.shear, load * b / length, 1e-9, 0);
    }
}
END_TEST

START_TEST(numbers_of_a_result)
{
    rbow_member m = tube_of(1.25, .058, 40);
    m.spread_load = 5;
    m.compression = 1500;
    rbow_detail d = socket_at(0, 1.41, .075);
    d.overlap = 1.5;
    rbow_detail_result r;
    ck_assert_int_eq(rbow_detail_check(&d, &m, &steel, &r), RBOW_OK);
    near_within(r.clearance, .01, 1e-9, 0);
    near_within(r.play, .01 / 1.5 * 40, 1e-9, 0);
    near_within(r.prying, 0, 0, 1e-9);
    ck_assert_uint_eq(r.remarks & ~(unsigned)RBOW_DETAIL_UNDER_TWO, RBOW_DETAIL_THROAT_TAKEN | RBOW_DETAIL_PLAYS | RBOW_DETAIL_SHORT_OVERLAP);
    m.compression = 0;
    ck_assert_int_eq(rbow_detail_check(&d, &m, &steel, &r), RBOW_OK);
    near_within(r.shear, 100, 1e-12, 0);
    rbow_detail middle = d;
    middle.at = 20;
    ck_assert_int_eq(rbow_detail_check(&middle, &m, &steel, &r), RBOW_OK);
    near_within(r.prying, 5.0 * 40 * 40 / 8 / (2.0 / 3 * 1.5), 1e-12, 0);
    m.compression = 1e6;
    ck_assert_int_eq(rbow_detail_check(&d, &m, &steel, &r), RBOW_OK);
    ck_assert_uint_ne(r.remarks & RBOW_DETAIL_UNSTABLE, 0);
    ck_assert(isnan(r.moment) && r.margin < 0 && r.verdict == RBOW_SHORT);
}
END_TEST

/* A straight tube between pins: Euler's load, whatever the detail; and a weld that it spares earns no remark. */
START_TEST(buckling_ends_the_search)
{
    rbow_member m = tube_of(1.25, .058, 80);
    rbow_section s;
    rbow_section_of(m.od, m.wall, &s);
    m.compression = pi * pi * 29e6 * s.inertia / (80 * 80) / 1.7;
    const rbow_detail all[] = {detail_of(RBOW_DETAIL_PLACE, 40), hole_at(40, .2, 2), detail_of(RBOW_DETAIL_RING_WELD, 40)};
    for (int i = 0; i < 3; i++) {
        rbow_detail_result r;
        ck_assert_int_eq(rbow_detail_check(&all[i], &m, &steel, &r), RBOW_OK);
        near_within(r.factor, 1.7, 1e-9, 0);
        near_within(r.margin, 1.7 / 1.5 - 1, 1e-9, 0);
        ck_assert_int_eq(r.mode, RBOW_DETAIL_BY_BUCKLING);
        ck_assert_uint_eq(r.remarks & RBOW_DETAIL_UNDER_TWO, 0);
    }
}
END_TEST

/* Utilisation that rises over 1 by little and falls again is found. */
START_TEST(humps)
{
    enum { STEPS = 300 };
    dice d = {404};
    int found = 0;
    for (int i = 0; i < 600; i++) {
        rbow_member m = tube_of(1.25, .058, dice_between(&d, 60, 100)); /* a large bow, and a couple against it that it outgrows */
        double use[STEPS + 1];
        m.compression = dice_between(&d, 500, 3000);
        m.bow = dice_between(&d, .4, 1.2);
        m.moment_clock = pi;
        m.moment_a = m.compression * m.bow * dice_between(&d, .2, 2);
        m.moment_b = m.compression * m.bow * dice_between(&d, -.5, .3);
        rbow_detail ring = detail_of(RBOW_DETAIL_RING_WELD, dice_between(&d, .03, .5) * m.length);
        ring.weld_strength = 1e9;
        rbow_detail_result end;
        ck_assert_int_eq(rbow_detail_check(&ring, &m, &steel, &end), RBOW_OK);
        for (int k = 0; k <= STEPS; k++) use[k] = highest_use(&ring, &m, .97 * end.factor * k / STEPS);
        int top = 1;
        while (top < STEPS && !(use[top] > use[top - 1] && use[top] > use[top + 1])) top++;
        if (top < STEPS && use[0] > .99 * use[top]) top = STEPS;
        double lowest = INFINITY;
        for (int k = top; k <= STEPS; k++) lowest = fmin(lowest, use[k]);
        if (top >= STEPS || lowest > .98 * use[top]) continue;
        const double above = dice_size(&d, 1e-5, 1e-3);
        ring.weld_strength *= use[top] / (1 + above);
        rbow_detail_result r;
        ck_assert_int_eq(rbow_detail_check(&ring, &m, &steel, &r), RBOW_OK);
        ck_assert_msg(r.factor <= .97 * end.factor * top / STEPS, "member %d: %.9g beyond the hump", i, r.factor);
        found++;
    }
    ck_assert_int_gt(found, 20);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, against_a_dense_scan);
    tcase_add_test(c, over_the_unknowns);
    tcase_add_test(c, a_place_is_the_tube);
    tcase_add_test(c, strong_welds_change_nothing);
    tcase_add_test(c, forces_along_a_tube);
    tcase_add_test(c, worst_direction_beside_a_hole);
    tcase_add_test(c, ring_weld_at_a_point_load);
    tcase_add_test(c, numbers_of_a_result);
    tcase_add_test(c, buckling_ends_the_search);
    tcase_add_test(c, humps);
}

int main(void)
{
    return run_tests("factors of details", fill);
}
