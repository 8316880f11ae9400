#include "sample.h"

static void nearest(const char *given, const char *want)
{
    const char *got = field_nearest(&sample_list, given);
    if (want == NULL) ck_assert_ptr_null(got);
    else ck_assert_msg(got != NULL && strcmp(got, want) == 0, "%s: %s", given, got);
}

START_TEST(fields_are_found_by_name)
{
    ck_assert_ptr_eq(field_find(&sample_list, "length"), &sample_fields[2]);
    ck_assert_ptr_eq(field_find(&sample_list, "LENGth"), &sample_fields[2]);
    ck_assert_ptr_null(field_find(&sample_list, "leng"));
    ck_assert_ptr_null(field_find(&sample_list, "lengths"));
    ck_assert_ptr_null(field_find(&sample_list, ""));
}
END_TEST

START_TEST(the_nearest_name_is_guessed)
{
    nearest("lenght", "length");
    nearest("LENGTHS", "length");
    nearest("leng", "length");
    nearest("len", "length"); /* cut short */
    nearest("lent", "length");
    nearest("lod", "load");
    nearest("nmae", "name");
    nearest("xy", NULL);
    nearest("", NULL);
    nearest("q", NULL);
    nearest("e", NULL);
    nearest("completely other", NULL);
    char endless[1000];
    memset(endless, 'e', sizeof endless);
    endless[sizeof endless - 1] = '\0';
    nearest(endless, NULL);
    ck_assert_str_eq(field_nearest_word(field_find(&sample_list, "shape"), "SIN"), "sine");
    ck_assert_ptr_null(field_nearest_word(field_find(&sample_list, "shape"), "parabola"));
    ck_assert_ptr_null(field_nearest_word(field_find(&sample_list, "length"), "sine"));
}
END_TEST

START_TEST(records_are_read_and_filled_by_field)
{
    sample s;
    field_defaults(&sample_list, &s);
    ck_assert_str_eq(s.name, "");
    ck_assert_str_eq(s.note, "");
    ck_assert_int_eq(s.shape, SHAPE_ARC);
    near_within(s.share, 0.5, 0, 0);
    ck_assert_str_eq(field_text(field_find(&sample_list, "shape"), &s), "arc");
    ck_assert_str_eq(field_text(field_find(&sample_list, "end"), &s), "pinned");
    s.end = INFINITY;
    ck_assert_str_eq(field_text(field_find(&sample_list, "end"), &s), "fixed");
    s.end = 12;
    ck_assert_ptr_null(field_text(field_find(&sample_list, "end"), &s));
    ck_assert_ptr_null(field_text(field_find(&sample_list, "length"), &s));
    s.shape = 99;
    ck_assert_ptr_null(field_text(field_find(&sample_list, "shape"), &s));
    field_set(field_find(&sample_list, "length"), &s, 7.25);
    near_within(s.length, 7.25, 0, 0);
    near_within(field_get(field_find(&sample_list, "length"), &s), 7.25, 0, 0);
}
END_TEST

START_TEST(a_word_may_stand_for_nan)
{
    static const field_word words[] = {{"unknown", NAN}, {NULL, 0}};
    const field f = {.name = "x", .kind = FIELD_EITHER, .words = words};
    double value = NAN;
    ck_assert_str_eq(field_text(&f, &value), "unknown");
    value = 0;
    ck_assert_ptr_null(field_text(&f, &value));
}
END_TEST

static void bounds(field f, const char *unit_name, const char *want)
{
    text said = {0};
    field_say_bounds(&said, &f,
                     unit_name != NULL ? unit_find(f.dimension, unit_name, strlen(unit_name)) : NULL);
    ck_assert_str_eq(said.at, want);
    text_free(&said);
}

START_TEST(bounds_are_said_in_words)
{
    const int both = FIELD_ABOVE | FIELD_BELOW;
    bounds((field){.most = INFINITY, .rule = FIELD_ABOVE}, NULL, "must be above 0");
    bounds((field){.most = INFINITY}, NULL, "must be at least 0");
    bounds((field){.least = -INFINITY, .most = 3}, NULL, "must be at most 3");
    bounds((field){.least = -INFINITY, .most = 3, .rule = FIELD_BELOW}, NULL, "must be below 3");
    bounds((field){.least = -INFINITY, .most = INFINITY}, NULL, "must be finite");
    bounds((field){.least = 1, .most = 2}, NULL, "must lie between 1 and 2");
    bounds((field){.least = 1, .most = 2, .rule = both}, NULL, "must be above 1 and below 2");
    bounds((field){.least = 1, .most = 2, .rule = FIELD_ABOVE}, NULL, "must be above 1 and at most 2");
    bounds((field){.least = 1, .most = 2, .rule = FIELD_BELOW}, NULL, "must be at least 1 and below 2");
    bounds((field){.dimension = DIM_LENGTH, .most = INFINITY, .rule = FIELD_ABOVE}, "mm", "must be above 0");
    bounds((field){.dimension = DIM_LENGTH, .most = 2}, "mm", "must lie between 0 and 50.8 mm");
    bounds((field){.dimension = DIM_LENGTH, .least = 2, .most = INFINITY}, "mm", "must be at least 50.8 mm");
    bounds(*field_find(&sample_list, "slope"), "deg", "must lie between -90 and 90 deg");
}
END_TEST

START_TEST(bounds_are_kept)
{
    const field half_open = {.least = 1, .most = 2, .rule = FIELD_ABOVE};
    const field other_half = {.least = 1, .most = 2, .rule = FIELD_BELOW};
    const field free_field = {.least = -INFINITY, .most = INFINITY};
    ck_assert(!field_allows(&half_open, 1) && field_allows(&half_open, 2) && field_allows(&half_open, 1.5));
    ck_assert(field_allows(&other_half, 1) && !field_allows(&other_half, 2));
    ck_assert(!field_allows(&half_open, 0.5) && !field_allows(&half_open, 2.5));
    ck_assert(field_allows(&free_field, -1e308));
    ck_assert(!field_allows(&free_field, INFINITY) && !field_allows(&free_field, -INFINITY));
    ck_assert(!field_allows(&free_field, NAN) && !field_allows(&half_open, NAN));
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, fields_are_found_by_name);
    tcase_add_test(cases, the_nearest_name_is_guessed);
    tcase_add_test(cases, records_are_read_and_filled_by_field);
    tcase_add_test(cases, a_word_may_stand_for_nan);
    tcase_add_test(cases, bounds_are_said_in_words);
    tcase_add_test(cases, bounds_are_kept);
}

int main(void)
{
    return run_tests("table/field", fill);
}
