/* Sighting: the errors that it states, against many runs of noisy readings with a fixed seed. */
#include "near.h"

#include <railbow/clock.h>
#include <railbow/sight.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <stdbool.h>

enum { MOST = 64 };

static rbow_bow_place place_of(rbow_bow_shape shape, double size, double length, double at, double x)
{
    const rbow_bow bow = {shape, size, length, at};
    rbow_bow_place place;
    ck_assert_int_eq(rbow_bow_at(&bow, x, &place), RBOW_OK);
    return place;
}

typedef struct run { /* what lies in a run of noisy readings of one truth */
    double share;    /* of the misses whose ellipse contains the truth */
    double holds;    /* of the misfits below their limit */
    double shows;    /* of the sizes that are significant */
    double sd[2], want[2];
} run;

/* Noise of the stated error on a known truth: 95 % of the ellipses reach it, and 95 % of the misfits hold. */
static run many(rbow_bow_shape shape, double size, double corner, bool socket, int runs)
{
    gsl_rng *noise = gsl_rng_alloc(gsl_rng_mt19937);
    rbow_sight_reading at[MOST];
    const double truth[2] = {size * cos(0.7), size * sin(0.7)};
    double inside = 0, holds = 0, shows = 0, square[2] = {0, 0}, want[2] = {0, 0};
    enum { COUNT = 13 };
    for (int k = 0; k < runs; k++) {
        rbow_sight s;
        for (int i = 0; i < COUNT; i++) {
            const double x = 3.0 * i, y = socket ? x / 36 : place_of(shape, 1, 36, corner, x).offset;
            const double error = i % 2 == 0 ? 0.01 : 0.02;
            at[i] = (rbow_sight_reading){x, truth[0] * y + gsl_ran_gaussian(noise, error), truth[1] * y + gsl_ran_gaussian(noise, error), error};
            if (i % 3 == 1) at[i].right = NAN;
        }
        ck_assert_int_eq(socket ? rbow_sight_socket(at, COUNT, 36, &s) : rbow_sight_tube(at, COUNT, &s), RBOW_OK);
        double found[2];
        rbow_clock_components(s.size, s.clock, found);
        const double up = found[0] - truth[0], right = found[1] - truth[1];
        const double along = up * cos(s.major_clock) + right * sin(s.major_clock), across = up * sin(s.major_clock) - right * cos(s.major_clock);
        inside += gsl_pow_2(along / s.major) + gsl_pow_2(across / s.minor) <= 1;
        holds += s.holds;
        shows += s.significant;
        square[0] += up * up / runs;
        square[1] += right * right / runs;
        const double q = -2 * log(0.05), c = cos(s.major_clock), n = sin(s.major_clock);
        want[0] += (gsl_pow_2(s.major * c) + gsl_pow_2(s.minor * n)) / q / runs;
        want[1] += (gsl_pow_2(s.major * n) + gsl_pow_2(s.minor * c)) / q / runs;
    }
    gsl_rng_free(noise);
    return (run){inside / runs, holds / runs, shows / runs, {sqrt(square[0]), sqrt(square[1])}, {sqrt(want[0]), sqrt(want[1])}};
}

START_TEST(the_ellipse_holds_what_it_says)
{
    enum { RUNS = 4000 }; /* the share has a deviation of 0.0034, a standard deviation one of 1.1 % */
    const run bar = many(RBOW_BOW_SINE, 0.4, 18, true, RUNS), arc = many(RBOW_BOW_SINE, 0.4, 18, false, 400);
    near_within(bar.share, 0.95, 0, 0.014);
    near_within(bar.holds, 0.95, 0, 0.014);
    for (int i = 0; i < 2; i++) near_within(bar.sd[i], bar.want[i], 0.045, 0);
    near_within(arc.share, 0.95, 0, 0.04);
    for (int i = 0; i < 2; i++) near_within(arc.sd[i], arc.want[i], 0.14, 0);
    ck_assert(bar.want[1] > 1.1 * bar.want[0]); /* fewer readings to the right */
}
END_TEST

/* Of straight bars and tubes one in twenty seems bent. */
START_TEST(noise_is_not_significant)
{
    enum { BARS = 4000, TUBES = 800 }; /* deviations of 0.0034 and 0.008 */
    near_within(many(RBOW_BOW_SINE, 0, 18, true, BARS).shows, 0.05, 0, 0.014);
    near_within(many(RBOW_BOW_SINE, 0, 18, false, TUBES).shows, 0.055, 0, 0.025);
    ck_assert(many(RBOW_BOW_KINK, 0.1, 12, false, 100).shows > 0.99);
}
END_TEST

START_TEST(the_error_of_a_kink_contains_its_place)
{
    const run kink = many(RBOW_BOW_KINK, 0.5, 11, false, 400);
    near_within(kink.share, 0.95, 0, 0.045);
    for (int i = 0; i < 2; i++) near_within(kink.sd[i], kink.want[i], 0.16, 0);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, the_ellipse_holds_what_it_says);
    tcase_add_test(c, noise_is_not_significant);
    tcase_add_test(c, the_error_of_a_kink_contains_its_place);
}

int main(void)
{
    return run_tests("sight_errors", fill);
}
