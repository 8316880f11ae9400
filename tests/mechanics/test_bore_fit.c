/* An off-centre bore from wall readings, against bores that were put there. */
#include <railbow/readings.h>

#include "near.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

enum { MOST = 64 };

static double rad(double degrees)
{
    return degrees * M_PI / 180;
}

static size_t around(rbow_wall_reading *at, const double *clocks, size_t count, double mean, double offset, double thin)
{
    for (size_t i = 0; i < count; i++)
        at[i] = (rbow_wall_reading){rad(clocks[i]), mean - offset * cos(rad(clocks[i] - thin))};
    return count;
}

static size_t evenly(rbow_wall_reading *at, size_t count, double mean, double offset, double thin)
{
    double clocks[MOST];
    for (size_t i = 0; i < count; i++) clocks[i] = 360.0 * (double)i / (double)count;
    return around(at, clocks, count, mean, offset, thin);
}

static void finds(const rbow_wall_reading *at, size_t count, double mean, double offset, double thin)
{
    rbow_bore b;
    ck_assert_int_eq(rbow_bore_fit(at, count, &b), RBOW_OK);
    near_within(b.mean, mean, 1e-13, 0);
    near_within(b.offset, offset, 0, 1e-14);
    near_within(b.least, mean - offset, 1e-13, 0);
    near_within(remainder(b.thin_clock - rad(thin), 2 * M_PI), 0, 0, 1e-10);
    ck_assert(b.thin_clock >= 0 && b.thin_clock < 2 * M_PI);
}

START_TEST(a_known_bore_is_found)
{
    const double clocks[] = {0, 90, 180, 270}, three[] = {-30, 100, 215}, seven[] = {0, 10, 20, 120, 125, 300, 710};
    rbow_wall_reading at[MOST];
    for (double thin = 0; thin < 360; thin += 7.5) {
        finds(at, around(at, clocks, 4, 0.058, 0.004, thin), 0.058, 0.004, thin);
        finds(at, around(at, three, 3, 0.058, 0.004, thin), 0.058, 0.004, thin);
        finds(at, around(at, seven, 7, 0.12, 0.0007, thin), 0.12, 0.0007, thin);
        for (size_t n = 3; n <= 12; n++) finds(at, evenly(at, n, 0.049, 0.003, thin), 0.049, 0.003, thin);
    }
}
END_TEST

/* By hand: evenly spaced, so mean 1/3 of the sum and the parts 2/3 of the sums with cos and sin.
 * 0.060, 0.050, 0.052 at 0, 120, 240: mean 0.054; cos part 2/3 (0.060 - 0.051) = 0.006; sin part
 * 2/3 sin 60 (0.050 - 0.052) = -0.002/sqrt 3; thin opposite (0.006, -0.0011547): 180 - 10.893395 deg */
START_TEST(three_readings_by_hand)
{
    const rbow_wall_reading at[] = {{0, 0.060}, {rad(120), 0.050}, {rad(240), 0.052}};
    rbow_bore b;
    ck_assert_int_eq(rbow_bore_fit(at, 3, &b), RBOW_OK);
    near_within(b.mean, 0.054, 1e-13, 0);
    near_within(b.offset, sqrt(36 + 4.0 / 3) * 1e-3, 1e-12, 0);
    near_within(b.least, 0.054 - sqrt(36 + 4.0 / 3) * 1e-3, 1e-12, 0);
    near_within(b.thin_clock * 180 / M_PI, 169.10660535, 0, 1e-7);
}
END_TEST

/* Noise: the fit lands within its own standard error, and least squares means that no other bore is nearer. */
static double misfit(const rbow_wall_reading *at, size_t count, double mean, double p, double q)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += gsl_pow_2(at[i].wall - mean - p * cos(at[i].clock) - q * sin(at[i].clock));
    return sum;
}

START_TEST(noise_averages_out)
{
    gsl_rng *dice = gsl_rng_alloc(gsl_rng_mt19937);
    const double sigma = 0.0005;
    rbow_wall_reading at[MOST];
    double bias = 0, spread = 0;
    enum { TUBES = 2000, READS = 12 };
    for (int k = 0; k < TUBES; k++) {
        rbow_bore b;
        evenly(at, READS, 0.058, 0.004, 40);
        for (size_t i = 0; i < READS; i++) at[i].wall += gsl_ran_gaussian(dice, sigma);
        ck_assert_int_eq(rbow_bore_fit(at, READS, &b), RBOW_OK);
        bias += (b.mean - 0.058) / TUBES;
        spread += gsl_pow_2(b.mean - 0.058) / TUBES;
        const double p = -b.offset * cos(b.thin_clock), q = -b.offset * sin(b.thin_clock);
        const double best = misfit(at, READS, b.mean, p, q), step = 1e-5;
        ck_assert_double_gt(misfit(at, READS, b.mean + step, p, q), best);
        ck_assert_double_gt(misfit(at, READS, b.mean - step, p, q), best);
        ck_assert_double_gt(misfit(at, READS, b.mean, p + step, q), best);
        ck_assert_double_gt(misfit(at, READS, b.mean, p - step, q), best);
        ck_assert_double_gt(misfit(at, READS, b.mean, p, q + step), best);
        ck_assert_double_gt(misfit(at, READS, b.mean, p, q - step), best);
        near_within(b.least, 0.054, 0, 6 * sigma * sqrt(3.0 / READS));
    }
    gsl_rng_free(dice);
    near_within(bias, 0, 0, 5 * sigma / sqrt(READS) / sqrt(TUBES));
    near_within(sqrt(spread), sigma / sqrt(READS), 0.1, 0); /* the standard error of a mean */
}
END_TEST

