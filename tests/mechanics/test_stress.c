/* Stresses of a solid bar by hand, and that the moments allowed are where the utilisation is 1. */
#include "near.h"

#include <railbow/stress.h>

static const double pi = 3.14159265358979323846;

static rbow_strength bar(void) /* 2 in solid: A = pi, S = pi/4, J = pi/2 */
{
    rbow_strength s = {.compression_yield = 50e3, .yield = 40e3, .column_load = 100e3};
    ck_assert_int_eq(rbow_section_of(2, 1, &s.section), RBOW_OK);
    return s;
}

static rbow_stress stress_of(const rbow_strength *s, double axial, double moment, double torque)
{
    const rbow_actions a = {axial, moment, torque};
    rbow_stress r;
    ck_assert_int_eq(rbow_stress_of(s, &a, &r), RBOW_OK);
    return r;
}

/* Statics: P/A, M c/I, T c/J; von Mises by hand. */
START_TEST(by_hand)
{
    const rbow_strength s = bar();
    rbow_stress r = stress_of(&s, 10e3 * pi, 5e3 * pi / 4, 2e3 * pi / 2);
    near_within(r.pressed, 15e3, 1e-14, 0);
    near_within(r.pulled, -5e3, 1e-14, 0);
    near_within(r.bending, 5e3, 1e-14, 0);
    near_within(r.shear, 2e3, 1e-14, 0);
    near_within(r.utilisation_pressed, sqrt(15e3 * 15e3 + 3 * 2e3 * 2e3) / 50e3, 1e-14, 0);
    near_within(r.utilisation_pulled, sqrt(3.0) * 2e3 / 40e3, 1e-14, 0); /* the fibre is pressed: shear alone */
    near_within(r.interaction, 10e3 * pi / 100e3 + sqrt(5e3 * 5e3 + 3 * 2e3 * 2e3) / 50e3, 1e-14, 0);
    r = stress_of(&s, -10e3 * pi, 5e3 * pi / 4, 0);
    near_within(r.utilisation_pulled, 15e3 / 40e3, 1e-14, 0);
    near_within(r.utilisation_pressed, 0, 0, 0);
}
END_TEST

START_TEST(allowed_moments_are_at_the_limit)
{
    const rbow_strength s = bar();
    static const double axials[] = {-60e3, -10e3, 0, 30e3, 90e3}, torques[] = {0, 5e3, 20e3};
    for (size_t i = 0; i < sizeof axials / sizeof *axials; i++) {
        for (size_t k = 0; k < sizeof torques / sizeof *torques; k++) {
            const rbow_actions a = {.axial = axials[i], .torque = torques[k]};
            double moment;
            ck_assert_int_eq(rbow_yield_moment(&s, &a, &moment), RBOW_OK);
            rbow_stress r = stress_of(&s, a.axial, moment, a.torque);
            if (moment > 0) near_within(fmax(r.utilisation_pressed, r.utilisation_pulled), 1, 1e-13, 0);
            ck_assert(moment > 0 || r.utilisation_pressed >= 1 || r.utilisation_pulled >= 1);
            ck_assert_int_eq(rbow_interaction_moment(&s, &a, &moment), RBOW_OK);
            r = stress_of(&s, a.axial, moment, a.torque);
            if (moment > 0) near_within(r.interaction, 1, 1e-13, 0);
            ck_assert(moment > 0 || r.interaction >= 1);
        }
    }
}
END_TEST

START_TEST(refused)
{
    rbow_strength s = bar();
    static const rbow_actions bad[] = {{NAN, 0, 0}, {0, -1, 0}, {0, NAN, 0}, {0, 0, -1}, {INFINITY, 0, 0}};
    rbow_stress r;
    double moment;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_int_eq(rbow_stress_of(&s, &bad[i], &r), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(r.shear) && isnan(r.bending) && isnan(r.pressed) && isnan(r.pulled) && isnan(r.utilisation_pressed)
                  && isnan(r.utilisation_pulled) && isnan(r.interaction));
    }
    const rbow_actions fine = {1, 1, 1}, twisted = {0, 0, INFINITY}, bent = {0, INFINITY, 0};
    ck_assert_int_eq(rbow_stress_of(&s, &twisted, &r), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_stress_of(&s, &bent, &r), RBOW_OUT_OF_RANGE);
    double *const strengths[] = {&s.section.area, &s.section.section_modulus, &s.section.polar_inertia, &s.section.od, &s.compression_yield,
                                 &s.yield, &s.column_load};
    for (size_t i = 0; i < sizeof strengths / sizeof *strengths; i++)
        for (int k = 0; k < 2; k++) {
            const double sound = *strengths[i];
            *strengths[i] = k == 0 ? 0 : (double)NAN;
            ck_assert_int_eq(rbow_stress_of(&s, &fine, &r), RBOW_OUT_OF_RANGE);
            ck_assert_int_eq(rbow_yield_moment(&s, &fine, &moment), RBOW_OUT_OF_RANGE);
            ck_assert(isnan(moment));
            ck_assert_int_eq(rbow_interaction_moment(&s, &fine, &moment), RBOW_OUT_OF_RANGE);
            ck_assert(isnan(moment));
            *strengths[i] = sound;
            ck_assert_int_eq(rbow_stress_of(&s, &fine, &r), RBOW_OK);
        }
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, by_hand);
    tcase_add_test(c, allowed_moments_are_at_the_limit);
    tcase_add_test(c, refused);
}

int main(void)
{
    return run_tests("stress", fill);
}
