/* Utilisation of each mode: published values, closed forms, and details that change nothing. */
#include "details.h"

#include <railbow/life.h>
#include <railbow/stress.h>

static const double pi = 3.14159265358979323846;
static const double mm = 1 / 25.4, newton = 1 / 4.4482216152605, mpa = 145.03773773020923; /* in, lbf, psi */

static rbow_detail ring(double throat, double limit, double od)
{
    rbow_detail d = detail_of(RBOW_DETAIL_RING_WELD, 10);
    d.throat = throat;
    d.weld_strength = limit / 0.6;
    d.weld_od = od;
    return d;
}

/* Blodgett, Design of Welded Structures, 7.4, table 5 (from memory): a weld round a tube as a line has S = pi d^2/4, J = pi d^3/4;
 * d 1.25: 1.22718 in^2, 1.53398 in^3, length 3.92699 in. */
START_TEST(weld_as_a_line)
{
    const rbow_member m = tube_of(1.25, .058, 36);
    const rbow_detail d = ring(1, 1, 1.25);
    near_within(1 / use_of(&d, &m, (rbow_section_forces){.moment_up = 0.6, .moment_right = -0.8}, RBOW_DETAIL_BY_WELD), 1.22718, 0, 6e-6);
    near_within(0.625 / use_of(&d, &m, (rbow_section_forces){.torque = -1}, RBOW_DETAIL_BY_WELD), 1.53398, 0, 6e-6);
    near_within(1 / use_of(&d, &m, (rbow_section_forces){.axial = -1}, RBOW_DETAIL_BY_WELD), 3.92699, 0, 6e-6);
    near_within(2 / use_of(&d, &m, (rbow_section_forces){.shear_right = 1}, RBOW_DETAIL_BY_WELD), 3.92699, 0, 6e-6);
}
END_TEST

/* Sarkar, Strength of Materials, 17.2, p. 380 (read, second hand): rod of 60 mm, 12 kN at 400 mm, 180 MPa on the leg as a line: leg
 * 0.94 cm, worked out 0.9438. The book takes the mean shear V/(pi d), which is half of the peak. */
START_TEST(sarkar)
{
    const rbow_member m = tube_of(60 * mm, 30 * mm, 36);
    const rbow_detail d = ring(9.438 * mm, 180 * mpa, 60 * mm);
    const rbow_section_forces f = {.moment_up = 12e3 * newton * 400 * mm, .shear_up = 12e3 * newton / 2};
    near_within(use_of(&d, &m, f, RBOW_DETAIL_BY_WELD), 1, 0, 1e-4);
}
END_TEST

/* Jindal, Machine Design, 12-6, p. 350 (read, second hand): ring of radius 50 mm, 16 kN at 300 mm, 90 MPa: leg 4.87 mm,
 * worked out 4.868. The book takes the mean shear, the largest shear stress sqrt((f_n/2)^2 + f_t^2), and a throat of 0.707 leg:
 * the terms are compared. */
START_TEST(jindal)
{
    const rbow_member m = tube_of(100 * mm, 10 * mm, 36);
    const rbow_detail d = ring(1, 1, 100 * mm);
    const double n = use_of(&d, &m, (rbow_section_forces){.moment_right = 16e3 * newton * 300 * mm}, RBOW_DETAIL_BY_WELD);
    const double t = use_of(&d, &m, (rbow_section_forces){.shear_right = 16e3 * newton / 2}, RBOW_DETAIL_BY_WELD);
    near_within(hypot(n / 2, t) / (0.707 * 90 * mpa) / mm, 4.868, 0, 1e-3);
}
END_TEST

/* AISC 360 J2.4 and Design Examples J.2A (read in part): a fillet of E70 carries 0.928 kip/in per 1/16 in of leg, with the safety
 * factor 2; and it has it by default. */
START_TEST(fillet_per_sixteenth)
{
    const rbow_member m = tube_of(1.25, .058, 36);
    rbow_detail d = detail_of(RBOW_DETAIL_RING_WELD, 10);
    d.throat = sqrt(0.5) / 16;
    const double at_limit = 1 / use_of(&d, &m, (rbow_section_forces){.axial = 1}, RBOW_DETAIL_BY_WELD) / (pi * 1.25);
    near_within(at_limit / 2, 928, 0, 0.5);
}
END_TEST

