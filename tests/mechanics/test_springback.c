/* Plastic bending and the pull of a horn: published values, closed forms, and an integration of its own. */
#include <railbow/pull.h>
#include <railbow/tube.h>

#include "mechanics/plastic.h"
#include "near.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>

static double slab(const plastic_shape *s, double core)
{
    return s->outer * (s->half_height * s->half_height - core * core / 3);
}

/* A rectangle: width b, and half its height. */
static plastic_shape rectangle(double width, double half_height)
{
    return (plastic_shape){.half_height = half_height, .modulus = slab, .outer = width};
}

/* Beer & Johnston, Mechanics of Materials, examples 4.05 and 4.06: 50 x 120 mm, M 36.8 kN m, E 200 GPa, yield 240 MPa:
 * the elastic core is 80 mm high, 66.7 MPa stay at the surface, and the axis keeps a radius of 225 m. */
START_TEST(a_published_bar)
{
    const plastic_shape bar = rectangle(0.050, 0.060);
    const double yield = 240e6, modulus = 200e9, moment = 36.8e3, first = bar.modulus(&bar, 0.060);
    double core;
    ck_assert_int_eq(rbow_plastic_core(&bar, moment / yield, &core), RBOW_OK);
    near_within(2 * core, 0.080, 0, 0.0005);
    near_within(fabs(yield - moment / first), 66.7e6, 0, 0.05e6);
    const double kept = yield / modulus / core - moment / (modulus * first * 0.060);
    near_within(1 / kept, 225, 0, 0.5);
}
END_TEST

/* The tip-loaded rectangular cantilever, in shares of yield_strain L^2/h (elastic: 1/3). With m = M/M_y at the root the
 * curvature is 1/sqrt(3 - 2 m s/L) beyond first yield; integrated by hand, in yield travels:
 *     (5 - (3 + m) sqrt(3 - 2m))/m^2        1 at m = 1, 20/9 at m = 3/2 (textbook, from memory) */
START_TEST(a_rectangle_in_closed_form)
{
    const plastic_shape bar = rectangle(2, 0.5);
    const double first = bar.modulus(&bar, 0.5);
    for (double m = 1; m < 1.5; m += 0.0625) {
        double core, travel;
        ck_assert_int_eq(rbow_plastic_core(&bar, m * first, &core), RBOW_OK);
        near_within(core, 0.5 * sqrt(3 - 2 * m), 1e-12, 0);
        ck_assert_int_eq(rbow_plastic_travel(&bar, core, &travel), RBOW_OK);
        near_within(3 * travel, (5 - (3 + m) * sqrt(3 - 2 * m)) / (m * m), 1e-9, 0);
    }
    double travel;
    ck_assert_int_eq(rbow_plastic_travel(&bar, 0.5e-6, &travel), RBOW_OK);
    near_within(3 * travel, 20.0 / 9, 1e-5, 0);
}
END_TEST

START_TEST(cores_outside_are_refused)
{
    const plastic_shape bar = rectangle(2, 0.5);
    double core = 0;
    ck_assert_int_eq(rbow_plastic_core(&bar, bar.modulus(&bar, 0) * 1.001, &core), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(core));
    ck_assert_int_eq(rbow_plastic_core(&bar, bar.modulus(&bar, 0.5) * 0.999, &core), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_plastic_core(&bar, NAN, &core), RBOW_OUT_OF_RANGE);
}
END_TEST

static double shape_factor(double od, double bore)
{
    const plastic_shape s = rbow_plastic_tube(od, bore);
    return s.modulus(&s, 0) / s.modulus(&s, s.half_height);
}

/* Solid round 16/(3 pi); tubes (16/3pi)(1 - q^3)/(1 - q^4), q = bore/od. */
START_TEST(shape_factors)
{
    near_within(shape_factor(1.25, 0), 16 / (3 * M_PI), 1e-14, 0);
    near_within(shape_factor(1.25, 1.152), 1.3237, 0, 0.00005);
    near_within(shape_factor(1.5, 1.26), 1.3770, 0, 0.00005);
    near_within(shape_factor(1, 0.9999), 4 / M_PI, 1e-3, 0);
}
END_TEST

