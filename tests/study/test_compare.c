/* Another tube for a case: against the check of a member with that tube, and textbook weights. */
#include "study/members.h"

#include "study/compare.h"

#include <string.h>

static double area_of(double od, double wall)
{
    return pi * wall * (od - wall);
}

static double inertia_of(double od, double wall)
{
    return pi / 64 * (pow(od, 4) - pow(od - 2 * wall, 4));
}

START_TEST(any_tube_as_if_the_row_had_it)
{
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    for (int i = 0; i < 200; i++) {
        const rbow_member m = any_member(r);
        const problem p = problem_of(&m);
        const tube t = {i % 2 == 0 ? 0 : dice(r, 0.75, 2), dice(r, 0.02, 0.2)};
        const compared c = compare_tube(&p, t);
        rbow_member edited = m;
        edited.wall = t.wall;
        if (t.od > 0) edited.od = t.od;
        rbow_result want;
        ck_assert_int_eq(c.status, rbow_member_check(&edited, &steel, &want));
        ck_assert_int_eq(c.status, RBOW_OK);
        ck_assert(is_same(c.result.margin, want.margin) && c.result.governs == want.governs && is_same(c.od, edited.od));
        const double weight = 0.283 * m.length * area_of(edited.od, edited.wall);
        near_within(c.weight, weight, 1e-12, 0);
        near_within(c.weight_change, weight - 0.283 * m.length * area_of(m.od, m.wall), 1e-11, 1e-12);
        near_within(c.stiffness_change, inertia_of(edited.od, edited.wall) / inertia_of(m.od, m.wall) - 1, 1e-10, 1e-11);
    }
    gsl_rng_free(r);
}
END_TEST

/* Welded at both ends means a fixity of 2 whatever the tube; a stiffness number stays, so a stiffer tube finds it
 * nearer to a pin: L' grows. */
START_TEST(ends_named_and_in_numbers)
{
    rbow_member m = rail();
    m.end_a = m.end_b = RBOW_WELDED;
    const problem welded = problem_of(&m);
    m.end_a = m.end_b = 20000;
    const problem sprung = problem_of(&m);
    double before = 0;
    for (double wall = 0.035; wall < 0.2; wall += 0.02) {
        const tube t = {0, wall};
        near_within(compare_tube(&welded, t).result.effective_length, 36 / sqrt(2), 1e-9, 0);
        const double length = compare_tube(&sprung, t).result.effective_length;
        ck_assert(length > before);
        before = length;
    }
}
END_TEST

