/* What a cut tells, read back from states that the beam-column engine locked in and let go by itself. */
#include <railbow/beamcolumn.h>
#include <railbow/release.h>
#include <railbow/tube.h>

#include "near.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>

static const double od = 1.25, wall = 0.058, modulus = 29e6;

typedef struct joints { /* of one rail */
    double length, cut_at, end_a, end_b;
} joints;

typedef struct plane { /* one plane: what was locked in and what the faces did */
    double miss_a, miss_b;
    double moment_a, moment_b, at_cut, shear; /* in the beam's sign: convex toward the clock */
    double moved, turned;
} plane;

static double bending(void)
{
    rbow_section s;
    ck_assert_int_eq(rbow_section_of(od, wall, &s), RBOW_OK);
    return modulus * s.inertia;
}

static double stiffness(double end, double length)
{
    double k;
    ck_assert_int_eq(rbow_end_stiffness(end, bending(), length, &k), RBOW_OK);
    return k;
}

static rbow_prepared beam(double length, double k_a, double k_b)
{
    rbow_beam b = {.bending_stiffness = bending(), .length = length, .stiffness_a = k_a, .stiffness_b = k_b,
                   .point_at = length, .bow_at = length / 2};
    rbow_prepared prepared;
    ck_assert_int_eq(rbow_critical_load(b.bending_stiffness, length, k_a, k_b, &b.critical_load), RBOW_OK);
    ck_assert_int_eq(rbow_beam_prepare(&b, &prepared), RBOW_OK);
    return prepared;
}

/* A cantilever on its joint's spring, with a force and a moment at its tip. */
static rbow_station tip(double length, double k, double force, double moment)
{
    const rbow_prepared stub = beam(length, k, RBOW_FREE);
    const rbow_loading load = {.point_load = force, .moment_b = moment};
    rbow_solution solution;
    rbow_station s;
    rbow_beam_solve(&stub, &load, &solution);
    rbow_beam_at(&stub, &solution, length, &s);
    return s;
}

/* Forces the rail in, cuts it, and lets each stub's tip go from what it carried. */
static void lock_and_cut(const joints *j, plane *p)
{
    const double k_a = stiffness(j->end_a, j->length), k_b = stiffness(j->end_b, j->length);
    const rbow_prepared rail = beam(j->length, k_a, k_b);
    const rbow_loading forced = {.slope_a = p->miss_a / j->length, .slope_b = p->miss_b / j->length};
    rbow_solution solution;
    rbow_station a, cut, b;
    rbow_beam_solve(&rail, &forced, &solution);
    rbow_beam_at(&rail, &solution, 0, &a);
    rbow_beam_at(&rail, &solution, j->cut_at, &cut);
    rbow_beam_at(&rail, &solution, j->length, &b);
    p->moment_a = a.moment, p->moment_b = b.moment, p->at_cut = cut.moment;
    /* the force on A's face toward the clock: curls A's stub there, so the moment falls in size with x: V = M' */
    p->shear = cut.moment_slope;
    /* the stubs as they were loaded; B's is seen from B, where its force is the other way and slopes change sign */
    const rbow_station stub_a = tip(j->cut_at, k_a, p->shear, p->at_cut);
    const rbow_station stub_b = tip(j->length - j->cut_at, k_b, -p->shear, p->at_cut);
    p->moved = stub_a.deflection - stub_b.deflection;
    p->turned = stub_a.slope + stub_b.slope;
}

static const joints rails[] = {
    {42, 14, RBOW_SOFT_WELD, RBOW_SOFT_WELD}, {42, 21, RBOW_SOFT_WELD, RBOW_SOFT_WELD}, {30, 29, RBOW_FIXED, RBOW_FIXED},
    {24, 3, RBOW_FIXED, RBOW_SOFT_WELD},   {36, 20, 40000, RBOW_FIXED},        {36, 10, 500, 250000},
    {60, 30, RBOW_SOFT_WELD, 1e6},
};
enum { RAILS = sizeof rails / sizeof *rails };