/* Against the true tube: circles with centres an offset apart, whose wall along a ray is not quite a cosine. The
 * thinnest wall is exactly R - r - e; the fit is short of it by no more than e^2/r. */
START_TEST(an_eccentric_tube)
{
    const double outer = 0.625, inner = 0.567, e = 0.004;
    rbow_wall_reading at[MOST];
    rbow_bore b;
    for (size_t i = 0; i < 8; i++) {
        const double c = 2 * M_PI * (double)i / 8, s = e * sin(c - rad(100));
        at[i] = (rbow_wall_reading){c, outer - (e * cos(c - rad(100)) + sqrt(inner * inner - s * s))};
    }
    ck_assert_int_eq(rbow_bore_fit(at, 8, &b), RBOW_OK);
    near_within(b.least, outer - inner - e, 0, e * e / inner);
    near_within(b.thin_clock, rad(100), 0, 1e-9);
}
END_TEST

START_TEST(turning_all_clocks_changes_nothing)
{
    const double clocks[] = {5, 40, 80};
    rbow_wall_reading at[MOST];
    for (double turn = 0; turn < 360; turn += 5) {
        double turned[3];
        for (int i = 0; i < 3; i++) turned[i] = clocks[i] + turn;
        finds(at, around(at, turned, 3, 0.058, 0.003, 200 + turn), 0.058, 0.003, 200 + turn);
    }
}
END_TEST

static void refused(const double *clocks, size_t count)
{
    rbow_wall_reading at[MOST];
    rbow_bore b = {0, 0, 0, 0};
    for (double turn = 0; turn < 360; turn += 15) {
        double turned[MOST];
        for (size_t i = 0; i < count; i++) turned[i] = clocks[i] + turn;
        around(at, turned, count, 0.058, 0.003, 10);
        ck_assert_int_eq(rbow_bore_fit(at, count, &b), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(b.mean) && isnan(b.offset) && isnan(b.thin_clock) && isnan(b.least));
    }
}

START_TEST(too_little_is_refused)
{
    const double one[] = {0}, two[] = {0, 120}, twice[] = {0, 120, 120, 0}, opposite[] = {0, 180, 0, 180};
    const double full[] = {0, 360, 720}, near[] = {0, 10, 20}, narrow[] = {0, 25, 45, 10};
    refused(one, 0);
    refused(one, 1);
    refused(two, 2);
    refused(twice, 4);
    refused(opposite, 4);
    refused(full, 3);
    refused(near, 3);
    refused(narrow, 4);
}
END_TEST

/* GSL's own handler ends the program: none of these may reach it. */
START_TEST(too_little_is_refused_under_any_handler)
{
    const double same[] = {30, 30, 30, 30}, turns[] = {0, 360, 720}, opposite[] = {10, 190, 10, 190, 190};
    gsl_set_error_handler(NULL);
    refused(same, 3);
    refused(same, 4);
    refused(turns, 3);
    refused(opposite, 5);
    gsl_set_error_handler_off();
}
END_TEST

START_TEST(what_is_not_a_number_is_refused)
{
    rbow_bore b;
    rbow_wall_reading at[3];
    const double bad[] = {NAN, INFINITY};
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 2; k++) {
            evenly(at, 3, 0.058, 0.001, 0);
            at[i].wall = bad[k];
            ck_assert_int_eq(rbow_bore_fit(at, 3, &b), RBOW_OUT_OF_RANGE);
            evenly(at, 3, 0.058, 0.001, 0);
            at[i].clock = bad[k];
            ck_assert_int_eq(rbow_bore_fit(at, 3, &b), RBOW_OUT_OF_RANGE);
        }
}
END_TEST

START_TEST(an_even_wall_is_thin_nowhere)
{
    rbow_wall_reading at[MOST];
    rbow_bore b;
    ck_assert_int_eq(rbow_bore_fit(at, evenly(at, 4, 0.058, 0, 0), &b), RBOW_OK);
    ck_assert(isnan(b.thin_clock));
    near_within(b.least, 0.058, 1e-13, 0);
}
END_TEST

static void fill(TCase *t)
{
    tcase_add_test(t, a_known_bore_is_found);
    tcase_add_test(t, three_readings_by_hand);
    tcase_add_test(t, noise_averages_out);
    tcase_add_test(t, an_eccentric_tube);
    tcase_add_test(t, turning_all_clocks_changes_nothing);
    tcase_add_test(t, too_little_is_refused);
    tcase_add_test(t, too_little_is_refused_under_any_handler);
    tcase_add_test(t, what_is_not_a_number_is_refused);
    tcase_add_test(t, an_even_wall_is_thin_nowhere);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("readings", fill);
}
