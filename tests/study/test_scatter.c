/* Scatter: shapes and intervals against closed forms, samples against exact spreads and pseudo-random ones. */
#include "study/members.h"

#include "study/scatter.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <string.h>

static scatter_answer run(const problem *p, const tolerance *t, size_t count, size_t samples, unsigned long seed, int jobs)
{
    scatter_answer a;
    const scatter_question q = {t, count, samples, seed, jobs, NULL, NULL};
    ck_assert_int_eq(scatter_run(p, &q, &a), SCATTER_OK);
    ck_assert_uint_eq((size_t)a.statistics.samples, samples);
    ck_assert_uint_eq((size_t)(a.statistics.refused + a.statistics.infinite) + a.finite, samples);
    return a;
}

/* ---- shapes ----------------------------------------------------------------------------------------- */

typedef struct moments {
    double mean, second, least, most;
} moments;

static moments moments_of(const tolerance *t)
{
    enum { COUNT = 200000 };
    moments m = {0, 0, INFINITY, -INFINITY};
    for (int i = 0; i < COUNT; i++) {
        const double d = tolerance_deviation(t, (i + 0.5) / COUNT);
        m.mean += d / COUNT;
        m.second += d * d / COUNT;
        m.least = fmin(m.least, d);
        m.most = fmax(m.most, d);
    }
    return m;
}

static void ck_moments(const tolerance *t, double mean, double second, double least, double most)
{
    const double size = t->minus + t->plus;
    const moments m = moments_of(t);
    near_within(m.mean, mean, 0, 2e-5 * size);
    near_within(m.second, second, 0, 2e-5 * size * size);
    near_within(m.least, least, 0, 4e-3 * size);
    near_within(m.most, most, 0, 4e-3 * size);
    ck_assert(m.least >= least - 1e-12 * size && m.most <= most + 1e-12 * size);
}

/* Moments of any textbook: uniform (b-a)/2, (b-a)^2/4 + (a+b)^2/12; triangle with its top at 0 (b-a)/3,
 * (a^2 - ab + b^2)/6; half normals cut at three deviations, by integrating z phi(z) and z^2 phi(z). */
START_TEST(shapes)
{
    const double sides[][2] = {{1, 1}, {0.2, 0.7}, {3, 0}, {0, 2}, {0.001, 5}};
    const double inside = gsl_cdf_ugaussian_P(3) - 0.5;
    const double first = (gsl_ran_ugaussian_pdf(0) - gsl_ran_ugaussian_pdf(3)) / inside;
    const double square = 1 - 3 * gsl_ran_ugaussian_pdf(3) / inside;
    for (size_t i = 0; i < sizeof sides / sizeof *sides; i++) {
        const double a = sides[i][0], b = sides[i][1];
        tolerance t = {.minus = a, .plus = b};
        ck_moments(&t, (b - a) / 2, (b - a) * (b - a) / 4 + (a + b) * (a + b) / 12, -a, b);
        t.shape = TOLERANCE_TRIANGULAR;
        ck_moments(&t, (b - a) / 3, (a * a - a * b + b * b) / 6, -a, b);
        near_within(tolerance_deviation(&t, a / (a + b)), 0, 0, 1e-7 * (a + b)); /* the top */
        t.shape = TOLERANCE_NORMAL;
        ck_moments(&t, first * (b - a) / 4, square * (a * a + b * b) / 8, -1.5 * a, 1.5 * b);
        near_within(tolerance_deviation(&t, 0.5), 0, 0, 1e-12); /* each half holds half */
    }
}
END_TEST

START_TEST(shapes_grow_and_end_inside)
{
    for (int shape = TOLERANCE_UNIFORM; shape <= TOLERANCE_NORMAL; shape++) {
        const tolerance t = {.minus = 0.3, .plus = 0.8, .shape = (tolerance_shape)shape}, none = {.shape = (tolerance_shape)shape};
        for (int i = 0; i < 1000; i++)
            ck_assert(tolerance_deviation(&t, i / 1000.0) < tolerance_deviation(&t, (i + 1) / 1000.0));
        const double reach = shape == TOLERANCE_NORMAL ? 1.5 : 1;
        near_within(tolerance_deviation(&t, 0), -0.3 * reach, 1e-9, 0);
        near_within(tolerance_deviation(&t, 1 - 0x1p-53), 0.8 * reach, 1e-6, 0);
        near_within(tolerance_deviation(&none, 0.7), 0, 0, 0);
    }
}
END_TEST