START_TEST(tubes_that_cannot_be)
{
    rbow_member m = rail();
    problem p = problem_of(&m);
    const struct {
        tube t;
        rbow_status why;
    } rows[] = {
        {{0, 0.63}, RBOW_BAD_WALL},      {{0, 0.625}, RBOW_OK},          {{1, 0.51}, RBOW_BAD_WALL},
        {{0, 0.001}, RBOW_WALL_RULE},    {{0, 1.25 / (0.45 * 29e6 / 75e3) * 1.001}, RBOW_OK},
        {{0, 1.25 / (0.45 * 29e6 / 75e3) * 0.999}, RBOW_WALL_RULE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_int_eq(compare_tube(&p, rows[i].t).status, rows[i].why);

    rbow_material thin = steel;
    thin.wall_up_to = 0.1;
    p.materials = &thin;
    const tube thick = {0, 0.12}, both = {0, 0.7};
    ck_assert_int_eq(compare_tube(&p, thick).status, RBOW_WALL_NOT_SERVED);
    ck_assert_int_eq(compare_tube(&p, both).status, RBOW_BAD_WALL); /* what is wrong with the tube comes first */
    ck_assert(isnan(compare_tube(&p, thick).weight));
}
END_TEST

START_TEST(the_density_and_modulus_of_the_row_that_serves)
{
    rbow_material rows[2] = {steel, steel};
    rows[0].wall_up_to = rows[1].wall_over = 0.1;
    rows[1].density = 0.1;
    rows[1].elastic_modulus = 10e6;
    const rbow_member m = rail();
    const problem p = {m, "steel", rows, 2, NULL};
    const tube t = {0, 0.12};
    const compared c = compare_tube(&p, t);
    near_within(c.weight, 0.1 * 36 * area_of(1.25, 0.12), 1e-12, 0);
    near_within(c.weight_change, 36 * (0.1 * area_of(1.25, 0.12) - 0.283 * area_of(1.25, 0.058)), 1e-11, 0);
    near_within(c.stiffness_change, 10 * inertia_of(1.25, 0.12) / (29 * inertia_of(1.25, 0.058)) - 1, 1e-11, 0);
}
END_TEST

/* A row of one case with one tube. */
static compare_row made(const char *part, double od, double weight, int verdict, rbow_status status)
{
    return (compare_row){.part = part, .tried = {.od = od, .weight = weight, .status = status, .result = {.verdict = verdict}}};
}

static void number(compare_row rows[], size_t count, size_t tubes)
{
    for (size_t i = 0; i < count; i++) rows[i].tube = i % tubes, rows[i].tubes = tubes;
    ck_assert(compare_parts(rows, count));
}

START_TEST(the_lightest)
{
    compare_row all[] = {
        made("a", 1.5, 2, RBOW_SHORT, RBOW_OK),        made("a", 1.5, 3, RBOW_HOLDS, RBOW_OK),
        made("a", 1.25, 3 * (1 + 1e-15), RBOW_HOLDS, RBOW_OK), made("a", 1.0, 1, RBOW_HOLDS, RBOW_BAD_WALL),
        made("a", 1.0, 4, RBOW_HOLDS, RBOW_OK),        made("a", 1.25, 3, RBOW_HOLDS, RBOW_OK),
    };
    number(all, 6, 6); /* a tie to the smaller diameter, then to the first */
    for (int i = 0; i < 6; i++) ck_assert_int_eq(all[i].pick, i == 2 ? COMPARE_LIGHTEST : COMPARE_NOT_PICKED);
    number(all, 1, 1);
    ck_assert_int_eq(all[0].pick, COMPARE_NOT_PICKED);
    ck_assert(compare_parts(all, 0));
}
END_TEST

/* Random verdicts of up to five parts, their cases in any order: against a plain search. */
START_TEST(parts_against_brute_force)
{
    enum { CASES = 12, TUBES = 4 };
    static const char *const names[] = {"a", "b", "aa", "", "b "};
    static const double ods[TUBES] = {1.5, 1.25, 1.5, 1}, weights[TUBES] = {2, 2, 1, 3};
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    for (int n = 0; n < 500; n++) {
        compare_row rows[CASES * TUBES];
        for (size_t i = 0; i < CASES; i++) {
            const char *part = names[gsl_rng_uniform_int(r, 5)];
            for (size_t t = 0; t < TUBES; t++)
                rows[i * TUBES + t] = made(part, ods[t], weights[t], gsl_rng_uniform_int(r, 6) > 0 ? RBOW_HOLDS : RBOW_SHORT, RBOW_OK);
        }
        number(rows, CASES * TUBES, TUBES);
        for (size_t i = 0; i < CASES; i++) {
            size_t best = TUBES, first = CASES;
            for (size_t t = 0; t < TUBES; t++) {
                bool holds = true;
                for (size_t k = 0; k < CASES; k++) {
                    if (strcmp(rows[k * TUBES].part, rows[i * TUBES].part) != 0) continue;
                    first = first < k ? first : k;
                    holds = holds && rows[k * TUBES + t].tried.result.verdict == RBOW_HOLDS;
                }
                const bool lighter = best == TUBES || weights[t] < weights[best] || (weights[t] <= weights[best] && ods[t] < ods[best]);
                if (holds && lighter) best = t;
            }
            for (size_t t = 0; t < TUBES; t++) {
                ck_assert_int_eq(rows[i * TUBES + t].pick, t == best ? COMPARE_LIGHTEST : COMPARE_NOT_PICKED);
                ck_assert_int_eq(rows[i * TUBES + t].weighs, i == first);
                ck_assert_int_eq(rows[i * TUBES + t].unlike, 0);
            }
        }
    }
    gsl_rng_free(r);
}
END_TEST

/* The heaviest weighs, whatever the order, and the others are told. */
START_TEST(a_part_of_unlike_tubes)
{
    compare_row rows[] = {made("a", 1, 2, RBOW_HOLDS, RBOW_OK), made("a", 1, 3, RBOW_HOLDS, RBOW_OK), made("a", 1, 2, RBOW_HOLDS, RBOW_OK),
                          made("b", 1, 1, RBOW_HOLDS, RBOW_OK)};
    number(rows, 4, 1);
    for (int i = 0; i < 4; i++) {
        ck_assert_int_eq(rows[i].weighs, i == 1 || i == 3);
        ck_assert_int_eq(rows[i].unlike, i == 0 || i == 2);
    }
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, any_tube_as_if_the_row_had_it);
    tcase_add_test(cases, ends_named_and_in_numbers);
    tcase_add_test(cases, tubes_that_cannot_be);
    tcase_add_test(cases, the_density_and_modulus_of_the_row_that_serves);
    tcase_add_test(cases, the_lightest);
    tcase_add_test(cases, parts_against_brute_force);
    tcase_add_test(cases, a_part_of_unlike_tubes);
}

int main(void)
{
    return run_tests("compare", fill);
}