static rbow_cut cut_of(const joints *j, const plane *up, const plane *right)
{
    return (rbow_cut){.od = od, .wall = wall, .elastic_modulus = modulus, .length = j->length, .cut_at = j->cut_at,
                      .end_a = j->end_a, .end_b = j->end_b, .moved = hypot(up->moved, right->moved),
                      .moved_clock = atan2(right->moved, up->moved), .turned = hypot(up->turned, right->turned),
                      .turned_clock = atan2(right->turned, up->turned), .gap_stiffness = INFINITY};
}

/* A vector by its size and clock, against its two parts. */
static void is_vector(double size, double clock, double up, double right)
{
    const double close = 1e-9 * hypot(up, right) + 1e-9;
    ck_assert(size > 0 ? clock >= 0 && clock < 2 * M_PI : size >= 0 && isnan(clock));
    if (!(size > 0)) clock = 0;
    near_within(size * cos(clock), up, 0, close);
    near_within(size * sin(clock), right, 0, close);
}

static void check_round_trip(const joints *j, plane up, plane right)
{
    rbow_section s;
    rbow_released r;
    rbow_section_of(od, wall, &s);
    lock_and_cut(j, &up);
    lock_and_cut(j, &right);
    const rbow_cut cut = cut_of(j, &up, &right);
    ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
    is_vector(r.shear, r.shear_clock, up.shear, right.shear);
    is_vector(r.moment_at_cut, r.moment_clock, -up.at_cut, -right.at_cut); /* curls: concave toward its clock */
    is_vector(r.miss_a, r.miss_a_clock, up.miss_a, right.miss_a);
    is_vector(r.miss_b, r.miss_b_clock, up.miss_b, right.miss_b);
    const double a = hypot(up.moment_a, right.moment_a), b = hypot(up.moment_b, right.moment_b);
    near_within(r.moment_a, a, 1e-9, 1e-9);
    near_within(r.moment_b, b, 1e-9, 1e-9);
    near_within(r.fit_stress, fmax(a, b) / s.section_modulus, 1e-9, 1e-9);
    ck_assert(!(fabs(r.fit_axial) > 0));
}

START_TEST(what_was_locked_in_is_read_back)
{
    const plane planes[] = {{.miss_a = 0.2, .miss_b = 0.05}, {.miss_a = 0.1, .miss_b = -0.3}, {.miss_a = -0.15, .miss_b = 0.15},
                            {.miss_a = 0.02, .miss_b = -0.02}};
    for (int i = 0; i < RAILS; i++)
        for (int u = 0; u < 4; u++)
            for (int r = 0; r < 4; r++)
                if (u != r) check_round_trip(&rails[i], planes[u], planes[r]);
}
END_TEST

/* Fixed ends, a side step D of the landing cut in the middle: shear 12EI D/L^3, no moment there, and the faces move by
 * D, the stubs staying parallel (any book of structures: the fixed beam with a settled support). */
START_TEST(a_side_step_by_hand)
{
    const double d = 0.125, l = 40;
    const rbow_cut cut = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = l, .cut_at = l / 2,
                          .end_a = RBOW_FIXED, .end_b = RBOW_FIXED, .moved = d, .turned = 0, .gap_stiffness = INFINITY};
    rbow_released r;
    ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
    near_within(r.shear, 12 * bending() * d / (l * l * l), 1e-12, 0);
    near_within(r.moment_a, 6 * bending() * d / (l * l), 1e-12, 0);
    near_within(r.moment_b, 6 * bending() * d / (l * l), 1e-12, 0);
    near_within(r.miss_a, d, 1e-12, 0);
    near_within(r.miss_b, d, 1e-12, 0);
    near_within(fabs(remainder(r.miss_a_clock - r.miss_b_clock, 2 * M_PI)), M_PI, 0, 1e-9);
    ck_assert(isnan(r.moment_clock) || r.moment_at_cut < 1e-9);
}
END_TEST