/* ---- Wilson's interval ------------------------------------------------------------------------------ */

/* Newcombe, Statistics in Medicine 17 (1998) 857, table I, score method (from memory). */
START_TEST(wilson_published)
{
    const struct {
        size_t hits, all;
        double low, high;
    } rows[] = {{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0.0000, 0.1611}, {1, 29, 0.0061, 0.1718}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double low, high;
        wilson_interval(rows[i].hits, rows[i].all, &low, &high);
        near_within(low, rows[i].low, 0, 0.00005001);
        near_within(high, rows[i].high, 0, 0.00005001);
    }
}
END_TEST

/* Its definition: each end is a share from which the one seen lies 1.96 of its own standard errors away. */
START_TEST(wilson_defined)
{
    const double z = gsl_cdf_ugaussian_Pinv(0.975);
    for (size_t all = 1; all < 100000; all = 3 * all + 1)
        for (size_t hits = 0; hits <= all; hits += all / 13 + 1) {
            double ends[2];
            wilson_interval(hits, all, &ends[0], &ends[1]);
            const double seen = (double)hits / (double)all;
            ck_assert(0 <= ends[0] && ends[0] <= seen && seen <= ends[1] && ends[1] <= 1);
            for (int i = 0; i < 2; i++) {
                const double error = sqrt(ends[i] * (1 - ends[i]) / (double)all);
                if (ends[i] > 0 && ends[i] < 1) near_within(fabs(seen - ends[i]), z * error, 1e-9, 1e-12);
            }
        }
}
END_TEST

/* ---- exact spreads ---------------------------------------------------------------------------------- */

/* A straight, slender, pinned column on Euler's curve: margin = pi^2 E I(t) / (1.5 P L^2) - 1. */
typedef struct strut {
    rbow_member member;
    double per_inertia;
} strut;

static strut euler_strut(void)
{
    strut s = {.member = rail()};
    s.member.length = 60;
    s.member.column_curve = RBOW_CURVE_EULER;
    s.member.compression = 2000;
    s.per_inertia = pi * pi * 29e6 / (1.5 * 2000 * 60 * 60);
    return s;
}

static double margin_of_wall(const strut *s, double wall)
{
    return s->per_inertia * pi / 64 * (pow(1.25, 4) - pow(1.25 - 2 * wall, 4)) - 1;
}

static double wall_of_margin(const strut *s, double margin)
{
    return (1.25 - pow(pow(1.25, 4) - 64 / pi * (margin + 1) / s->per_inertia, 0.25)) / 2;
}

/* Mean of a power of the margin over even walls, by Simpson's rule. */
static double mean_power(const strut *s, double low, double high, int power)
{
    enum { STEPS = 2000 };
    double sum = 0;
    for (int i = 0; i <= STEPS; i++) {
        const double weight = i == 0 || i == STEPS ? 1 : i % 2 == 1 ? 4 : 2;
        sum += weight * pow(margin_of_wall(s, low + (high - low) * i / STEPS), power);
    }
    return sum / (3 * STEPS);
}

START_TEST(a_straight_column_with_an_even_wall)
{
    const strut s = euler_strut();
    const problem p = problem_of(&s.member);
    const double low = 0.058 - 0.008, high = 0.058 + 0.012;
    const tolerance t = {PARAMETER(wall), 0.058, 0.008, 0.012, TOLERANCE_UNIFORM};
    near_within(margin_of(&p, &s.member), margin_of_wall(&s, 0.058), 0, 1e-9);
    const double mean = mean_power(&s, low, high, 1), sd = sqrt(mean_power(&s, low, high, 2) - mean * mean);
    const double below = (wall_of_margin(&s, 0) - low) / (high - low);
    ck_assert(below > 0.1 && below < 0.9);
    for (unsigned long seed = 1; seed <= 5; seed++) {
        const scatter_answer a = run(&p, &t, 1, 4096, seed, 1);
        near_within(a.statistics.mean, mean, 0, 1e-3 * sd);
        near_within(a.statistics.sd, sd, 2e-3, 0);
        near_within(a.statistics.short_share, below, 0, 2.0 / 4096);
        near_within(a.statistics.p01, margin_of_wall(&s, low + 0.01 * (high - low)), 0, 2e-3 * sd);
        near_within(a.statistics.p05, margin_of_wall(&s, low + 0.05 * (high - low)), 0, 2e-3 * sd);
        near_within(a.statistics.p50, margin_of_wall(&s, low + 0.50 * (high - low)), 0, 2e-3 * sd);
        near_within(a.statistics.p95, margin_of_wall(&s, low + 0.95 * (high - low)), 0, 2e-3 * sd);
        near_within(a.driver_share[0], 1, 0, 2e-3);
        ck_assert(a.statistics.short_low < below && below < a.statistics.short_high);
        free(a.margins);
    }
}
END_TEST