/* Every term of the sleeve and socket by hand. */
START_TEST(sleeve_and_socket_by_hand)
{
    const rbow_member m = tube_of(1.25, .058, 36);
    const rbow_section_forces f = {2000, 300, 400, 600, 30, 40};
    const rbow_detail loose = sleeve_at(18, 1.125, .058, 0);
    const double force = hypot(2000 / 4.0, 600 / (4 * 1.125 / 2));
    near_within(use_of(&loose, &m, f, RBOW_DETAIL_BY_ROSETTES), force / (0.6 * 70e3 * pi * .375 * .375 / 4), 1e-12, 0);
    near_within(use_of(&loose, &m, f, RBOW_DETAIL_BY_BEARING), force / (2.4 * .375 * .058 * 95e3), 1e-12, 0);
    rbow_section s;
    rbow_section_of(1.125, .058, &s);
    const double stress = 2000 / s.area + 500 / s.section_modulus, shear = 600 * 1.125 / 2 / s.polar_inertia;
    near_within(use_of(&loose, &m, f, RBOW_DETAIL_BY_YIELD), sqrt(stress * stress + 3 * shear * shear) / 60e3, 1e-12, 0);
    ck_assert(isnan(use_of(&loose, &m, f, RBOW_DETAIL_BY_WELD)));

    rbow_detail butt = sleeve_at(18, 1.125, .058, 1);
    ck_assert(isnan(use_of(&butt, &m, f, RBOW_DETAIL_BY_WELD)) && isnan(use_of(&butt, &m, f, RBOW_DETAIL_BY_ROSETTES)));
    butt.throat = .04;
    const double n = 2000 / (pi * 1.25) + 500 / (pi * 1.25 * 1.25 / 4), t = 600 / (pi * 1.25 * 1.25 / 2) + 2 * 50 / (pi * 1.25);
    near_within(use_of(&butt, &m, f, RBOW_DETAIL_BY_WELD), hypot(n, t) / (0.6 * 70e3 * .04), 1e-12, 0);

    const rbow_detail into = socket_at(0, 1.125, .058), over = socket_at(0, 1.5, .12);
    const double n_in = 2000 / (pi * 1.125) + 500 / (pi * 1.125 * 1.125 / 4);
    const double t_in = 600 / (pi * 1.125 * 1.125 / 2) + 2 * 50 / (pi * 1.125);
    near_within(use_of(&into, &m, f, RBOW_DETAIL_BY_WELD), hypot(n_in, t_in) / (0.6 * 70e3 * .058), 1e-12, 0);
    near_within(use_of(&over, &m, f, RBOW_DETAIL_BY_WELD), hypot(n, t) / (0.6 * 70e3 * .058), 1e-12, 0);
    near_within(use_of(&into, &m, f, RBOW_DETAIL_BY_YIELD), use_of(&loose, &m, f, RBOW_DETAIL_BY_YIELD), 1e-12, 0);
    near_within(use_of(&over, &m, f, RBOW_DETAIL_BY_YIELD), use_of(&butt, &m, f, RBOW_DETAIL_BY_YIELD), 1e-12, 0);
}
END_TEST

/* A sleeve thinner than the tube: the rosettes bear on its wall, and its wall buckles before it yields: AISC 360 table B4.1, E7.2
 * (from memory), Q = 0.038 E/(F_y D/t) + 2/3 for D/t above 0.11 E/F_y. */
START_TEST(thin_sleeve)
{
    const rbow_member m = tube_of(1.25, .058, 36);
    const rbow_section_forces push = {.axial = 500};
    const rbow_detail d = sleeve_at(18, 1.125, .015, 0);
    rbow_section s;
    rbow_section_of(1.125, .015, &s);
    const double q = 0.038 * 29e6 / (60e3 * 75) + 2.0 / 3;
    near_within(use_of(&d, &m, push, RBOW_DETAIL_BY_BEARING), 500 / 4.0 / (2.4 * .375 * .015 * 95e3), 1e-12, 0);
    near_within(use_of(&d, &m, push, RBOW_DETAIL_BY_YIELD), 500 / s.area / (q * 60e3), 1e-12, 0);
}
END_TEST

static rbow_section_forces random_forces(dice *d)
{
    return (rbow_section_forces){dice_between(d, -4000, 4000), dice_between(d, -2000, 2000), dice_between(d, -2000, 2000),
                                 dice_between(d, -2000, 2000), dice_between(d, -300, 300), dice_between(d, -300, 300)};
}

/* A place is the tube as in stress.h; a hole of no size, in a weld zone or out of it, changes nothing. A sleeve of the tube's own
 * section that carries alone is the tube with its weld yield: the same stub on both sides of the comparison. */
