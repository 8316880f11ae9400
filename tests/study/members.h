/* Problems for the tests of the studies. */
#ifndef TESTS_STUDY_MEMBERS_H
#define TESTS_STUDY_MEMBERS_H

#include "near.h"

#include "study/problem.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_rng.h>
#include <stdbool.h>
#include <stddef.h>

#define PARAMETER(name) offsetof(rbow_member, name)

static const double pi = 3.14159265358979323846;
static const double degree = 3.14159265358979323846 / 180;

static inline bool is_same(double a, double b)
{
    return a <= b && a >= b;
}

/* One steel for every wall; round numbers, no table's. */
static const rbow_material steel = {
    .name = "steel", .wall_up_to = INFINITY, .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283,
    .yield = 75e3, .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3, .column_intercept = 79.5e3,
    .column_curve = RBOW_CURVE_JOHNSON, .source = "",
};

static inline problem problem_of(const rbow_member *m)
{
    return (problem){*m, "steel", &steel, 1, NULL};
}

static inline rbow_member rail(void)
{
    rbow_member m = rbow_member_default();
    m.eccentricity_clock = m.bow_clock = m.miss_a_clock = m.miss_b_clock = m.weld_zone = 0; /* all is known */
    m.od = 1.25;
    m.wall = 0.058;
    m.length = 36;
    m.weld_zone = 0;
    m.factor_yield = m.factor;
    return m;
}

static inline double margin_of(const problem *p, const rbow_member *m)
{
    rbow_margin answer;
    return problem_margin(p, m, &answer) == RBOW_OK ? answer.margin : (double)NAN;
}

/* The margin with one number of the member changed; NaN where the model refuses. */
static inline double margin_with(const problem *p, parameter c, double value)
{
    rbow_member m = p->member;
    parameter_set(&m, c, value);
    return margin_of(p, &m);
}

static inline double dice(gsl_rng *r, double low, double high)
{
    return low + (high - low) * gsl_rng_uniform(r);
}

static inline double dice_clock(gsl_rng *r)
{
    return gsl_rng_uniform_int(r, 2) == 0 ? 90 * degree * (double)gsl_rng_uniform_int(r, 4) : dice(r, 0, 2 * pi);
}

static inline double dice_end(gsl_rng *r)
{
    const double ends[] = {RBOW_PINNED, RBOW_WELDED, RBOW_FIXED, dice(r, 0, 2e5)};
    return ends[gsl_rng_uniform_int(r, 4)];
}

/* Clocks often at quarters, so that cases with mirror images, ties and level tops come along. */
static inline rbow_member any_member(gsl_rng *r)
{
    rbow_member m = rail();
    m.od = dice(r, 1, 2);
    m.wall = dice(r, 0.035, 0.095);
    m.length = dice(r, 15, 60);
    m.end_a = dice_end(r);
    m.end_b = dice_end(r);
    m.compression = dice(r, -4000, 7000);
    m.bow = dice(r, 0.005, 0.1);
    m.bow_clock = dice_clock(r);
    m.bow_shape = (int)gsl_rng_uniform_int(r, 3);
    if (gsl_rng_uniform_int(r, 2)) m.spread_load = dice(r, 0, 9), m.spread_clock = dice_clock(r);
    if (gsl_rng_uniform_int(r, 2)) m.point_load = dice(r, 0, 300), m.point_clock = dice_clock(r);
    if (gsl_rng_uniform_int(r, 2)) m.point_at = m.length * dice(r, 0.1, 0.9);
    const bool is_held = m.end_a < RBOW_PINNED || m.end_a > RBOW_PINNED; /* a pinned end forces nothing */
    if (gsl_rng_uniform_int(r, 2) && is_held) m.miss_a = dice(r, 0, 0.4), m.miss_a_clock = dice_clock(r);
    if (gsl_rng_uniform_int(r, 3) == 0) m.eccentricity = dice(r, 0, 0.1), m.eccentricity_clock = dice_clock(r);
    if (gsl_rng_uniform_int(r, 3) == 0) m.vertical_g = dice(r, 1, 6);
    if (gsl_rng_uniform_int(r, 3) == 0) m.torque = dice(r, 0, 800);
    if (gsl_rng_uniform_int(r, 2)) m.weld_zone = 1;
    return m;
}

#endif
