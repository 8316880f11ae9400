/* Moments and tension of a forced fit against the slope-deflection equations and against the beam-column without a load. */
#include "near.h"

#include <railbow/beamcolumn.h>
#include <railbow/forced_fit.h>

static const double stiffness = 2.5e6, length = 36, miss = 0.4;

static rbow_forced_fit fit_of(double a, double b)
{
    return (rbow_forced_fit){.bending_stiffness = stiffness, .length = length, .stiffness_a = a, .stiffness_b = b};
}

static rbow_forced_ends moments_of(rbow_forced_fit fit, double slope_a, double slope_b)
{
    const rbow_forced_ends slopes = {slope_a, slope_b};
    rbow_forced_ends moments;
    ck_assert_int_eq(rbow_fit_moments(&fit, &slopes, &moments), RBOW_OK);
    return moments;
}

/* Fixed-end moments of a settlement and of a rotation: Hibbeler, Structural Analysis, 8th ed. 2012, ch. 11 and inside back
 * cover (from memory). */
START_TEST(special_cases)
{
    const double slope = rbow_fit_slope(miss, length), unit = stiffness * miss / (length * length);
    rbow_forced_ends m = moments_of(fit_of(RBOW_FIXED, RBOW_PINNED), slope, 0);
    near_within(m.a, 3 * unit, 1e-14, 0);
    near_within(m.b, 0, 0, 0);
    m = moments_of(fit_of(RBOW_PINNED, RBOW_FIXED), 0, slope);
    near_within(m.b, 3 * unit, 1e-14, 0);
    m = moments_of(fit_of(RBOW_FIXED, RBOW_FIXED), slope, 0);
    near_within(m.a, 4 * unit, 1e-14, 0);
    near_within(m.b, -2 * unit, 1e-14, 0);
    m = moments_of(fit_of(RBOW_FIXED, RBOW_FIXED), slope, -slope); /* a side step */
    near_within(m.a, 6 * unit, 1e-14, 0);
    near_within(m.b, -6 * unit, 1e-14, 0);
    m = moments_of(fit_of(RBOW_PINNED, RBOW_PINNED), slope, slope);
    near_within(m.a, 0, 0, 0);
    near_within(m.b, 0, 0, 0);
}
END_TEST

/* Any two springs: the ends of the beam-column at no axial load, which knows nothing of this formula. */
START_TEST(any_springs_against_the_beam_column)
{
    static const double springs[] = {0, 1e2, 3e4, 2.5e5, 1e8, INFINITY};
    enum { COUNT = sizeof springs / sizeof *springs };
    for (int i = 0; i < COUNT; i++) {
        for (int k = 0; k < COUNT; k++) {
            const rbow_loading load = {.slope_a = 0.011, .slope_b = -0.004};
            rbow_beam beam = {.bending_stiffness = stiffness, .length = length, .stiffness_a = springs[i],
                              .stiffness_b = springs[k], .point_at = 0, .bow_at = 1};
            rbow_prepared prepared;
            rbow_solution solution;
            rbow_station a, b;
            ck_assert_int_eq(rbow_critical_load(stiffness, length, springs[i], springs[k], &beam.critical_load), RBOW_OK);
            ck_assert_int_eq(rbow_beam_prepare(&beam, &prepared), RBOW_OK);
            rbow_beam_solve(&prepared, &load, &solution);
            rbow_beam_at(&prepared, &solution, 0, &a);
            rbow_beam_at(&prepared, &solution, length, &b);
            const rbow_forced_ends m = moments_of(fit_of(springs[i], springs[k]), load.slope_a, load.slope_b);
            near_within(m.a, a.moment, 1e-10, 1e-8);
            near_within(m.b, b.moment, 1e-10, 1e-8);
        }
    }
}
END_TEST

START_TEST(slopes_are_the_inverse)
{
    const rbow_forced_fit fit = fit_of(3e4, RBOW_FIXED);
    const rbow_forced_ends m = moments_of(fit, 0.02, -0.005);
    rbow_forced_ends slopes;
    ck_assert_int_eq(rbow_fit_slopes(&fit, &m, &slopes), RBOW_OK);
    near_within(slopes.a, 0.02, 1e-12, 0);
    near_within(slopes.b, -0.005, 1e-12, 0);
}
END_TEST

/* Two springs in series. */
START_TEST(tension_of_a_gap)
{
    double tension;
    ck_assert_int_eq(rbow_fit_tension(0.01, 40, 8e6, INFINITY, &tension), RBOW_OK);
    near_within(tension, 2000, 1e-14, 0);
    ck_assert_int_eq(rbow_fit_tension(-0.01, 40, 8e6, 2e5, &tension), RBOW_OK); /* as stiff as the tube */
    near_within(tension, -1000, 1e-14, 0);
}
END_TEST

START_TEST(refused)
{
    const rbow_forced_ends slopes = {0.01, 0}, nan = {NAN, 0};
    const rbow_forced_fit sound = fit_of(0, 0), bad[] = {{0, 1, 0, 0}, {1, 0, 0, 0}, {1, 1, -1, 0}, {1, 1, 0, RBOW_FREE}, {1, 1, NAN, 0}};
    rbow_forced_ends out;
    double tension;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_int_eq(rbow_fit_moments(&bad[i], &slopes, &out), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(out.a) && isnan(out.b));
        ck_assert_int_eq(rbow_fit_slopes(&bad[i], &slopes, &out), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(out.a) && isnan(out.b));
    }
    ck_assert_int_eq(rbow_fit_moments(&sound, &nan, &out), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_fit_slopes(&sound, &slopes, &out), RBOW_OUT_OF_RANGE); /* a pin explains no moment */
    ck_assert_int_eq(rbow_fit_tension(NAN, 1, 1, 1, &tension), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(tension));
    ck_assert_int_eq(rbow_fit_tension(1, 1, 1, 0, &tension), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_fit_tension(1, 1, 0, 1, &tension), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_fit_tension(1, 0, 1, 1, &tension), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(tension) && isnan(rbow_fit_slope(1, 0)) && isnan(rbow_fit_slope(1, NAN)));
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, special_cases);
    tcase_add_test(c, any_springs_against_the_beam_column);
    tcase_add_test(c, slopes_are_the_inverse);
    tcase_add_test(c, tension_of_a_gap);
    tcase_add_test(c, refused);
}

int main(void)
{
    return run_tests("forced_fit", fill);
}
