/* Sighting: exact lines and shapes come back, a certified data set, GSL's own fit, and what is refused. */
#include "dice.h"
#include "near.h"

#include <railbow/clock.h>
#include <railbow/sight.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_multifit.h>
#include <string.h>

enum { MOST = 64 };
static const double sixty_fourth = 1.0 / 64;

static rbow_bow_place place_of(rbow_bow_shape shape, double size, double length, double at, double x)
{
    const rbow_bow bow = {shape, size, length, at};
    rbow_bow_place place;
    ck_assert_int_eq(rbow_bow_at(&bow, x, &place), RBOW_OK);
    return place;
}

/* ---- exact readings -------------------------------------------------------------------------------------------------------- */

START_TEST(an_exact_bar_comes_back)
{
    const double stations[] = {1, 4.5, 9, 13, 20};
    rbow_sight_reading at[5];
    rbow_sight s;
    for (double clock = 0; clock < 6.28; clock += 0.31)
        for (int i = 0; i < 5; i++) {
            double slope[2], offset[2];
            rbow_clock_components(0.01, clock, slope);
            rbow_clock_components(0.2, clock + 2, offset);
            for (int k = 0; k < 5; k++)
                at[k] = (rbow_sight_reading){stations[k], offset[0] + slope[0] * stations[k], offset[1] + slope[1] * stations[k], 0.01 * (k + 1)};
            if (i == 1) continue; /* one station alone */
            ck_assert_int_eq(rbow_sight_socket(at, i == 0 ? 5 : (size_t)i, 30, &s), RBOW_OK);
            near_within(s.size, 0.3, 1e-12, 0);
            near_within(remainder(s.clock - clock, 2 * M_PI), 0, 0, 1e-11);
            near_within(s.offset, 0.2, 1e-12, 0);
            near_within(remainder(s.offset_clock - clock - 2, 2 * M_PI), 0, 0, 1e-11);
            for (int k = 0; k < 2; k++) {
                const double x = k == 0 ? s.first : s.last;
                near_within(s.up[k], offset[0] + slope[0] * x, 0, 1e-13);
                near_within(s.right[k], offset[1] + slope[1] * x, 0, 1e-13);
            }
            ck_assert_int_eq(s.holds, 1);
            ck_assert_int_eq(s.freedom, i == 0 ? 6 : 2 * i - 4);
            if (s.freedom == 0) ck_assert(isnan(s.misfit) && isnan(s.misfit_most) && isnan(s.worst));
            else near_within(s.misfit, 0, 0, 1e-20);
        }
}
END_TEST

START_TEST(exact_shapes_come_back)
{
    rbow_sight_reading at[MOST];
    rbow_sight s;
    for (int shape = 0; shape < RBOW_BOW_SHAPE_COUNT; shape++)
        for (int count = 3; count <= 24; count += shape == RBOW_BOW_KINK && count < 5 ? 2 : 3)
            for (double corner = 12; corner < 30; corner += 4.3) {
                double level[2];
                rbow_clock_components(0.08, 4, level);
                for (int i = 0; i < count; i++) {
                    const double x = 36.0 * i / (count - 1), y = place_of((rbow_bow_shape)shape, 0.05, 36, corner, x).offset;
                    at[i] = (rbow_sight_reading){2 + x, 0.3 + 0.002 * x + y * level[0] / 0.08, -0.1 - 0.001 * x + y * level[1] / 0.08, sixty_fourth / 100};
                }
                ck_assert_int_eq(rbow_sight_tube(at, (size_t)count, &s), RBOW_OK);
                if (count == 3 && shape == RBOW_BOW_KINK) continue; /* its corner cannot be told */
                const int shown = count == 3 ? RBOW_BOW_SINE : shape;
                if (shape == RBOW_BOW_KINK && count < 12) continue; /* nor well from so few */
                ck_assert_int_eq(s.bow_shape, shown);
                near_within(s.size, 0.05, shape == RBOW_BOW_KINK ? 1e-6 : 1e-10, 0);
                near_within(s.clock, 4, shape == RBOW_BOW_KINK ? 1e-6 : 1e-10, 0);
                near_within(s.bow_at, shape == RBOW_BOW_KINK ? 2 + corner : 20, 1e-5, 0);
                if (shape != RBOW_BOW_KINK) {
                    near_within(s.up[0], 0.3, 0, 1e-12);
                    near_within(s.up[1], 0.3 + 0.072, 0, 1e-12);
                    near_within(s.right[1], -0.1 - 0.036, 0, 1e-12);
                }
                ck_assert(s.first >= 2 && s.last <= 38 && s.holds);
            }
}
END_TEST