/* The elastic energy of both stubs and joints, by Simpson's rule (exact: M^2 is a parabola) on M(x) = V(a - x) + M. */
static double energy(const joints *j, double v, double m)
{
    const double at_a = v * j->cut_at + m, at_b = m - v * (j->length - j->cut_at), middle = (at_a + at_b) / 2;
    return j->length / 6 * (at_a * at_a + 4 * middle * middle + at_b * at_b) / (2 * bending())
        + at_a * at_a / stiffness(j->end_a, j->length) / 2 + at_b * at_b / stiffness(j->end_b, j->length) / 2;
}

/* The shear that, with a moment at the cut, moves the faces by as much: the stubs' own movements are linear. */
static double shear_for(const joints *j, double moved, double moment)
{
    const double k_a = stiffness(j->end_a, j->length), k_b = stiffness(j->end_b, j->length), b = j->length - j->cut_at;
    const double by_shear = tip(j->cut_at, k_a, 1, 0).deflection + tip(b, k_b, 1, 0).deflection;
    const double by_moment = -tip(j->cut_at, k_a, 0, 1).deflection + tip(b, k_b, 0, 1).deflection;
    return (moved - moment * by_moment) / by_shear;
}

START_TEST(without_the_angle_it_is_the_least)
{
    for (int i = 0; i < RAILS; i++) {
        const joints *j = &rails[i];
        rbow_cut cut = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = j->length, .cut_at = j->cut_at,
                        .end_a = j->end_a, .end_b = j->end_b, .moved = 0.19, .moved_clock = 2.5, .turned = NAN,
                        .turned_clock = NAN, .gap_stiffness = INFINITY};
        rbow_released r;
        ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
        ck_assert(!(r.moment_at_cut > 0));
        ck_assert(isnan(r.moment_clock));
        near_within(r.shear, shear_for(j, cut.moved, 0), 1e-9, 0);
        near_within(r.shear_clock, 2.5, 1e-12, 0);
        const double least = energy(j, r.shear, 0), size = r.shear * j->length;
        for (double m = -size; m <= size; m += size / 8)
            if (fabs(m) > size / 100) ck_assert_double_gt(energy(j, shear_for(j, cut.moved, m), m), least);
    }
}
END_TEST

/* Reading the angle that the least-energy state itself would give adds nothing. */
START_TEST(the_two_bases_meet)
{
    rbow_released free_of, read;
    const joints *j = &rails[0];
    rbow_cut cut = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = j->length, .cut_at = j->cut_at,
                    .end_a = j->end_a, .end_b = j->end_b, .moved = 0.1, .turned = NAN, .gap_stiffness = INFINITY};
    ck_assert_int_eq(rbow_release(&cut, &free_of), RBOW_OK);
    const double k = stiffness(RBOW_SOFT_WELD, j->length);
    const double turned = tip(j->cut_at, k, free_of.shear, 0).slope + tip(j->length - j->cut_at, k, -free_of.shear, 0).slope;
    cut.turned = fabs(turned), cut.turned_clock = turned < 0 ? M_PI : 0;
    ck_assert_int_eq(rbow_release(&cut, &read), RBOW_OK);
    near_within(read.shear, free_of.shear, 1e-9, 0);
    near_within(read.moment_at_cut, 0, 0, 1e-6);
    near_within(read.fit_stress, free_of.fit_stress, 1e-9, 0);
}
END_TEST

