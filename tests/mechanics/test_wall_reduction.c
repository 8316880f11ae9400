/* The local-wall rule: published values, limits from both sides. */
#include "near.h"

#include <railbow/tube.h>

static double reduction_of(double diameter_to_wall, double modulus, double yield)
{
    double q;
    ck_assert_int_eq(rbow_wall_reduction(diameter_to_wall, modulus, yield, &q), RBOW_OK);
    return q;
}

static void no_reduction(double diameter_to_wall, double modulus, double yield, rbow_status want)
{
    double q = 0;
    ck_assert_msg(rbow_wall_reduction(diameter_to_wall, modulus, yield, &q) == want, "%g %g %g", diameter_to_wall,
                  modulus, yield);
    ck_assert(isnan(q));
}

/* AISC 360, table B4.1a and section E7 (from memory). With E = 100 and Fy = 1 the borders are whole numbers,
 * D/t = 11 and 45. The rule's own curve leaves 1 a little later, where 0.038/x = 1/3: D/t = 11.4. */
START_TEST(wall_reduction_borders)
{
    static const double one[] = {2, 5, 10.999, 11, 11.001, 11.2, 11.39999};
    for (size_t i = 0; i < sizeof one / sizeof *one; i++) near_within(reduction_of(one[i], 100, 1), 1, 0, 0);
    near_within(reduction_of(nextafter(11, 0), 100, 1), 1, 0, 0);
    near_within(reduction_of(nextafter(11, 99), 100, 1), 1, 0, 0);
    near_within(reduction_of(11.4, 100, 1), 1, 1e-15, 0);
    ck_assert_double_lt(reduction_of(11.4001, 100, 1), 1);
    near_within(reduction_of(45, 100, 1), 0.75111111111111111, 1e-15, 0); /* 0.038/0.45 + 2/3 by hand: 0.338/0.45 */
    near_within(reduction_of(nextafter(45, 0), 100, 1), 0.75111111111111111, 1e-14, 0);
    no_reduction(nextafter(45, 99), 100, 1, RBOW_WALL_RULE);
    no_reduction(46, 100, 1, RBOW_WALL_RULE);
    no_reduction(INFINITY, 100, 1, RBOW_WALL_RULE);
}
END_TEST

/* 4130 normalized: E/Fy = 29 000/75; borders by hand D/t = 42.53 (rule), 44.08 (first below 1), 174.0. */
START_TEST(wall_reduction_of_normalized_tube)
{
    near_within(reduction_of(44.07, 29e6, 75e3), 1, 0, 0);
    ck_assert_double_lt(reduction_of(44.09, 29e6, 75e3), 1);
    near_within(reduction_of(100, 29e6, 75e3), 0.8136, 1e-12, 0);  /* 0.038/0.258620.. + 2/3: 0.146933.. + 0.666666.. */
    near_within(reduction_of(174, 29e6, 75e3), 0.75111111111111111, 1e-14, 0);
    no_reduction(174.001, 29e6, 75e3, RBOW_WALL_RULE);
}
END_TEST

START_TEST(wall_reduction_falls_steadily)
{
    double before = 1;
    for (double relative = 0.02; relative < 0.45; relative += 1e-4) {
        const double q = reduction_of(50, 50 / relative, 1);
        ck_assert(q <= before && q > 0.75);
        ck_assert(fabs(q - before) < 1e-3); /* no step: the slope is at most 0.038/0.114^2 = 2.93 */
        before = q;
    }
}
END_TEST

START_TEST(refused_reductions)
{
    static const double bad[] = {0, -0.0, -1, NAN, -INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        no_reduction(bad[i], 29e6, 75e3, RBOW_OUT_OF_RANGE);
        no_reduction(20, bad[i], 75e3, RBOW_OUT_OF_RANGE);
        no_reduction(20, 29e6, bad[i], RBOW_OUT_OF_RANGE);
    }
    no_reduction(nextafter(2, 0), 29e6, 75e3, RBOW_OUT_OF_RANGE);
    no_reduction(20, 29e6, INFINITY, RBOW_WALL_RULE);
    near_within(reduction_of(2, 29e6, 75e3), 1, 0, 0);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, wall_reduction_borders);
    tcase_add_test(cases, wall_reduction_of_normalized_tube);
    tcase_add_test(cases, wall_reduction_falls_steadily);
    tcase_add_test(cases, refused_reductions);
}

int main(void)
{
    return run_tests("mechanics/wall_reduction", fill);
}
