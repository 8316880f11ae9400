/* Members at the edge of what can be computed: loads a last bit from a joint, tubes so straight that the utilisation has a
 * knee at buckling, and symmetric ones with two maxima about mid-length. */
#include "inside.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>

/* A joint takes a load that stands nearer to it than rounding tells apart; at a free end B nothing takes it. */
START_TEST(a_load_within_rounding_of_a_joint)
{
    rbow_member m = tube_of(1.25, 0.049, 32);
    static const double taken[] = {0, DBL_EPSILON, 3 * DBL_EPSILON}, own[] = {1e-14, 1e-6, 0.5};
    for (int i = 0; i < 3; i++) {
        m.end_b = RBOW_PINNED;
        m.point_at = 32 * taken[i];
        ck_assert(rbow_member_point_is_idle(&m));
        m.point_at = 32 * (1 - taken[i]);
        ck_assert(rbow_member_point_is_idle(&m));
        m.end_b = RBOW_FREE;
        ck_assert(!rbow_member_point_is_idle(&m));
        m.end_b = RBOW_PINNED;
        m.point_at = 32 * own[i];
        ck_assert(!rbow_member_point_is_idle(&m));
        m.point_at = 32 * (1 - own[i]);
        ck_assert(!rbow_member_point_is_idle(&m));
    }
}
END_TEST

START_TEST(a_load_at_less_than_a_bit_is_at_the_joint)
{
    sample s = {tube_of(1.25, 0.049, 30), steel};
    s.member.point_load = 100;
    s.member.point_at = 5e-324;
    const rbow_result r = check_sample(&s);
    ck_assert(r.remarks & RBOW_REMARK_IDLE_POINT_LOAD);
    s.member.compression = 300;
    s.member.spread_load = 2;
    const rbow_result with = check_sample(&s);
    s.member.point_load = 0;
    const rbow_result without = check_sample(&s);
    sample_near(&s, "peak moment", with.peak_moment, without.peak_moment, 1e-12, 0);
}
END_TEST

/* What such a load bends is rounding: the answer may be anything that large, but is one, and comes at once. */
START_TEST(a_load_a_bit_from_a_joint_has_an_answer)
{
    static const double ends[] = {RBOW_PINNED, RBOW_SOFT_WELD, INFINITY};
    for (int i = 0; i < 9; i++) {
        for (int length = 1; length <= 180; length++) {
            sample s = {tube_of(1.25, 0.049, length), steel};
            s.member.end_a = ends[i / 3];
            s.member.end_b = ends[i % 3];
            s.member.point_load = 100;
            s.member.point_at = nextafter(length, 0);
            rbow_result r;
            const rbow_status status = rbow_member_check(&s.member, &s.material, &r);
            sample_holds(&s, "checked", status == RBOW_OK && r.margin > 1e6);
        }
    }
    sample s = {tube_of(1, 0.049, 107), steel};
    s.member.end_a = INFINITY;
    s.member.end_b = RBOW_FREE;
    s.member.column_curve = RBOW_CURVE_EULER;
    s.member.compression = 100;
    s.member.point_load = 1000;
    s.member.point_at = 1.1418928416479492e-10;
    const rbow_result r = check_sample(&s);
    /* next to buckling the rounding of the load's own shares counts: to what the contract promises of load factors */
    sample_near(&s, "interaction", r.interaction_factor, r.column_factor, 1e-7, 0);
}
END_TEST

/* Its level is a straight line almost to buckling, and then a wall. */
START_TEST(the_knee_of_a_straight_tube_is_met)
{
    for (int power = -18; power <= -3; power++) {
        for (int k = 1; k < 10; k++) {
            sample s = {tube_of(1, 0.049, 120), steel};
            prepared p;
            s.member.column_curve = RBOW_CURVE_EULER;
            s.member.compression = 300;
            s.member.eccentricity = k * pow(10, power);
            ck_assert(make_ready(&s, &p));
            const double factor = factors_of(&s, &p).limits[LIMIT_INTERACTION].factor;
            sample_holds(&s, "below before", level_at(&p, LIMIT_INTERACTION, factor * (1 - 1e-8)) < 1);
            sample_holds(&s, "beyond behind", level_at(&p, LIMIT_INTERACTION, factor * (1 + 1e-8)) >= 1);
        }
    }
}
END_TEST