START_TEST(a_gap_that_opened_was_tension)
{
    rbow_section s;
    rbow_released r;
    rbow_section_of(od, wall, &s);
    rbow_cut cut = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = 42, .cut_at = 14, .end_a = RBOW_FIXED,
                    .end_b = RBOW_FIXED, .turned = 0, .opened = 0.012, .gap_stiffness = INFINITY};
    ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
    const double rigid = modulus * s.area * 0.012 / 42;
    near_within(r.fit_axial, -rigid, 1e-12, 0);
    near_within(r.fit_stress, modulus * 0.012 / 42, 1e-12, 0); /* E times strain */
    ck_assert(isnan(r.shear_clock) && isnan(r.miss_a_clock));
    cut.gap_stiffness = modulus * s.area / 42; /* surroundings as soft as the tube take half */
    cut.opened = -0.012;
    ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
    near_within(r.fit_axial, rigid / 2, 1e-12, 0);
    near_within(r.fit_stress, modulus * 0.006 / 42, 1e-12, 0);
    cut.opened = 0;
    ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
    ck_assert(!signbit(r.fit_axial) && !(r.fit_axial > 0));
}
END_TEST

START_TEST(swapping_the_joints_mirrors)
{
    const rbow_cut cut = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = 40, .cut_at = 11,
                          .end_a = RBOW_SOFT_WELD, .end_b = 90000, .moved = 0.1, .moved_clock = 0.5, .turned = 0.004,
                          .turned_clock = 2, .opened = 0.003, .gap_stiffness = 1e5};
    rbow_cut other = cut;
    rbow_released r, m;
    other.end_a = cut.end_b, other.end_b = cut.end_a, other.cut_at = cut.length - cut.cut_at;
    other.moved_clock += M_PI; /* the other face, the other way; the angle between the stubs opens the same way */
    ck_assert_int_eq(rbow_release(&cut, &r), RBOW_OK);
    ck_assert_int_eq(rbow_release(&other, &m), RBOW_OK);
    near_within(m.moment_a, r.moment_b, 1e-12, 0);
    near_within(m.moment_b, r.moment_a, 1e-12, 0);
    near_within(m.shear, r.shear, 1e-12, 0);
    near_within(m.moment_at_cut, r.moment_at_cut, 1e-12, 0);
    near_within(m.moment_clock, r.moment_clock, 1e-12, 0);
    near_within(m.miss_a, r.miss_b, 1e-12, 0);
    near_within(m.miss_b_clock, r.miss_a_clock, 1e-12, 0);
    near_within(m.fit_stress, r.fit_stress, 1e-12, 0);
    near_within(m.fit_axial, r.fit_axial, 1e-12, 0);
}
END_TEST

static void refused(rbow_cut cut, rbow_status want)
{
    rbow_released r = {0};
    ck_assert_int_eq(rbow_release(&cut, &r), want);
    ck_assert(isnan(r.fit_axial) && isnan(r.shear) && isnan(r.moment_a) && isnan(r.fit_stress) && isnan(r.miss_b_clock));
}

#define REFUSED(status_, member_, value_)                                                                      \
    do {                                                                                                       \
        rbow_cut cut_ = sound;                                                                                 \
        cut_.member_ = (value_);                                                                               \
        refused(cut_, status_);                                                                                \
    } while (0)

