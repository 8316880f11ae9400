#include "near.h"
#include "table/text.h"
#include "table/unit.h"

#include <string.h>

static double factor(dimension d, const char *name)
{
    const unit *u = unit_find(d, name, strlen(name));
    ck_assert_msg(u != NULL, "no unit %s", name);
    ck_assert_int_eq(u->dimension, d);
    ck_assert_str_eq(u->name, name);
    return u->factor;
}

/* Want: from the definitions, in long double and by another route than the table's: the metre, kilogram and
 * newton of each unit, then a quotient. Inch 0.0254 m, pound 0.45359237 kg (exact), standard gravity
 * 9.80665 m/s^2 (exact). */
START_TEST(factors_follow_from_definitions)
{
    const long double metre = 1 / 0.0254L, kilogram = 1 / 0.45359237L, newton = kilogram / 9.80665L;
    const long double degree = 3.141592653589793238462643383279502884L / 180;
    const struct {
        dimension dimension;
        const char *name;
        long double want;
    } units[] = {
        {DIM_LENGTH, "in", 1},
        {DIM_LENGTH, "ft", 12},
        {DIM_LENGTH, "mm", metre / 1000},
        {DIM_LENGTH, "cm", metre / 100},
        {DIM_LENGTH, "m", metre},
        {DIM_FORCE, "lbf", 1},
        {DIM_FORCE, "kip", 1000},
        {DIM_FORCE, "N", newton},
        {DIM_FORCE, "kN", 1000 * newton},
        {DIM_STRESS, "psi", 1},
        {DIM_STRESS, "ksi", 1000},
        {DIM_STRESS, "MPa", 1e6L * newton / metre / metre},
        {DIM_STRESS, "GPa", 1e9L * newton / metre / metre},
        {DIM_MOMENT, "in-lbf", 1},
        {DIM_MOMENT, "ft-lbf", 12},
        {DIM_MOMENT, "N-m", newton * metre},
        {DIM_MOMENT, "N-mm", newton * metre / 1000},
        {DIM_MOMENT, "kN-m", 1000 * newton * metre},
        {DIM_FORCE_PER_LENGTH, "lbf/in", 1},
        {DIM_FORCE_PER_LENGTH, "lbf/ft", 1 / 12.0L},
        {DIM_FORCE_PER_LENGTH, "N/m", newton / metre},
        {DIM_FORCE_PER_LENGTH, "N/mm", 1000 * newton / metre},
        {DIM_ROTATIONAL_STIFFNESS, "in-lbf/rad", 1},
        {DIM_ROTATIONAL_STIFFNESS, "in-lbf/deg", 1 / degree},
        {DIM_ROTATIONAL_STIFFNESS, "N-m/rad", newton * metre},
        {DIM_DENSITY, "lb/in^3", 1},
        {DIM_DENSITY, "kg/m^3", kilogram / metre / metre / metre},
        {DIM_MASS, "lb", 1},
        {DIM_MASS, "kg", kilogram},
        {DIM_MASS_PER_LENGTH, "lb/ft", 1 / 12.0L},
        {DIM_MASS_PER_LENGTH, "lb/in", 1},
        {DIM_MASS_PER_LENGTH, "kg/m", kilogram / metre},
        {DIM_AREA, "in^2", 1},
        {DIM_AREA, "mm^2", metre * metre / 1e6L},
        {DIM_SECTION_MODULUS, "in^3", 1},
        {DIM_SECTION_MODULUS, "mm^3", metre * metre * metre / 1e9L},
        {DIM_INERTIA, "in^4", 1},
        {DIM_INERTIA, "mm^4", metre * metre * metre * metre / 1e12L},
        {DIM_ANGLE, "deg", degree},
        {DIM_ANGLE, "rad", 1},
        {DIM_TURN, "rad", 1},
    };
    size_t known = 0;
    for (int d = DIM_NONE; d < DIM_COUNT; d++)
        for (size_t i = 0; unit_at((dimension)d, i) != NULL; i++) known++;
    ck_assert_uint_eq(known, sizeof units / sizeof *units);
    for (size_t i = 0; i < known; i++)
        near_within(factor(units[i].dimension, units[i].name), (double)units[i].want, 5e-16, 0);
}
END_TEST

/* Want: NIST SP 811 (2008), appendix B.9, seven digits as printed there, from memory: lbf to N, lbf in to N m,
 * lbf/in to N/m, psi to Pa, lb/in^3 to kg/m^3, lb/ft to kg/m, kip to N, lbf/ft to N/m, lbf ft to N m. */
