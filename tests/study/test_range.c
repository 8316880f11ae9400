/* Even steps: how many, and that they end where they should. */
#include "near.h"

#include "study/range.h"

START_TEST(counts)
{
    const struct {
        range r;
        size_t count;
    } rows[] = {
        {{0, 1, 0.1}, 11},       {{0, 0.3, 0.1}, 4},    {{0.1, 0.7, 0.1}, 7},      {{1, 0, -0.1}, 11},
        {{-90, 90, 15}, 13},     {{0, 1, 0.3}, 4},      {{0, 0.999, 0.1}, 10},     {{0, 1, 2}, 1},
        {{5, 5, 1}, 1},          {{5, 5, -1}, 1},       {{5, 5, 0}, 1},            {{0, 1e6, 1}, 1000001},
        {{0.028, 0.12, 0.001}, 93}, {{0, 100, 0.001}, 100001}, {{1e-9, 1e-8, 1e-9}, 10},
        {{0, 1, 0}, 0},          {{0, 1, -0.1}, 0},     {{1, 0, 0.1}, 0},          {{0, 1, NAN}, 0},
        {{0, 1, 1e-12}, RANGE_MOST}, {{0, 1e300, 1e-300}, RANGE_MOST},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_msg(range_count(&rows[i].r) == rows[i].count, "row %zu: %zu", i, range_count(&rows[i].r));
}
END_TEST

/* Each value within two roundings of the decimal that was meant, the last exactly `to`. */
START_TEST(no_drift)
{
    for (int scale = 1; scale <= 10000; scale *= 10)
        for (int from = -30; from <= 30; from += 7)
            for (int steps = 1; steps <= 1000; steps = 3 * steps + 1) {
                const double one = 1.0 / scale;
                const range r = {from * one, (double)(from + steps) / scale, one};
                ck_assert_uint_eq(range_count(&r), (size_t)steps + 1);
                near_within(range_at(&r, 0), r.from, 0, 0);
                near_within(range_at(&r, (size_t)steps), r.to, 0, 0);
                for (int i = 0; i <= steps; i++)
                    near_within(range_at(&r, (size_t)i), (double)(from + i) / scale, 4.5e-16, 1e-15 * (30 + steps) * one);
            }
}
END_TEST

START_TEST(an_end_that_the_steps_do_not_reach)
{
    const range r = {0, 1, 0.3};
    near_within(range_at(&r, 3), 0.9, 1e-15, 0);
    const range down = {1, 0, -0.4};
    ck_assert_uint_eq(range_count(&down), 3);
    near_within(range_at(&down, 2), 0.2, 1e-15, 1e-16);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, counts);
    tcase_add_test(cases, no_drift);
    tcase_add_test(cases, an_end_that_the_steps_do_not_reach);
}

int main(void)
{
    return run_tests("range", fill);
}