START_TEST(what_cannot_be_is_refused)
{
    const rbow_cut sound = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = 42, .cut_at = 14,
                            .end_a = RBOW_SOFT_WELD, .end_b = RBOW_SOFT_WELD, .moved = 0.1, .turned = 0.01, .gap_stiffness = 1e5};
    rbow_released r;
    ck_assert_int_eq(rbow_release(&sound, &r), RBOW_OK);
    REFUSED(RBOW_BAD_OD, od, 0);
    REFUSED(RBOW_BAD_WALL, wall, 0.7);
    REFUSED(RBOW_OUT_OF_RANGE, elastic_modulus, 0);
    REFUSED(RBOW_OUT_OF_RANGE, elastic_modulus, INFINITY);
    REFUSED(RBOW_BAD_LENGTH, length, 0);
    REFUSED(RBOW_BAD_LENGTH, length, NAN);
    REFUSED(RBOW_BAD_CUT, cut_at, 0);
    REFUSED(RBOW_BAD_CUT, cut_at, 42);
    REFUSED(RBOW_BAD_CUT, cut_at, NAN);
    REFUSED(RBOW_LOOSE_END_A, end_a, RBOW_PINNED);
    REFUSED(RBOW_LOOSE_END_A, end_a, RBOW_FREE);
    REFUSED(RBOW_LOOSE_END_A, end_a, NAN);
    REFUSED(RBOW_LOOSE_END_B, end_b, RBOW_PINNED);
    REFUSED(RBOW_LOOSE_END_B, end_b, RBOW_FREE);
    REFUSED(RBOW_LOOSE_END_B, end_b, -1);
    REFUSED(RBOW_BAD_GAP_STIFFNESS, gap_stiffness, 0);
    REFUSED(RBOW_BAD_GAP_STIFFNESS, gap_stiffness, NAN);
    REFUSED(RBOW_NOT_FINITE, moved, NAN);
    REFUSED(RBOW_NOT_FINITE, moved_clock, INFINITY);
    REFUSED(RBOW_NOT_FINITE, turned, INFINITY);
    REFUSED(RBOW_NOT_FINITE, turned_clock, NAN);
    REFUSED(RBOW_NOT_FINITE, opened, NAN);
    REFUSED(RBOW_STRESS_OVERFLOW, opened, 1e308);
}
END_TEST

/* What nobody knows of a weld is taken at its worst: each corner as the joints that it stands for. */
START_TEST(welded_joints_are_taken_at_their_worst)
{
    static const double ends[4][2] = {{RBOW_SOFT_WELD, RBOW_SOFT_WELD}, {RBOW_SOFT_WELD, RBOW_FIXED}, {RBOW_FIXED, RBOW_SOFT_WELD},
                                      {RBOW_FIXED, RBOW_FIXED}};
    static const int names[4] = {RBOW_JOINTS_SOFT, RBOW_JOINTS_SOFT_STIFF, RBOW_JOINTS_STIFF_SOFT, RBOW_JOINTS_STIFF};
    for (int k = 1; k < 40; k++) {
        rbow_cut c = {.od = od, .wall = wall, .elastic_modulus = modulus, .length = 40, .cut_at = k, .moved = 0.1, .moved_clock = 0.4,
                      .turned = k % 2 ? (double)NAN : 0.002 * k, .turned_clock = 2, .opened = 0.01, .gap_stiffness = 1e5};
        rbow_released all, one;
        double most = 0, least = INFINITY;
        int at = RBOW_JOINTS_NONE;
        for (int i = 0; i < 4; i++) {
            c.end_a = ends[i][0];
            c.end_b = ends[i][1];
            ck_assert_int_eq(rbow_release(&c, &one), RBOW_OK);
            ck_assert_int_eq(one.joints_taken, RBOW_JOINTS_NONE);
            near_within(one.fit_stress_low, one.fit_stress, 0, 0);
            if (one.fit_stress > most * (1 + 1e-12)) at = names[i];
            most = fmax(most, one.fit_stress);
            least = fmin(least, one.fit_stress);
        }
        c.end_a = c.end_b = RBOW_WELDED;
        ck_assert_int_eq(rbow_release(&c, &all), RBOW_OK);
        near_within(all.fit_stress, most, 1e-12, 0);
        near_within(all.fit_stress_low, least, 1e-12, 0);
        ck_assert_int_eq(all.joints_taken, at);
    }
}
END_TEST

static void fill(TCase *t)
{
    tcase_add_test(t, welded_joints_are_taken_at_their_worst);
    tcase_add_test(t, what_was_locked_in_is_read_back);
    tcase_add_test(t, a_side_step_by_hand);
    tcase_add_test(t, without_the_angle_it_is_the_least);
    tcase_add_test(t, the_two_bases_meet);
    tcase_add_test(t, a_gap_that_opened_was_tension);
    tcase_add_test(t, swapping_the_joints_mirrors);
    tcase_add_test(t, what_cannot_be_is_refused);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("release", fill);
}