/* The same for the other shapes: the share below a wall is known for each. */
START_TEST(a_straight_column_with_other_walls)
{
    const strut s = euler_strut();
    const problem p = problem_of(&s.member);
    const double least = wall_of_margin(&s, 0) - 0.058, a = 0.008, b = 0.012;
    ck_assert(least < 0 && least > -a);
    const tolerance normal = {PARAMETER(wall), 0.058, a, b, TOLERANCE_NORMAL};
    const double tail = gsl_cdf_ugaussian_P(-3), below = (gsl_cdf_ugaussian_P(2 * least / a) - tail) / (1 - 2 * tail);
    scatter_answer got = run(&p, &normal, 1, 8192, 1, 2);
    near_within(got.statistics.short_share, below, 0, 2.0 / 8192);
    free(got.margins);
    const tolerance triangular = {PARAMETER(wall), 0.058, a, b, TOLERANCE_TRIANGULAR};
    got = run(&p, &triangular, 1, 8192, 1, 2);
    near_within(got.statistics.short_share, (a + least) * (a + least) / (a * (a + b)), 0, 2.0 / 8192);
    free(got.margins);
}
END_TEST

/* A bar in tension, margin + 1 = yield x area / (pull x factor): for small tolerances linear in each, with slopes
 * -1/P, -1/f and 1/(od - wall). Tolerances of 1, 2 and 3 parts give shares 1/14, 4/14, 9/14; two columns idle. Columns
 * that go together by chance, 1 in 64 at 4096 samples, would move a share by 0.013. */
START_TEST(drivers_of_a_linear_margin)
{
    rbow_member m = rail();
    m.compression = -5000;
    const problem p = problem_of(&m);
    const double part = 1e-4, want[] = {1 / 14.0, 4 / 14.0, 9 / 14.0, 0, 0};
    const tolerance t[] = {
        {PARAMETER(compression), -5000, 5000 * part, 5000 * part, TOLERANCE_UNIFORM},
        {PARAMETER(factor_yield), 1.5, 1.5 * 2 * part, 1.5 * 2 * part, TOLERANCE_UNIFORM},
        {PARAMETER(od), 1.25, (1.25 - 0.058) * 3 * part, (1.25 - 0.058) * 3 * part, TOLERANCE_UNIFORM},
        {PARAMETER(length), 36, 1, 1, TOLERANCE_UNIFORM},
        {PARAMETER(bow_clock), 0, 1, 1, TOLERANCE_NORMAL},
    };
    for (unsigned long seed = 1; seed <= 4; seed++) {
        scatter_answer a = run(&p, t, 5, 4096, seed, 1);
        for (int i = 0; i < 5; i++) near_within(a.driver_share[i], want[i], 0, 0.006);
        free(a.margins);
        a = run(&p, t, 5, 16384, seed, 2);
        for (int i = 0; i < 5; i++) near_within(a.driver_share[i], want[i], 0, 0.002);
        free(a.margins);
    }
}
END_TEST