/* The moment of the section by adding up strips in the angle, midpoint rule: y = r sin t, width 2 r cos t. */
static double strips(double radius, double core)
{
    enum { STRIPS = 20000 };
    double sum = 0;
    for (int i = 0; i < STRIPS && radius > 0; i++) {
        const double t = (i + 0.5) * M_PI / 2 / STRIPS, y = radius * sin(t), c = cos(t);
        sum += fmin(y / core, 1) * y * 2 * radius * c * radius * c;
    }
    return 2 * sum * M_PI / 2 / STRIPS;
}

START_TEST(the_section_in_strips)
{
    const double sizes[][2] = {{1.25, 1.134}, {1.25, 1.152}, {1.5, 1.26}, {1, 0}, {2, 1.99}};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        const plastic_shape s = rbow_plastic_tube(sizes[i][0], sizes[i][1]);
        for (double share = 1; share > 1e-5; share *= 0.7) {
            const double core = share * s.half_height;
            near_within(s.modulus(&s, core), strips(s.outer, core) - strips(s.inner, core), 2e-6, 0);
        }
    }
}
END_TEST

START_TEST(the_moment_grows_smoothly_as_the_core_shrinks)
{
    const plastic_shape s = rbow_plastic_tube(1.25, 1.134);
    double last = 0;
    for (double core = s.half_height; core > 1e-9; core *= 0.999) {
        const double now = s.modulus(&s, core);
        ck_assert_double_ge(now, last * (1 - 1e-13));
        last = now;
    }
    near_within(last, s.modulus(&s, 0), 1e-12, 0);
}
END_TEST

static const rbow_pull horn = {.od = 1.25, .wall = 0.058, .elastic_modulus = 29e6, .yield = 75e3, .length = 18,
                               .weld_zone = 0, .weld_yield = 75e3, .set = 0.125};

static rbow_pulled pulled_to(double set)
{
    rbow_pull p = horn;
    rbow_pulled r;
    p.set = set;
    ck_assert_int_eq(rbow_pull_straight(&p, &r), RBOW_OK);
    return r;
}

/* The travel as the sum of curvature times distance along the horn itself (Simpson, from first yield to the root), not
 * over the curvature as the program does it. */
static double travel_by_simpson(const rbow_pull *p, double pull)
{
    enum { STEPS = 4000 };
    const plastic_shape s = rbow_plastic_tube(p->od, p->od - 2 * p->wall);
    const double first = s.modulus(&s, s.half_height), elastic = first * p->yield / pull, rest = p->length - elastic;
    const double yield_curvature = p->yield / p->elastic_modulus / s.half_height;
    double sum = yield_curvature * elastic * elastic / 3;
    for (int i = 0; i <= STEPS; i++) {
        double core;
        const double x = elastic + rest * i / STEPS;
        const double modulus = i == 0 ? first : pull * x / p->yield;
        ck_assert_int_eq(rbow_plastic_core(&s, modulus, &core), RBOW_OK);
        sum += (i == 0 || i == STEPS ? 1 : i % 2 ? 4 : 2) * rest / STEPS / 3 * yield_curvature * s.half_height / core * x;
    }
    return sum;
}

START_TEST(another_integration_agrees)
{
    for (double set = 0.01; set < 0.2; set *= 1.7) {
        const rbow_pulled r = pulled_to(set);
        ck_assert_int_eq(r.beyond, 0);
        near_within(travel_by_simpson(&horn, r.pull), r.travel, 1e-6, 0);
    }
}
END_TEST

/* Work of the pull, up and back = what the fibres keep: dissipated and stored. Both by sums of their own: the pull over
 * its travel (trapezoids over many sets) against the moment over its curvature along the horn. */
static double section_work(const plastic_shape *s, double core, double yield_strain, double yield)
{
    enum { STEPS = 400 };
    const double first = s->modulus(s, s->half_height) * yield, unit = yield_strain / s->half_height;
    double sum = first * unit / 2, last_moment = first, last_curvature = unit;
    for (int i = 1; i <= STEPS; i++) {
        const double c = s->half_height * pow(core / s->half_height, (double)i / STEPS);
        const double moment = s->modulus(s, c) * yield, curvature = yield_strain / c;
        sum += (moment + last_moment) / 2 * (curvature - last_curvature);
        last_moment = moment, last_curvature = curvature;
    }
    return sum;
}

