/* Lines of a working: how numbers take the places of a formula. Expected lines by hand. */
#include "near.h"

#include "working/steps.h"

#include <string.h>

START_TEST(numbers_take_the_places_in_order)
{
    static working w;
    working_step(&w, "area", "A = t (D - t)", "# x (# - #)", (const double[]){0.5, 2, 0.5}, 3, 0.75, "in^2", "textbook");
    ck_assert_uint_eq(w.count, 1);
    ck_assert_str_eq(w.rows[0].numbers.at, "0.5 x (2 - 0.5)");
    ck_assert_str_eq(w.rows[0].result, "0.75");
    ck_assert_str_eq(w.rows[0].source, "textbook");
    near_within(w.rows[0].value, 0.75, 0, 0);
    working_free(&w);
}
END_TEST

START_TEST(a_negative_number_gets_brackets_unless_it_is_first)
{
    static working w;
    working_step(&w, "s", "f", "# + #", (const double[]){-1, -2}, 2, -3, "", "");
    ck_assert_str_eq(w.rows[0].numbers.at, "-1 + (-2)");
    ck_assert_str_eq(w.rows[0].result, "-3");
    working_free(&w);
}
END_TEST

START_TEST(what_is_no_number_is_said)
{
    static working w;
    working_step(&w, "s", "f", "min(#, #)", (const double[]){INFINITY, (double)NAN}, 2, -INFINITY, "", "");
    ck_assert_str_eq(w.rows[0].numbers.at, "min(no limit, -)");
    ck_assert_str_eq(w.rows[0].result, "-no limit");
    working_step(&w, "s", "f", "1", NULL, 0, -0.0, "", "");
    ck_assert_str_eq(w.rows[1].result, "0"); /* no minus before nought */
    working_free(&w);
}
END_TEST

START_TEST(ten_digits)
{
    static working w;
    working_step(&w, "s", "f", "#", (const double[]){2.0 / 3}, 1, 1e6 / 7, "", "");
    ck_assert_str_eq(w.rows[0].numbers.at, "0.6666666667");
    ck_assert_str_eq(w.rows[0].result, "142857.1429");
    working_free(&w);
}
END_TEST

START_TEST(beyond_the_most_the_last_row_gives_way)
{
    static working w;
    for (int i = 0; i < WORKING_ROWS_MOST + 3; i++)
        working_step(&w, "s", "f", "#", (const double[]){(double)i}, 1, (double)i, "", "");
    ck_assert_uint_eq(w.count, WORKING_ROWS_MOST);
    near_within(w.rows[WORKING_ROWS_MOST - 1].value, WORKING_ROWS_MOST + 2, 0, 0);
    ck_assert(!working_failed(&w));
    working_free(&w);
    ck_assert_uint_eq(w.count, 0);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, numbers_take_the_places_in_order);
    tcase_add_test(c, a_negative_number_gets_brackets_unless_it_is_first);
    tcase_add_test(c, what_is_no_number_is_said);
    tcase_add_test(c, ten_digits);
    tcase_add_test(c, beyond_the_most_the_last_row_gives_way);
}

int main(void)
{
    return run_tests("steps", fill);
}