/* The same with the other shapes: variances (a^2 - ab + b^2)/6 - ((b-a)/3)^2 and those of cut half normals. */
START_TEST(drivers_of_other_shapes)
{
    rbow_member m = rail();
    m.compression = -5000;
    const problem p = problem_of(&m);
    const double part = 1e-4, inside = gsl_cdf_ugaussian_P(3) - 0.5;
    const tolerance t[] = {
        {PARAMETER(compression), -5000, 5000 * part, 5000 * part, TOLERANCE_UNIFORM},
        {PARAMETER(factor_yield), 1.5, 1.5 * 2 * part, 1.5 * 2 * part, TOLERANCE_TRIANGULAR},
        {PARAMETER(od), 1.25, (1.25 - 0.058) * 2 * part, (1.25 - 0.058) * 2 * part, TOLERANCE_NORMAL},
    };
    const double spread[] = {1 / 3.0, 4 / 6.0, 1 - 3 * gsl_ran_ugaussian_pdf(3) / inside};
    const double all = spread[0] + spread[1] + spread[2];
    const scatter_answer a = run(&p, t, 3, 16384, 1, 2);
    for (int i = 0; i < 3; i++) near_within(a.driver_share[i], spread[i] / all, 0, 0.004);
    near_within(a.statistics.sd, 75e3 * pi * 0.058 * 1.192 / 7500 * part * sqrt(all), 3e-3, 0);
    free(a.margins);
}
END_TEST

/* ---- against pseudo-random sampling ----------------------------------------------------------------- */

static const tolerance shop[] = {
    {PARAMETER(wall), 0.058, 0.006, 0.006, TOLERANCE_NORMAL},       {PARAMETER(od), 1.25, 0, 0.005, TOLERANCE_UNIFORM},
    {PARAMETER(bow), 0.06, 0.05, 0.05, TOLERANCE_TRIANGULAR},       {PARAMETER(miss_a), 0.1, 0.1, 0.2, TOLERANCE_TRIANGULAR},
    {PARAMETER(compression), 4800, 400, 600, TOLERANCE_NORMAL},     {PARAMETER(spread_clock), 0, 1, 1, TOLERANCE_UNIFORM},
    {PARAMETER(weld_zone), 1, 0.25, 0.5, TOLERANCE_UNIFORM},
};
enum { SHOP = sizeof shop / sizeof *shop };

static rbow_member shop_rail(void)
{
    rbow_member m = rail();
    m.end_a = m.end_b = RBOW_WELDED;
    m.compression = 4800;
    m.spread_load = 4;
    m.bow = 0.06;
    m.miss_a = 0.1;
    m.weld_zone = 1;
    return m;
}

/* Drawn without the shapes' inverse functions: normal by rejection, triangle from its density. */
static double drawn(const tolerance *t, gsl_rng *r)
{
    for (;;) {
        const double z = gsl_ran_ugaussian(r), d = dice(r, -t->minus, t->plus);
        switch (t->shape) {
            case TOLERANCE_NORMAL:
                if (fabs(z) <= 3) return z * (z < 0 ? t->minus : t->plus) / 2;
                break;
            case TOLERANCE_TRIANGULAR:
                if (gsl_rng_uniform(r) <= 1 - (d < 0 ? -d / t->minus : d / t->plus)) return d;
                break;
            default: return d;
        }
    }
}

START_TEST(against_pseudo_random_samples)
{
    enum { COUNT = 8000 };
    const rbow_member m = shop_rail();
    const problem p = problem_of(&m);
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    double sum = 0, squares = 0, shorts = 0;
    for (int i = 0; i < COUNT; i++) {
        rbow_member k = m;
        for (int n = 0; n < SHOP; n++) parameter_set(&k, shop[n].column, shop[n].nominal + drawn(&shop[n], r));
        const double margin = margin_of(&p, &k);
        ck_assert(isfinite(margin));
        sum += margin;
        squares += margin * margin;
        shorts += margin < 0;
    }
    gsl_rng_free(r);
    const double mean = sum / COUNT, sd = sqrt(squares / COUNT - mean * mean), share = shorts / COUNT;
    const scatter_answer a = run(&p, shop, SHOP, 4096, 1, 2);
    near_within(a.statistics.mean, mean, 0, 4 * sd / sqrt(COUNT));
    near_within(a.statistics.sd, sd, 4 / sqrt(2.0 * COUNT), 0);
    ck_assert(share > 0.01 && share < 0.99);
    near_within(a.statistics.short_share, share, 0, 4 * sqrt(share * (1 - share) / COUNT));
    free(a.margins);
}
END_TEST