START_TEST(a_kink_from_five_stations)
{
    rbow_sight_reading at[5];
    rbow_sight s;
    for (int i = 0; i < 5; i++) at[i] = (rbow_sight_reading){9.0 * i, place_of(RBOW_BOW_KINK, 0.1, 36, 15, 9.0 * i).offset, NAN, 0.001};
    ck_assert_int_eq(rbow_sight_tube(at, 5, &s), RBOW_OK);
    ck_assert_int_eq(s.bow_shape, RBOW_BOW_KINK);
    ck_assert_int_eq(s.freedom, 1);
    near_within(s.size, 0.1, 1e-6, 0);
    near_within(s.bow_at, 15, 1e-6, 0);
    ck_assert(s.clock <= 0 && isnan(s.minor));
}
END_TEST

/* A dent beside a reading at an end would pass for a kink there: the corner stays between the inner stations. */
START_TEST(a_slip_at_an_end_is_no_kink)
{
    rbow_sight_reading at[7];
    rbow_sight s;
    for (int i = 0; i < 7; i++) at[i] = (rbow_sight_reading){6.0 * i, i == 0 ? 0.2 : 0, 0, 0.01};
    ck_assert_int_eq(rbow_sight_tube(at, 7, &s), RBOW_OK);
    ck_assert_int_ne(s.bow_shape, RBOW_BOW_KINK);
    ck_assert_int_eq(s.holds, 0);
}
END_TEST

/* ---- other sources ----------------------------------------------------------------------------------------------------------- */

/* NIST Statistical Reference Datasets, Norris (linear, 36 observations), with its certified values: data and values from
 * memory; a digit recalled wrongly would miss the certified values. Here y/10 is the offset, so that the slope is small. */