START_TEST(both_maxima_of_a_symmetric_tube_are_found)
{
    enum { MEMBERS = 3000, STATIONS = 401 };
    dice d = {77};
    int bent = 0;
    for (int i = 0; i < MEMBERS; i++) {
        sample s = {tube_of(dice_between(&d, 0.75, 2), 0.058, dice_between(&d, 12, 60)), steel};
        rbow_member *m = &s.member;
        m->end_a = m->end_b = dice_chance(&d, 0.5) ? RBOW_PINNED : (double)INFINITY;
        m->weld_zone = dice_chance(&d, 0.5) ? m->length * dice_between(&d, 0, 0.2) : 0;
        m->compression = dice_between(&d, -300, 300);
        m->spread_load = -dice_between(&d, 1, 15);
        m->point_load = -m->spread_load * m->length * dice_between(&d, 0.55, 0.7);
        rbow_result r;
        if (rbow_member_check(m, &s.material, &r) != RBOW_OK || !(r.deflection > 0)) continue;
        rbow_profile at[STATIONS];
        for (int k = 0; k < STATIONS; k++) at[k].at = fmin(m->length * k / (STATIONS - 1), m->length);
        ck_assert_int_eq(rbow_member_profile(m, &s.material, 1, -r.fit_axial, at, STATIONS), RBOW_OK);
        for (int k = 0; k < STATIONS; k++) {
            sample_holds(&s, "no more movement", fabs(at[k].deflection_up) <= r.deflection * (1 + 1e-9) + 1e-13);
            sample_holds(&s, "no more moment", fabs(at[k].moment_up) <= r.peak_moment * (1 + 1e-9));
        }
        bent += r.peak_moment_at > 0.01 * m->length && r.peak_moment_at < 0.49 * m->length;
    }
    ck_assert_int_gt(bent, 100);
}
END_TEST

/* An end moment against the bow: the moment has a hump, where the welds may yield, though beyond it, at the load where the
 * other limit is asked with its own factor, they do not. Without misses as the member that has none. */
START_TEST(a_hump_in_line_counts_for_yield)
{
    int humps = 0;
    for (int k = 0; k < 200; k++) {
        sample s = {tube_of(1.25, 0.058, 63), steel};
        rbow_member *m = &s.member;
        rbow_margin alone;
        m->end_a = RBOW_SOFT_WELD;
        m->compression = 680;
        m->bow = 0.215;
        m->bow_shape = RBOW_BOW_ARC;
        m->bow_clock = M_PI;
        m->moment_a = 2330;
        m->weld_zone = 1;
        m->factor = 1.5;
        m->factor_yield = 3;
        s.material.weld_yield = 30e3 + 100 * k;
        s.material.yield = s.material.compression_yield = 140e3;
        ck_assert_int_eq(rbow_member_margin(m, &s.material, &alone), RBOW_OK);
        m->miss_a = 1e-12;
        const rbow_result r = check_sample(&s);
        sample_near(&s, "margin_unforced", r.margin_unforced, alone.margin, 1e-7, 1e-9);
        prepared p;
        ck_assert(make_ready(&s, &p));
        humps += alone.governs == RBOW_BY_YIELD && level_at(&p, LIMIT_YIELD, alone.interaction_factor / m->factor * m->factor_yield) < 1;
    }
    ck_assert_int_gt(humps, 5);
}
END_TEST

static double larger_level_at(const prepared *p, double factor)
{
    return fmax(level_at(p, LIMIT_YIELD, factor), level_at(p, LIMIT_INTERACTION, factor));
}

/* Yield and interaction reach their limits at the same load, one thirty times as fast as the other. */
START_TEST(the_knee_between_both_limits_is_met)
{
    for (int k = -100; k <= 100; k++) {
        sample s = {tube_of(1.4354440399865058, 0.71772201999325291, 100.45725070348313), steel};
        rbow_member *m = &s.member;
        prepared p;
        m->end_a = m->end_b = RBOW_SOFT_WELD;
        m->compression = 6442.3613551245271;
        m->moment_a = 1537.2292146285909;
        m->moment_b = 9587.1749739744573;
        m->spread_load = -3.5724117084840707;
        m->factor = 1.5786015398601911;
        m->column_curve = RBOW_CURVE_EN_D;
        s.material.elastic_modulus = 23557677.042785991;
        s.material.density = 0.21600707463836916;
        s.material.yield = 16442.740271186507 * (1 + k * 1e-8);
        s.material.compression_yield = 174968.93919051773;
        s.material.weld_yield = 133435.43118422182;
        ck_assert(make_ready(&s, &p));
        m->miss_a = 1e-300;
        const double factor = (1 + check_sample(&s).margin_unforced) * m->factor;
        sample_holds(&s, "below before", larger_level_at(&p, factor * (1 - 1e-7)) < 1);
        sample_holds(&s, "beyond behind", larger_level_at(&p, factor * (1 + 1e-7)) >= 1);
    }
}
END_TEST

/* The weld takes over from the tube where it yields. */
START_TEST(the_knee_between_tube_and_weld_is_met)
{
    for (int k = -100; k <= 100; k++) {
        sample s = {tube_of(0.53980042083645119, 0.07521371238072759, 24.132891945941157), steel};
        rbow_member *m = &s.member;
        prepared p;
        m->end_a = 20.083787887821252;
        m->end_b = RBOW_FREE;
        m->compression = -0.018375363255993739;
        m->eccentricity = 0.11217368998821518;
        m->spread_load = -0.066356776521989499;
        m->weld_zone = 1.2066445972970576;
        s.material.elastic_modulus = 21734318.122044809;
        s.material.density = 0.24060914656542837;
        s.material.yield = 48622.749055795211;
        s.material.compression_yield = 44268.052062910683;
        s.material.weld_yield = 58305.520286116691 * (1 + k * 1e-8);
        ck_assert(make_ready(&s, &p));
        const double factor = factors_of(&s, &p).limits[LIMIT_YIELD].factor;
        sample_holds(&s, "below before", larger_level_at(&p, factor * (1 - 1e-7)) < 1);
        sample_holds(&s, "beyond behind", larger_level_at(&p, factor * (1 + 1e-7)) >= 1);
    }
}
END_TEST