/* Quasi-random means spread far less from seed to seed than chance would let them. */
START_TEST(seeds)
{
    const rbow_member m = shop_rail();
    const problem p = problem_of(&m);
    double least = INFINITY, most = -INFINITY, sd = 0;
    for (unsigned long seed = 1; seed <= 8; seed++) {
        const scatter_answer a = run(&p, shop, SHOP, 512, seed, 2);
        least = fmin(least, a.statistics.mean);
        most = fmax(most, a.statistics.mean);
        sd = a.statistics.sd;
        free(a.margins);
    }
    ck_assert(most > least && most - least < 0.5 * sd / sqrt(512));
}
END_TEST

START_TEST(any_number_of_jobs)
{
    const rbow_member m = shop_rail();
    const problem p = problem_of(&m);
    scatter_answer one = run(&p, shop, SHOP, 5000, 7, 1);
    for (int jobs = 2; jobs <= 7; jobs += 5) {
        const scatter_answer other = run(&p, shop, SHOP, 5000, 7, jobs);
        ck_assert_int_eq(memcmp(one.margins, other.margins, one.finite * sizeof(double)), 0);
        ck_assert_int_eq(memcmp(one.driver_share, other.driver_share, sizeof one.driver_share), 0);
        ck_assert(is_same(one.statistics.mean, other.statistics.mean) && is_same(one.statistics.sd, other.statistics.sd) && one.shorts == other.shorts);
        free(other.margins);
    }
    free(one.margins);
}
END_TEST

/* Past Sobol's 40 columns another sequence serves; a column named again counts as last named, so the columns that
 * matter stand last. */
START_TEST(many_columns)
{
    tolerance t[SCATTER_COLUMNS_MOST];
    const rbow_member m = shop_rail();
    const problem p = problem_of(&m);
    const scatter_answer few = run(&p, shop, SHOP, 4096, 1, 2);
    const size_t counts[] = {32, 41, SCATTER_COLUMNS_MOST};
    for (size_t c = 0; c < 3; c++) {
        const size_t count = counts[c];
        for (size_t i = 0; i < count; i++) t[i] = shop[i < count - SHOP ? 1 : i - (count - SHOP)];
        const scatter_answer many = run(&p, t, count, 4096, 1, 2);
        near_within(many.statistics.mean, few.statistics.mean, 0, 4 * few.statistics.sd / sqrt(4096));
        near_within(many.statistics.sd, few.statistics.sd, 0.05, 0);
        near_within(many.statistics.short_share, few.statistics.short_share, 0, 4 * sqrt(few.statistics.short_share * (1 - few.statistics.short_share) / 4096));
        for (size_t i = 0; i < SHOP; i++) near_within(many.driver_share[count - SHOP + i], few.driver_share[i], 0, 0.03);
        free(many.margins);
    }
    free(few.margins);
}
END_TEST

/* ---- samples that are not like the others ----------------------------------------------------------- */

START_TEST(refused_samples)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.01;
    const problem p = problem_of(&m);
    const tolerance t[] = {{PARAMETER(bow), 0.01, 0.03, 0.05, TOLERANCE_UNIFORM}, {PARAMETER(wall), 0.058, 0.001, 0.001, TOLERANCE_UNIFORM}};
    scatter_answer a = run(&p, t, 2, 4096, 1, 2);
    near_within(a.statistics.refused / 4096, 0.25, 0, 2.0 / 4096); /* bows below 0 */
    ck_assert_int_eq(a.refusal, RBOW_BAD_BOW);
    ck_assert(a.shorts == 0 && a.statistics.short_share <= 0 && a.statistics.short_low <= 0);
    near_within(a.statistics.short_high, 3.8415 / (4096 - a.statistics.refused + 3.8415), 1e-4, 0);
    free(a.margins);

    const tolerance all = {PARAMETER(bow), -1, 0.1, 0.1, TOLERANCE_UNIFORM};
    a = run(&p, &all, 1, 100, 1, 1);
    ck_assert((size_t)a.statistics.refused == 100 && a.finite == 0 && isnan(a.statistics.short_share) && isnan(a.statistics.mean) && isnan(a.statistics.p50));
    free(a.margins);
}
END_TEST