static double work_inside(const rbow_pull *p, const rbow_pulled *r)
{
    enum { STEPS = 400 };
    const plastic_shape s = rbow_plastic_tube(p->od, p->od - 2 * p->wall);
    const double first = s.modulus(&s, s.half_height), strain = p->yield / p->elastic_modulus;
    const double elastic = p->length - r->yielded_length;
    double sum = first * p->yield * strain / s.half_height / 2 * elastic / 3; /* M k/2 falls with the square */
    for (int i = 0; i < STEPS; i++) {
        double core;
        const double x = elastic + r->yielded_length * (i + 0.5) / STEPS;
        ck_assert_int_eq(rbow_plastic_core(&s, r->pull * x / p->yield, &core), RBOW_OK);
        sum += section_work(&s, core, strain, p->yield) * r->yielded_length / STEPS;
    }
    return sum;
}

START_TEST(energy_balances)
{
    enum { STEPS = 4000 };
    const rbow_pulled goal = pulled_to(horn.set);
    double work = goal.yield_pull * goal.yield_travel / 2, last_pull = goal.yield_pull, last_travel = goal.yield_travel;
    for (int i = 1; i <= STEPS; i++) {
        const double share = (double)i / STEPS;
        const rbow_pulled r = pulled_to(horn.set * share * share);
        work += (r.pull + last_pull) / 2 * (r.travel - last_travel);
        last_pull = r.pull, last_travel = r.travel;
    }
    near_within(work, work_inside(&horn, &goal), 1e-4, 0);
    /* let go it gives back half pull times springback; less is stored or spent for good */
    ck_assert_double_lt(goal.pull * goal.springback / 2, work);
    near_within(goal.pull * goal.springback / 2, gsl_pow_2(goal.pull / goal.yield_pull) * goal.yield_pull * goal.yield_travel / 2,
                1e-12, 0);
}
END_TEST

START_TEST(what_the_parts_say_of_each_other)
{
    rbow_section s;
    rbow_section_of(horn.od, horn.wall, &s);
    const rbow_pulled r = pulled_to(0.125);
    const double root = r.pull * horn.length, ei = horn.elastic_modulus * s.inertia;
    near_within(r.yield_pull, s.section_modulus * horn.yield / horn.length, 1e-12, 0);
    near_within(r.yield_travel, r.yield_pull * gsl_pow_3(horn.length) / (3 * ei), 1e-12, 0);
    near_within(r.springback, r.pull * gsl_pow_3(horn.length) / (3 * ei), 1e-12, 0);
    near_within(r.travel - r.springback, 0.125, 1e-12, 0);
    near_within(r.residual_stress, horn.yield - root / s.section_modulus, 1e-9, 0);
    near_within(r.yielded_length, horn.length * (1 - r.yield_pull / r.pull), 1e-9, 0);
    near_within(r.peak_strain, r.strain_over_yield * horn.yield / horn.elastic_modulus, 1e-12, 0);
    ck_assert_double_lt(r.pull, 1.3237 * r.yield_pull * 1.01);
}
END_TEST

START_TEST(no_set_springs_back_whole)
{
    const rbow_pulled r = pulled_to(0);
    near_within(r.travel, r.yield_travel, 1e-12, 0);
    near_within(r.pull, r.yield_pull, 1e-12, 0);
    near_within(r.strain_over_yield, 1, 1e-12, 0);
    ck_assert(!(fabs(r.residual_stress) > 0) && !(fabs(r.yielded_length) > 0));
}
END_TEST

START_TEST(more_set_takes_more)
{
    rbow_pulled last = pulled_to(0);
    for (double set = 1e-9; set < last.most_set; set *= 1.3) {
        const rbow_pulled r = pulled_to(set);
        ck_assert_double_gt(r.pull, last.pull);
        ck_assert_double_gt(r.travel, last.travel);
        ck_assert_double_gt(r.peak_strain, last.peak_strain);
        ck_assert_double_lt(r.residual_stress, last.residual_stress);
        last = r;
    }
}
END_TEST