static const double norris[36][2] = {
    {0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3},
    {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0},
    {448.9, 447.5}, {10.8, 11.6}, {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3},
    {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};

START_TEST(the_certified_line)
{
    const double level = -0.262323073774029, slope = 1.00211681802045, residual = 0.884796396144373, slope_sd = 0.429796848199937e-3;
    rbow_sight_reading at[36];
    rbow_sight s;
    for (int i = 0; i < 36; i++) at[i] = (rbow_sight_reading){norris[i][1], norris[i][0] / 10, NAN, residual / 10};
    ck_assert_int_eq(rbow_sight_socket(at, 36, 1, &s), RBOW_OK);
    near_within(s.size, slope / 10, 1e-13, 0);
    near_within(s.offset, fabs(level) / 10, 1e-12, 0);
    near_within(s.offset_clock, M_PI, 1e-12, 0); /* below the line */
    near_within(s.misfit, 34, 1e-12, 0);
    near_within(s.error, gsl_cdf_ugaussian_Pinv(0.975) * slope_sd / 10, 1e-12, 0);
    ck_assert_int_eq(s.freedom, 34);
    near_within(s.misfit_most, 48.602, 0, 5e-4); /* chi-square tables, 34 degrees of freedom, 5 %; from memory */
    for (int i = 0; i < 36; i++) at[i].station -= 1e5; /* far from A, the level has the error of the slope */
    ck_assert_int_eq(rbow_sight_socket(at, 36, 1, &s), RBOW_OK);
    near_within(s.size, slope / 10, 1e-11, 0);
}
END_TEST

/* Weighted, by hand: stations 0, 1, 3 with errors 1, 2, 1 and offsets 0.10, 0.16, 0.13. Weights 1, 1/4, 1: mean station
 * (1/4 + 3)/2.25 = 13/9, mean offset (0.10 + 0.04 + 0.13)/2.25 = 0.12; Sxx = 0.25 + 9 - 2.25 (13/9)^2 = 41/9,
 * Sxy = 0.04 + 0.39 - 2.25 (13/9) 0.12 = 0.04; slope 0.36/41. */
START_TEST(a_weighted_line_by_hand)
{
    const rbow_sight_reading at[] = {{0, 0.10, NAN, 1}, {1, 0.16, NAN, 2}, {3, 0.13, NAN, 1}};
    rbow_sight s;
    ck_assert_int_eq(rbow_sight_socket(at, 3, 10, &s), RBOW_OK);
    near_within(s.size, 3.6 / 41, 1e-13, 0);
    near_within(s.offset, 0.12 - 0.36 / 41 * 13 / 9, 1e-13, 0);
    near_within(s.error, 10 * 1.9599639845400545 * sqrt(9.0 / 41), 1e-12, 0);
    ck_assert_int_eq(s.significant, 0);
    near_within(s.worst, 1, 0, 0);
}
END_TEST

/* The variances of a kink's size, up and right, with the place of its corner as a seventh unknown; its derivative is a
 * difference. */
static void kink_spread(const rbow_sight_reading at[], size_t count, const rbow_sight *s, double spread[3])
{
    const double h = 1e-6, length = s->last - s->first, corner = s->bow_at - s->first, size[2] = {s->size * cos(s->clock), s->size * sin(s->clock)};
    gsl_matrix *x = gsl_matrix_calloc(2 * count, 7), *covariance = gsl_matrix_alloc(7, 7);
    gsl_vector *w = gsl_vector_calloc(2 * count), *y = gsl_vector_calloc(2 * count), *c = gsl_vector_alloc(7);
    gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(2 * count, 7);
    double left;
    for (size_t i = 0; i < 2 * count; i++) {
        const size_t plane = i % 2, own = 3 * plane;
        const rbow_sight_reading *r = &at[i / 2];
        const double u = r->station - s->first, offset = plane == 0 ? r->up : r->right;
        if (isnan(offset)) continue; /* weight 0 */
        gsl_matrix_set(x, i, own, 1);
        gsl_matrix_set(x, i, own + 1, u / length);
        gsl_matrix_set(x, i, own + 2, place_of(RBOW_BOW_KINK, 1, length, corner, u).offset);
        gsl_matrix_set(x, i, 6, size[plane] * (place_of(RBOW_BOW_KINK, 1, length, corner + h, u).offset - place_of(RBOW_BOW_KINK, 1, length, corner - h, u).offset) / (2 * h));
        gsl_vector_set(w, i, gsl_pow_int(r->error, -2));
        gsl_vector_set(y, i, offset);
    }
    ck_assert_int_eq(gsl_multifit_wlinear(x, w, y, c, covariance, &left, work), GSL_SUCCESS);
    spread[0] = gsl_matrix_get(covariance, 2, 2);
    spread[1] = gsl_matrix_get(covariance, 5, 5);
    spread[2] = gsl_matrix_get(covariance, 2, 5);
    gsl_multifit_linear_free(work);
    gsl_matrix_free(x), gsl_matrix_free(covariance), gsl_vector_free(w), gsl_vector_free(y), gsl_vector_free(c);
}

static int kinks_compared;

/* Two planes with weights and gaps against gsl_multifit_wlinear, a bar and each bow. */
static void against_gsl(const rbow_sight_reading at[], size_t count, double landing)
{
    rbow_sight s;
    const int tube = landing <= 0;
    ck_assert_int_eq(tube ? rbow_sight_tube(at, count, &s) : rbow_sight_socket(at, count, landing, &s), RBOW_OK);
    double size[2] = {0, 0}, variance[2] = {0, 0}, misfit = 0;
    for (int plane = 0; plane < 2; plane++) {
        const size_t p = tube ? 3 : 2;
        size_t n = 0;
        for (size_t i = 0; i < count; i++)
            if (!isnan(plane == 0 ? at[i].up : at[i].right)) n++;
        gsl_matrix *x = gsl_matrix_alloc(n, p), *covariance = gsl_matrix_alloc(p, p);
        gsl_vector *w = gsl_vector_alloc(n), *y = gsl_vector_alloc(n), *c = gsl_vector_alloc(p);
        gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(n, p);
        double left;
        n = 0;
        for (size_t i = 0; i < count; i++) {
            const double offset = plane == 0 ? at[i].up : at[i].right, station = at[i].station;
            if (isnan(offset)) continue;
            gsl_matrix_set(x, n, 0, 1);
            gsl_matrix_set(x, n, 1, station);
            if (tube) gsl_matrix_set(x, n, 2, place_of((rbow_bow_shape)s.bow_shape, 1, s.last - s.first, s.bow_at - s.first, station - s.first).offset);
            gsl_vector_set(w, n, gsl_pow_int(at[i].error, -2));
            gsl_vector_set(y, n++, offset);
        }
        ck_assert_int_eq(gsl_multifit_wlinear(x, w, y, c, covariance, &left, work), GSL_SUCCESS);
        size[plane] = gsl_vector_get(c, p - 1) * (tube ? 1 : landing);
        variance[plane] = gsl_matrix_get(covariance, p - 1, p - 1) * (tube ? 1 : landing * landing);
        misfit += left;
        gsl_multifit_linear_free(work);
        gsl_matrix_free(x), gsl_matrix_free(covariance), gsl_vector_free(w), gsl_vector_free(y), gsl_vector_free(c);
    }
    near_within(s.size, hypot(size[0], size[1]), 1e-10, 1e-13);
    near_within(remainder(s.clock - atan2(size[1], size[0]), 2 * M_PI), 0, 0, 1e-9);
    near_within(s.misfit, misfit, 1e-9, 1e-12);
    const double along = cos(s.clock - s.major_clock) / s.major, across = sin(s.clock - s.major_clock) / s.minor;
    near_within(s.error, 1 / hypot(along, across), 1e-9, 0);
    if (tube && s.bow_shape == RBOW_BOW_KINK) { /* its error contains that of the place */
        double v[3];
        for (size_t i = 0; i < count; i++)
            if (fabs(at[i].station - s.bow_at) < 1e-4) return; /* at a station the derivative has two values */
        kink_spread(at, count, &s, v);
        kinks_compared++;
        const double c = cos(s.clock), n = sin(s.clock);
        near_within(s.error, sqrt(5.991464547107979 * (v[0] * v[1] - v[2] * v[2]) / (c * c * v[1] - 2 * c * n * v[2] + n * n * v[0])), 1e-5, 0);
        near_within(s.major * s.minor, 5.991464547107979 * sqrt(v[0] * v[1] - v[2] * v[2]), 1e-5, 0);
        return;
    }
    const double n0 = cos(s.clock), n1 = sin(s.clock);
    near_within(s.error, sqrt(5.991464547107979 / (n0 * n0 / variance[0] + n1 * n1 / variance[1])), 1e-9, 0); /* from memory */
    near_within(s.major, sqrt(5.991464547107979 * fmax(variance[0], variance[1])), 1e-9, 0);
    near_within(s.minor, sqrt(5.991464547107979 * fmin(variance[0], variance[1])), 1e-9, 0);
    near_within(cos(s.major_clock), variance[0] >= variance[1] * (1 - 1e-9), 0, 1e-9);
}

START_TEST(as_gsl_fits_it)
{
    dice d = {42};
    rbow_sight_reading at[MOST];
    for (int k = 0; k < 400; k++) {
        const int count = 7 + dice_below(&d, 20), shape = k % 4;
        const double size = dice_size(&d, 1e-3, 0.3), corner = dice_between(&d, 12, 24);
        for (int i = 0; i < count; i++) {
            const double x = 36.0 * i / (count - 1), y = shape == 3 ? size * x / 36 : place_of((rbow_bow_shape)shape, size, 36, corner, x).offset;
            at[i] = (rbow_sight_reading){x + 1, 0.1 + y + dice_between(&d, -0.02, 0.02), 0.05 - 0.4 * y + dice_between(&d, -0.02, 0.02), dice_size(&d, 0.005, 0.03)};
            if (i > 0 && i < count - 1 && dice_chance(&d, 0.15) && count > 9) *(dice_chance(&d, 0.5) ? &at[i].up : &at[i].right) = NAN;
        }
        against_gsl(at, (size_t)count, shape == 3 ? dice_between(&d, 10, 60) : 0);
    }
    ck_assert_int_ge(kinks_compared, 30);
}
END_TEST

/* ---- a bar longer, and a bar bent ---------------------------------------------------------------------------------------- */

/* Stations twice as far apart halve the error of the slope; so says the text of the command. */
START_TEST(a_bar_twice_as_long_halves_the_error)
{
    rbow_sight_reading at[4], longer[4];
    rbow_sight s, l;
    for (int i = 0; i < 4; i++) {
        at[i] = (rbow_sight_reading){1.0 + 3 * i, 0.01 * i, 0.1, sixty_fourth};
        longer[i] = at[i];
        longer[i].station *= 2;
    }
    ck_assert_int_eq(rbow_sight_socket(at, 4, 40, &s), RBOW_OK);
    ck_assert_int_eq(rbow_sight_socket(longer, 4, 40, &l), RBOW_OK);
    near_within(l.error, s.error / 2, 1e-12, 0);
    near_within(l.size, s.size / 2, 1e-12, 0);
}
END_TEST

START_TEST(a_bent_bar_does_not_hold)
{
    rbow_sight_reading at[5];
    rbow_sight s;
    for (int i = 0; i < 5; i++) at[i] = (rbow_sight_reading){4.0 * i, 0.01 * i + (i == 2 ? 0.1 : 0), 0, sixty_fourth};
    ck_assert_int_eq(rbow_sight_socket(at, 5, 30, &s), RBOW_OK);
    ck_assert(!s.holds && s.misfit > s.misfit_most);
    near_within(s.worst, 8, 0, 0);
    at[2].up = 0.02;
    ck_assert_int_eq(rbow_sight_socket(at, 5, 30, &s), RBOW_OK);
    ck_assert(s.holds);
}
END_TEST

/* ---- refusals --------------------------------------------------------------------------------------------------------------- */

static void refused(rbow_status want, rbow_status got, const rbow_sight *s)
{
    ck_assert_int_eq(got, want);
    ck_assert(isnan(s->size) && isnan(s->error) && isnan(s->worst) && s->significant == 0 && s->freedom == 0);
}

START_TEST(what_is_refused)
{
    const rbow_sight_reading sound[] = {{0, 0, 0, 0.01}, {5, 0.1, 0, 0.01}, {10, 0.1, 0, 0.01}};
    rbow_sight_reading at[3];
    rbow_sight s;
#define SOCKET(want, reading, member, value)                                                                   \
    do {                                                                                                       \
        memcpy(at, sound, sizeof at);                                                                          \
        at[reading].member = value;                                                                            \
        refused(want, rbow_sight_socket(at, 3, 30, &s), &s);                                                   \
    } while (0)
    SOCKET(RBOW_NOT_FINITE, 1, station, NAN);
    SOCKET(RBOW_NOT_FINITE, 1, up, INFINITY);
    SOCKET(RBOW_NOT_FINITE, 2, right, -INFINITY);
    SOCKET(RBOW_BAD_READING_ERROR, 0, error, 0);
    SOCKET(RBOW_BAD_READING_ERROR, 0, error, NAN);
    SOCKET(RBOW_BAD_READING_ERROR, 0, error, INFINITY);
    SOCKET(RBOW_SIGHT_STEEP, 2, up, 5);
    refused(RBOW_BAD_LANDING, rbow_sight_socket(sound, 3, 0, &s), &s);
    refused(RBOW_BAD_LANDING, rbow_sight_socket(sound, 3, NAN, &s), &s);
    refused(RBOW_BAD_LANDING, rbow_sight_socket(sound, 3, INFINITY, &s), &s);
    refused(RBOW_NOT_SIGHTED, rbow_sight_socket(sound, 0, 30, &s), &s);
    memcpy(at, sound, sizeof at);
    for (int i = 0; i < 3; i++) at[i].station = 4;
    refused(RBOW_FEW_UP, rbow_sight_socket(at, 3, 30, &s), &s);
    memcpy(at, sound, sizeof at);
    at[0].right = at[1].right = NAN;
    refused(RBOW_FEW_RIGHT, rbow_sight_socket(at, 3, 30, &s), &s);
    refused(RBOW_FEW_RIGHT, rbow_sight_tube(at, 3, &s), &s);
    at[2].right = NAN;
    ck_assert_int_eq(rbow_sight_socket(at, 3, 30, &s), RBOW_OK); /* up alone */
    ck_assert_int_eq(rbow_sight_tube(at, 3, &s), RBOW_OK);
    refused(RBOW_FEW_UP, rbow_sight_tube(at, 2, &s), &s);
    memcpy(at, sound, sizeof at);
    at[1].up = 2; /* pi 2/10 */
    refused(RBOW_SIGHT_STEEP, rbow_sight_tube(at, 3, &s), &s);
    at[1].up = at[1].right = NAN; /* a row that says nothing */
    ck_assert_int_eq(rbow_sight_socket(at, 3, 30, &s), RBOW_OK);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, an_exact_bar_comes_back);
    tcase_add_test(c, exact_shapes_come_back);
    tcase_add_test(c, a_kink_from_five_stations);
    tcase_add_test(c, a_slip_at_an_end_is_no_kink);
    tcase_add_test(c, the_certified_line);
    tcase_add_test(c, a_weighted_line_by_hand);
    tcase_add_test(c, as_gsl_fits_it);
    tcase_add_test(c, a_bar_twice_as_long_halves_the_error);
    tcase_add_test(c, a_bent_bar_does_not_hold);
    tcase_add_test(c, what_is_refused);
}

int main(void)
{
    return run_tests("sight", fill);
}
