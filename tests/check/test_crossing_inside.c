/* Inside the search over the load factor: how high utilisation can be between two samples, and when curves from both sides have met
 * the limit. */
#include "check/first_crossing.c" /* tested from inside */

#include "near.h"

/* The top of a (1 - s) + b s + 4 s (1 - s) D over s from 0 to 1, point by point. */
static double top_of(double a, double b, double deviation)
{
    enum { STEPS = 20000 };
    double top = -INFINITY;
    for (int i = 0; i <= STEPS; i++) {
        const double s = (double)i / STEPS;
        top = fmax(top, a * (1 - s) + b * s + 4 * s * (1 - s) * deviation);
    }
    return top;
}

START_TEST(the_bound_is_the_top_of_a_parabola)
{
    static const double levels[] = {0, 0.2, 0.55, 0.9, 0.999}, deviations[] = {0, 1e-6, 0.01, 0.1, 0.3, 2};
    for (int a = 0; a < 5; a++)
        for (int b = 0; b < 5; b++)
            for (int d = 0; d < 6; d++)
                near_within(highest_between(levels[a], levels[b], deviations[d]), top_of(levels[a], levels[b], deviations[d]), 1e-8, 1e-8);
    ck_assert(isinf(highest_between(0.5, 0.5, INFINITY)));
}
END_TEST

/* Load factors as functions of the height; the limit is at height 0, where all but one are 2. */
static double smooth(double h) { return 2 + 0.3 * h + 0.1 * h * h; }
static double kinked(double h) { return h < 0 ? 2 + 0.5 * h : 2 + 0.3 * h; }
static double bent_below(double h) { return h < -0.2 ? smooth(h) - 0.01 : smooth(h); } /* the third sample below */
static double parted(double h) { return h < 0 ? smooth(h) : smooth(h) + 0.001; }

static void points_of(double (*factor_at)(double), double shift, point at[BATCH])
{
    for (int i = 0; i < BATCH; i++) {
        const double h = 0.1 * (i - (BATCH - 1) / 2.0) + shift;
        at[i] = (point){factor_at(h), (1 + h) / (1 - h)};
        near_within(height_of(at[i].level), h, 0, 1e-14);
    }
}

START_TEST(where_both_sides_meet_the_limit)
{
    static double (*const apart[])(double) = {kinked, bent_below, parted};
    point at[BATCH];
    double factor;
    points_of(smooth, 0, at);
    ck_assert(is_met(at, BATCH / 2, &factor));
    near_within(factor, 2, 1e-12, 0);
    for (int i = 0; i < 3; i++) {
        points_of(apart[i], 0, at);
        ck_assert(!is_met(at, BATCH / 2, &factor));
    }
    for (int beyond = 0; beyond <= BATCH; beyond++) { /* three samples on either side are needed */
        points_of(smooth, 0.1 * (BATCH / 2 - beyond), at);
        ck_assert_int_eq(is_met(at, beyond, &factor), beyond >= 3 && beyond <= BATCH - 3);
    }
}
END_TEST

/* An unstable state is at height 1. */
START_TEST(heights)
{
    near_within(height_of(0), -1, 0, 0);
    near_within(height_of(1), 0, 0, 0);
    near_within(height_of(3), 0.5, 0, 0);
    near_within(height_of(INFINITY), 1, 0, 0);
}
END_TEST

/* A polynomial of the third degree through four points is that polynomial. */
START_TEST(interpolation_is_exact)
{
    point at[4];
    for (int i = 0; i < 4; i++) {
        const double h = -0.35 + 0.2 * i;
        at[i] = (point){1.5 + h - 2 * h * h + 3 * h * h * h, (1 + h) / (1 - h)};
    }
    near_within(interpolate(at, 4), 1.5, 1e-13, 0);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, the_bound_is_the_top_of_a_parabola);
    tcase_add_test(c, where_both_sides_meet_the_limit);
    tcase_add_test(c, heights);
    tcase_add_test(c, interpolation_is_exact);
}

int main(void)
{
    return run_tests("crossing_inside", fill);
}