START_TEST(factors_agree_with_published_ones)
{
    near_within(1 / factor(DIM_FORCE, "N"), 4.448222, 0, 0.5e-6);
    near_within(1 / factor(DIM_MOMENT, "N-m"), 1.129848e-01, 0, 0.5e-7);
    near_within(1 / factor(DIM_FORCE_PER_LENGTH, "N/m"), 1.751268e+02, 0, 0.5e-4);
    near_within(1e6 / factor(DIM_STRESS, "MPa"), 6.894757e+03, 0, 0.5e-3);
    near_within(1 / factor(DIM_DENSITY, "kg/m^3"), 2.767990e+04, 0, 0.5e-2);
    near_within(factor(DIM_MASS_PER_LENGTH, "lb/ft") / factor(DIM_MASS_PER_LENGTH, "kg/m"), 1.488164, 0,
                0.5e-6);
    near_within(factor(DIM_FORCE, "kip") / factor(DIM_FORCE, "N"), 4.448222e+03, 0, 0.5e-3);
    near_within(factor(DIM_FORCE_PER_LENGTH, "lbf/ft") / factor(DIM_FORCE_PER_LENGTH, "N/m"), 1.459390e+01, 0,
                0.5e-5);
    near_within(factor(DIM_MOMENT, "ft-lbf") / factor(DIM_MOMENT, "N-m"), 1.355818, 0, 0.5e-6);
}
END_TEST

START_TEST(names_are_told_apart_by_case_and_dimension)
{
    ck_assert_ptr_null(unit_find(DIM_STRESS, "mPa", 3));
    ck_assert_ptr_null(unit_find(DIM_STRESS, "in", 2));
    ck_assert_ptr_null(unit_find(DIM_LENGTH, "i", 1));
    ck_assert_ptr_null(unit_find(DIM_LENGTH, "inch", 4));
    ck_assert_ptr_null(unit_find(DIM_LENGTH, "", 0));
    ck_assert_ptr_null(unit_find(DIM_NONE, "in", 2));
    ck_assert_str_eq(unit_find(DIM_LENGTH, "mm]", 2)->name, "mm");
}
END_TEST

/* A round value in another unit is a round value in ours. */
START_TEST(round_values_stay_round)
{
    const unit *mm = unit_find(DIM_LENGTH, "mm", 2), *kg = unit_find(DIM_MASS, "kg", 2);
    for (int i = 1; i < 1000; i++) {
        near_within(unit_to_own(mm, i * 254 / 10.0), i, 0, 0);
        near_within(unit_from_own(mm, i), i * 254 / 10.0, 3e-16, 0);
        near_within(unit_to_own(kg, i * 45359237.0 / 1e8), i, 3e-16, 0);
    }
    for (int d = DIM_LENGTH; d < DIM_COUNT; d++) {
        const unit *u;
        for (size_t i = 0; (u = unit_at((dimension)d, i)) != NULL; i++) {
            near_within(unit_to_own(u, 7.25), 7.25 * u->factor, 5e-16, 0);
            near_within(unit_from_own(u, unit_to_own(u, 7.25)), 7.25, 5e-16, 0);
        }
    }
}
END_TEST

static void shows(dimension d, const char *us, const char *si)
{
    ck_assert_str_eq(unit_shown(d, UNITS_US)->name, us);
    ck_assert_str_eq(unit_shown(d, UNITS_SI)->name, si);
}

START_TEST(results_have_one_unit_a_system)
{
    ck_assert_ptr_null(unit_shown(DIM_NONE, UNITS_US));
    ck_assert_ptr_null(unit_shown(DIM_NONE, UNITS_SI));
    shows(DIM_LENGTH, "in", "mm");
    shows(DIM_FORCE, "lbf", "N");
    shows(DIM_STRESS, "psi", "MPa");
    shows(DIM_MOMENT, "in-lbf", "N-mm");
    shows(DIM_FORCE_PER_LENGTH, "lbf/in", "N/mm");
    shows(DIM_ROTATIONAL_STIFFNESS, "in-lbf/rad", "N-m/rad");
    shows(DIM_DENSITY, "lb/in^3", "kg/m^3");
    shows(DIM_MASS, "lb", "kg");
    shows(DIM_MASS_PER_LENGTH, "lb/ft", "kg/m");
    shows(DIM_AREA, "in^2", "mm^2");
    shows(DIM_SECTION_MODULUS, "in^3", "mm^3");
    shows(DIM_INERTIA, "in^4", "mm^4");
    shows(DIM_ANGLE, "deg", "deg");
    shows(DIM_TURN, "rad", "rad");
}
END_TEST

START_TEST(names_are_listed_in_words)
{
    text said = {0};
    unit_say_names(&said, DIM_LENGTH);
    ck_assert_str_eq(said.at, "in, ft, mm, cm or m");
    text_clear(&said);
    unit_say_names(&said, DIM_ANGLE);
    ck_assert_str_eq(said.at, "deg or rad");
    text_free(&said);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, factors_follow_from_definitions);
    tcase_add_test(cases, factors_agree_with_published_ones);
    tcase_add_test(cases, round_values_stay_round);
    tcase_add_test(cases, names_are_told_apart_by_case_and_dimension);
    tcase_add_test(cases, results_have_one_unit_a_system);
    tcase_add_test(cases, names_are_listed_in_words);
}

int main(void)
{
    return run_tests("table/unit", fill);
}