START_TEST(changes_nothing)
{
    dice d = {42};
    rbow_member m = tube_of(1.25, .058, 36);
    m.weld_zone = 1;
    m.dressed = .005;
    for (int i = 0; i < 200; i++) {
        const double at = i % 2 ? 0.5 : 18;
        const rbow_section_forces f = random_forces(&d);
        rbow_strength s = {.compression_yield = at < 1 ? 60e3 : 75e3, .yield = at < 1 ? 60e3 : 75e3, .column_load = 1};
        rbow_section_of(at < 1 ? 1.24 : 1.25, at < 1 ? .053 : .058, &s.section);
        const rbow_actions a = {f.axial, hypot(f.moment_up, f.moment_right), fabs(f.torque)};
        rbow_stress stress;
        ck_assert_int_eq(rbow_stress_of(&s, &a, &stress), RBOW_OK);
        const rbow_detail place = detail_of(RBOW_DETAIL_PLACE, at);
        const double use = use_of(&place, &m, f, RBOW_DETAIL_BY_YIELD);
        near_within(use, fmax(stress.utilisation_pressed, stress.utilisation_pulled), 1e-13, 0);
        rbow_detail none = hole_at(at, 0, 1 + i / 2 % 2);
        near_within(use_of(&none, &m, f, RBOW_DETAIL_BY_YIELD), use, 1e-12, 0);
        none.hole_clock = dice_between(&d, 0, 7);
        near_within(use_of(&none, &m, f, RBOW_DETAIL_BY_YIELD), use, 1e-12, 0);
        rbow_member same = tube_of(1.5, .12, 36), own = tube_of(1.125, .058, 36);
        own.weld_zone = 18;
        const rbow_detail sleeve = sleeve_at(10, 1.125, .058, 0), there = detail_of(RBOW_DETAIL_PLACE, 10);
        near_within(use_of(&sleeve, &same, f, RBOW_DETAIL_BY_YIELD), use_of(&there, &own, f, RBOW_DETAIL_BY_YIELD), 1e-13, 0);
    }
}
END_TEST

/* The border of a weld zone belongs to it, whichever rounding its place has: the weaker metal begins there. */
START_TEST(a_border_has_the_weaker_metal)
{
    dice d = {43};
    rbow_member m = tube_of(1.25, .058, 36.1);
    m.weld_zone = 1.1;
    m.dressed = .005;
    const double borders[] = {1.1, 27.94 / 25.4, 36.1 - 1.1, 35};
    for (int i = 0; i < 40; i++) {
        const rbow_section_forces f = random_forces(&d);
        const int kind = i % 2 ? RBOW_DETAIL_PLACE : RBOW_DETAIL_HOLE;
        rbow_detail border = hole_at(borders[i % 4], .1875, 2), inside = hole_at(.5, .1875, 2);
        border.kind = inside.kind = kind;
        near_within(use_of(&border, &m, f, RBOW_DETAIL_BY_YIELD), use_of(&inside, &m, f, RBOW_DETAIL_BY_YIELD), 1e-15, 0);
        ck_assert_str_eq(rbow_life_usual_curve(&border, &m), "W2");
    }
    const rbow_detail beside = detail_of(RBOW_DETAIL_PLACE, 1.1001);
    ck_assert_str_eq(rbow_life_usual_curve(&beside, &m), "4130 kt 1");
}
END_TEST

/* A hole never helps, a larger one never helps more, and no direction is worse than the worst. */
START_TEST(holes_do_not_help)
{
    dice d = {7};
    const rbow_member m = tube_of(1.25, .058, 36);
    for (int i = 0; i < 200; i++) {
        const rbow_section_forces f = random_forces(&d);
        const int walls = 1 + i % 2;
        const rbow_detail none = hole_at(18, 0, walls);
        double last = use_of(&none, &m, f, RBOW_DETAIL_BY_YIELD);
        for (double hole = .05; hole < .6; hole += .05) {
            rbow_detail worst = hole_at(18, hole, walls), toward = worst;
            const double use = use_of(&worst, &m, f, RBOW_DETAIL_BY_YIELD);
            ck_assert(use >= last);
            toward.hole_clock = dice_between(&d, 0, 6.3);
            ck_assert(use_of(&toward, &m, f, RBOW_DETAIL_BY_YIELD) <= use * (1 + 1e-12));
            last = use;
        }
    }
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, weld_as_a_line);
    tcase_add_test(c, sarkar);
    tcase_add_test(c, jindal);
    tcase_add_test(c, fillet_per_sixteenth);
    tcase_add_test(c, sleeve_and_socket_by_hand);
    tcase_add_test(c, thin_sleeve);
    tcase_add_test(c, changes_nothing);
    tcase_add_test(c, a_border_has_the_weaker_metal);
    tcase_add_test(c, holes_do_not_help);
}

int main(void)
{
    return run_tests("utilisation of details", fill);
}