/* The limit from both sides. */
START_TEST(the_most_that_it_takes)
{
    const double most = pulled_to(0).most_set;
    rbow_section s;
    rbow_section_of(horn.od, horn.wall, &s);
    const rbow_pulled under = pulled_to(most * (1 - 1e-6)), over = pulled_to(most * (1 + 1e-6));
    ck_assert_int_eq(under.beyond, 0);
    near_within(under.pull, s.plastic_modulus * horn.yield / horn.length, 1e-6, 0);
    ck_assert_int_eq(over.beyond, 1);
    ck_assert(isnan(over.pull) && isnan(over.travel) && isnan(over.springback) && isnan(over.peak_strain)
              && isnan(over.strain_over_yield) && isnan(over.residual_stress) && isnan(over.yielded_length));
    near_within(over.yield_travel, under.yield_travel, 0, 0);
    near_within(over.yield_pull, under.yield_pull, 0, 0);
    near_within(over.most_set, most, 0, 0);
}
END_TEST

START_TEST(scaling)
{
    rbow_pull big = horn;
    rbow_pulled b;
    const double k = 25.4;
    big.od *= k, big.wall *= k, big.length *= k, big.set *= k;
    ck_assert_int_eq(rbow_pull_straight(&big, &b), RBOW_OK);
    const rbow_pulled r = pulled_to(horn.set);
    near_within(b.pull, r.pull * k * k, 1e-10, 0);
    near_within(b.travel, r.travel * k, 1e-10, 0);
    near_within(b.most_set, r.most_set * k, 1e-8, 0);
    near_within(b.peak_strain, r.peak_strain, 1e-8, 0);
    near_within(b.residual_stress, r.residual_stress, 1e-8, 0);
}
END_TEST

#define REFUSED(status_, member_, value_)                                                                      \
    do {                                                                                                       \
        rbow_pull p_ = horn;                                                                                   \
        rbow_pulled r_ = {0};                                                                                  \
        p_.member_ = (value_);                                                                                 \
        ck_assert_int_eq(rbow_pull_straight(&p_, &r_), status_);                                               \
        ck_assert(isnan(r_.yield_travel) && isnan(r_.yield_pull) && isnan(r_.pull) && isnan(r_.most_set));     \
    } while (0)

START_TEST(what_cannot_be_is_refused)
{
    REFUSED(RBOW_BAD_OD, od, 0);
    REFUSED(RBOW_BAD_WALL, wall, 0.626);
    REFUSED(RBOW_BAD_WALL, wall, NAN);
    REFUSED(RBOW_BAD_LENGTH, length, 0);
    REFUSED(RBOW_BAD_LENGTH, length, INFINITY);
    REFUSED(RBOW_OUT_OF_RANGE, elastic_modulus, 0);
    REFUSED(RBOW_OUT_OF_RANGE, elastic_modulus, INFINITY);
    REFUSED(RBOW_OUT_OF_RANGE, yield, -1);
    REFUSED(RBOW_OUT_OF_RANGE, yield, NAN);
    REFUSED(RBOW_OUT_OF_RANGE, set, -1e-9);
    REFUSED(RBOW_OUT_OF_RANGE, set, NAN);
    REFUSED(RBOW_OUT_OF_RANGE, set, INFINITY);
    REFUSED(RBOW_OUT_OF_RANGE, weld_yield, 0);
    REFUSED(RBOW_OUT_OF_RANGE, weld_yield, INFINITY);
    REFUSED(RBOW_OUT_OF_RANGE, weld_zone, -1e-9);
    REFUSED(RBOW_OUT_OF_RANGE, weld_zone, NAN);
    REFUSED(RBOW_OUT_OF_RANGE, weld_zone, INFINITY);
}
END_TEST

/* The weld's metal against a plain integration: moment falls in a straight line, each place yields by its own metal. */
static double plain_curvature(double moment, double yield, const rbow_pull *p)
{
    /* the round section in strips: elastic core found by halving the curvature */
    enum { STRIPS = 2000, HALVINGS = 60 };
    const double r = p->od / 2, bore = r - p->wall;
    double low = 0, high = 4000 * yield / p->elastic_modulus / r;
    for (int k = 0; k < HALVINGS; k++) {
        const double curvature = (low + high) / 2;
        double sum = 0;
        for (int i = 0; i < STRIPS; i++) {
            const double angle = M_PI / 2 * (i + 0.5) / STRIPS, y = r * sin(angle), inner = y < bore ? sqrt(bore * bore - y * y) : 0;
            const double width = 2 * (r * cos(angle) - inner), stress = fmin(p->elastic_modulus * curvature * y, yield);
            sum += 2 * width * stress * y * r * cos(angle) * M_PI / 2 / STRIPS;
        }
        *(sum < moment ? &low : &high) = curvature;
    }
    return (low + high) / 2;
}