/* A place at a third of the length, or a weld zone of a ninth, cuts the tube into segments of which one has the cells of
 * another, but more of them. */
START_TEST(segments_with_the_same_cells_are_all_searched)
{
    enum { STATIONS = 901 };
    static const double ends[] = {RBOW_PINNED, RBOW_SOFT_WELD, INFINITY, 2e4}, parts[] = {3, 9, 4.5, 9.0 / 4, 2, 4, 6, 1.5};
    for (int i = 0; i < 4 * 4 * 8 * 8 * 2; i++) {
        sample s = {tube_of(1.25, 0.058, 36), steel};
        rbow_member *m = &s.member;
        rbow_profile at[STATIONS];
        m->end_a = ends[i % 4];
        m->end_b = ends[i / 4 % 4];
        m->compression = 2000;
        m->point_load = 50;
        m->point_at = m->bow_at = m->length / parts[i / 16 % 8];
        m->bow = 0.03;
        m->bow_shape = i / 1024 == 0 ? RBOW_BOW_SINE : RBOW_BOW_KINK;
        m->weld_zone = i / 128 % 8 < 6 ? m->length / (2 * parts[i / 128 % 8]) : 0;
        const rbow_result r = check_sample(&s);
        for (int k = 0; k < STATIONS; k++) at[k].at = m->length * k / (STATIONS - 1);
        at[STATIONS - 1].at = m->length;
        ck_assert_int_eq(rbow_member_profile(m, &s.material, 1, 0, at, STATIONS), RBOW_OK);
        double moment = 0, movement = 0;
        for (int k = 0; k < STATIONS; k++) {
            moment = fmax(moment, hypot(at[k].moment_up, at[k].moment_right));
            movement = fmax(movement, hypot(at[k].deflection_up, at[k].deflection_right));
        }
        sample_near(&s, "moment", r.peak_moment, moment, 1e-5, 0);
        sample_near(&s, "movement", r.deflection, movement, 1e-5, 0);
    }
}
END_TEST

/* However short a weld zone is, the joint belongs to it. */
START_TEST(a_weld_zone_of_less_than_a_bit_holds_the_joint)
{
    sample s = {tube_of(1.25, 0.049, 30), steel};
    rbow_member *m = &s.member;
    m->end_a = m->end_b = INFINITY;
    m->compression = 300;
    m->spread_load = 5;
    s.material.weld_yield = 30e3;
    m->weld_zone = 1e-9;
    const rbow_result r = check_sample(&s);
    for (int power = -320; power < -9; power++) {
        m->weld_zone = pow(10, power);
        const rbow_result shorter = check_sample(&s);
        sample_near(&s, "stress_use", shorter.stress_use, r.stress_use, 1e-8, 0);
        sample_near(&s, "yield_factor", shorter.yield_factor, r.yield_factor, 1e-7, 0);
    }
}
END_TEST

/* Then the range of load factors is 1e60 times as wide as the first crossing, or more: the right answer, or none. */
START_TEST(a_push_of_next_to_nothing_hides_no_crossing)
{
    dice d = {99};
    int tested = 0;
    for (int i = 0; i < 4000; i++) {
        sample s = random_sample(&d);
        rbow_margin without, with;
        s.member.gap = s.member.compression = s.member.miss_a = s.member.miss_b = 0;
        if (rbow_member_margin(&s.member, &s.material, &without) != RBOW_OK || !(without.yield_factor < 1e6)) continue;
        s.member.compression = (dice_chance(&d, 0.5) ? 1 : -1) * dice_size(&d, 1e-300, 1e-20);
        if (rbow_member_margin(&s.member, &s.material, &with) != RBOW_OK) continue;
        sample_near(&s, "yield_factor", with.yield_factor, without.yield_factor, 1e-7, 0);
        tested++;
    }
    ck_assert_int_gt(tested, 400);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_load_within_rounding_of_a_joint);
    tcase_add_test(cases, a_load_at_less_than_a_bit_is_at_the_joint);
    tcase_add_test(cases, a_load_a_bit_from_a_joint_has_an_answer);
    tcase_add_test(cases, the_knee_of_a_straight_tube_is_met);
    tcase_add_test(cases, both_maxima_of_a_symmetric_tube_are_found);
    tcase_add_test(cases, a_hump_in_line_counts_for_yield);
    tcase_add_test(cases, the_knee_between_both_limits_is_met);
    tcase_add_test(cases, the_knee_between_tube_and_weld_is_met);
    tcase_add_test(cases, segments_with_the_same_cells_are_all_searched);
    tcase_add_test(cases, a_weld_zone_of_less_than_a_bit_holds_the_joint);
    tcase_add_test(cases, a_push_of_next_to_nothing_hides_no_crossing);
    tcase_set_timeout(cases, 60);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/edges", fill);
}