START_TEST(samples_without_a_limit)
{
    const rbow_member m = rail(); /* no load */
    const problem p = problem_of(&m);
    const tolerance t = {PARAMETER(wall), 0.058, 0.01, 0.01, TOLERANCE_NORMAL};
    const scatter_answer a = run(&p, &t, 1, 1000, 1, 1);
    ck_assert((size_t)a.statistics.infinite == 1000 && a.finite == 0 && a.shorts == 0 && a.statistics.short_share <= 0);
    ck_assert(isnan(a.statistics.mean) && isnan(a.statistics.sd) && isnan(a.statistics.p05));
    free(a.margins);
}
END_TEST

/* Unstable as loaded: pushed with more than the critical load pi^2 E I / L^2. */
START_TEST(unstable_samples)
{
    const strut s = euler_strut();
    rbow_member m = s.member;
    const double critical = 1.5 * 2000 * (margin_of_wall(&s, 0.058) + 1);
    m.compression = critical;
    const problem p = problem_of(&m);
    const tolerance t = {PARAMETER(compression), critical, 0.2 * critical, 0.6 * critical, TOLERANCE_UNIFORM};
    const scatter_answer a = run(&p, &t, 1, 4096, 1, 2);
    near_within(a.statistics.unstable / 4096, 0.75, 0, 2.0 / 4096);
    ck_assert(a.shorts == 4096 && a.statistics.short_share >= 1 && a.statistics.short_high >= 1 && a.statistics.short_low < 1);
    free(a.margins);
}
END_TEST

START_TEST(nothing_that_moves_the_margin)
{
    rbow_member m = rail();
    m.compression = -3000;
    m.gap_stiffness = 1e5;
    const problem p = problem_of(&m);
    const tolerance t[] = {{PARAMETER(length), 36, 0.1, 0.1, TOLERANCE_UNIFORM}, {PARAMETER(wall), 0.058, 0, 0, TOLERANCE_UNIFORM}};
    const scatter_answer a = run(&p, t, 2, 1000, 1, 1);
    near_within(a.statistics.sd, 0, 0, 1e-12);
    ck_assert(a.driver_share[0] <= 0 && a.driver_share[1] <= 0);
    free(a.margins);
}
END_TEST

static bool stop_after(void *context, size_t done)
{
    size_t *told = context;
    *told = done;
    return done < 10000;
}

START_TEST(stopped_by_the_caller)
{
    const rbow_member m = shop_rail();
    const problem p = problem_of(&m);
    size_t told = 0;
    scatter_answer a;
    const scatter_question q = {shop, SHOP, 1000000, 1, 2, stop_after, &told};
    ck_assert_int_eq(scatter_run(&p, &q, &a), SCATTER_STOPPED);
    ck_assert((size_t)a.statistics.samples == told && told >= 10000 && told < 20000 && a.margins == NULL);
}
END_TEST

START_TEST(one_sample)
{
    const rbow_member m = shop_rail();
    const problem p = problem_of(&m);
    const scatter_answer a = run(&p, shop, SHOP, 1, 1, 1);
    ck_assert(a.finite == 1 && isfinite(a.statistics.mean) && a.statistics.sd <= 0 && a.driver_share[0] <= 0);
    near_within(a.statistics.p01, a.statistics.mean, 0, 0);
    free(a.margins);
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, shapes);
    tcase_add_test(cases, shapes_grow_and_end_inside);
    tcase_add_test(cases, wilson_published);
    tcase_add_test(cases, wilson_defined);
    tcase_add_test(cases, a_straight_column_with_an_even_wall);
    tcase_add_test(cases, a_straight_column_with_other_walls);
    tcase_add_test(cases, drivers_of_a_linear_margin);
    tcase_add_test(cases, drivers_of_other_shapes);
    tcase_add_test(cases, against_pseudo_random_samples);
    tcase_add_test(cases, seeds);
    tcase_add_test(cases, any_number_of_jobs);
    tcase_add_test(cases, many_columns);
    tcase_add_test(cases, refused_samples);
    tcase_add_test(cases, samples_without_a_limit);
    tcase_add_test(cases, unstable_samples);
    tcase_add_test(cases, nothing_that_moves_the_margin);
    tcase_add_test(cases, stopped_by_the_caller);
    tcase_add_test(cases, one_sample);
}

int main(void)
{
    return run_tests("scatter", fill);
}