START_TEST(the_weld_yields_first)
{
    enum { PLACES = 800 };
    rbow_pull p = horn;
    rbow_pulled r;
    p.weld_zone = 1;
    p.weld_yield = 60e3;
    p.length = 8;
    p.set = 0.02;
    ck_assert_int_eq(rbow_pull_straight(&p, &r), RBOW_OK);
    double travel = 0, yielded = 0;
    rbow_section s;
    ck_assert_int_eq(rbow_section_of(p.od, p.wall, &s), RBOW_OK);
    for (int i = 0; i < PLACES; i++) {
        const double x = p.length * (i + 0.5) / PLACES, moment = r.pull * (p.length - x), yield = x < 1 ? 60e3 : 75e3;
        travel += plain_curvature(moment, yield, &p) * (p.length - x) * p.length / PLACES;
        yielded += moment > s.section_modulus * yield ? p.length / PLACES : 0;
    }
    near_within(r.travel, travel, 1e-4, 0);
    near_within(r.yielded_length, yielded, 0, 2 * p.length / PLACES);
    near_within(r.yield_pull, s.section_modulus * 60e3 / p.length, 1e-12, 0);
    near_within(r.residual_stress, 60e3 - r.pull * p.length / s.section_modulus, 1e-12, 0);
    p.weld_zone = RBOW_UNSET; /* 1 in */
    rbow_pulled taken;
    ck_assert_int_eq(rbow_pull_straight(&p, &taken), RBOW_OK);
    near_within(taken.travel, r.travel, 1e-12, 0);
    p.weld_yield = p.yield; /* one metal: the zone's length is nothing to it */
    rbow_pulled one, two;
    ck_assert_int_eq(rbow_pull_straight(&p, &one), RBOW_OK);
    p.weld_zone = 3;
    ck_assert_int_eq(rbow_pull_straight(&p, &two), RBOW_OK);
    near_within(one.travel, two.travel, 1e-9, 0);
    near_within(one.yielded_length, two.yielded_length, 1e-9, 0);
}
END_TEST

/* A short zone, a hard tube: the border yields first where its moment is nearly the root's but its metal is softer. */
START_TEST(a_softer_tube_yields_at_the_border)
{
    rbow_pull p = horn;
    rbow_pulled r;
    rbow_section s;
    p.weld_zone = 0.5;
    p.weld_yield = 130e3;
    p.set = 0.02;
    ck_assert_int_eq(rbow_section_of(p.od, p.wall, &s), RBOW_OK);
    ck_assert_int_eq(rbow_pull_straight(&p, &r), RBOW_OK);
    near_within(r.yield_pull, s.section_modulus * 75e3 / 17.5, 1e-12, 0);
    ck_assert(r.strain_over_yield < 1 && !(fabs(r.residual_stress) > 0));
    near_within(r.yielded_length, 18 * (1 - s.section_modulus * 75e3 / (r.pull * 18)) - 0.5, 1e-9, 0);
}
END_TEST

static void fill(TCase *t)
{
    tcase_add_test(t, the_weld_yields_first);
    tcase_add_test(t, a_softer_tube_yields_at_the_border);
    tcase_add_test(t, a_published_bar);
    tcase_add_test(t, a_rectangle_in_closed_form);
    tcase_add_test(t, cores_outside_are_refused);
    tcase_add_test(t, shape_factors);
    tcase_add_test(t, the_section_in_strips);
    tcase_add_test(t, the_moment_grows_smoothly_as_the_core_shrinks);
    tcase_add_test(t, another_integration_agrees);
    tcase_add_test(t, energy_balances);
    tcase_add_test(t, what_the_parts_say_of_each_other);
    tcase_add_test(t, no_set_springs_back_whole);
    tcase_add_test(t, more_set_takes_more);
    tcase_add_test(t, the_most_that_it_takes);
    tcase_add_test(t, scaling);
    tcase_add_test(t, what_cannot_be_is_refused);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("pull", fill);
}
