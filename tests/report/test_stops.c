/* Stops of charts: which places are notable, where their words stand, and what they say. Expected values by hand. */
#include "near.h"

#include "report/chart/stops.h"

#include <stdio.h>
#include <string.h>

static size_t times(const char *in, const char *what)
{
    size_t n = 0;
    for (; (in = strstr(in, what)) != NULL; in += strlen(what)) n++;
    return n;
}

static void notable_are(const double y[], size_t count, double now, const char *wanted)
{
    double x[32];
    bool notable[32];
    char got[33] = "";
    for (size_t i = 0; i < count; i++) x[i] = (double)i;
    chart_notable(x, y, count, 0, now, notable);
    for (size_t i = 0; i < count; i++) got[i] = notable[i] ? 'x' : '.';
    ck_assert_str_eq(got, wanted);
}

START_TEST(ends_least_crossings_and_the_present_value_are_notable)
{
    const double falls[] = {9, 8, 7, 1, -1, -2, -3, -4}, dips[] = {9, 8, 3, 4, 5, 6, 7, 8};
    notable_are(falls, 8, NAN, "x..xx..x");
    notable_are(falls, 8, 1.2, "xx.xx..x");
    notable_are(dips, 8, 6.4, "x.x...xx");
    const double one[] = {5}, holes[] = {NAN, 4, NAN, 3, NAN}, waves[] = {1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -9};
    notable_are(one, 1, NAN, "x");
    notable_are(holes, 5, NAN, "x..xx");
    notable_are(waves, 12, NAN, "xxxxx......x"); /* the first four crossings */
}
END_TEST

START_TEST(the_tab_key_never_reaches_too_many)
{
    for (unsigned seed = 1; seed < 2000; seed++) {
        double x[32], y[32];
        bool notable[32];
        size_t n = 0;
        unsigned state = seed;
        for (size_t i = 0; i < 32; i++) {
            state = state * 1664525U + 1013904223U;
            x[i] = (double)i;
            y[i] = (double)(state >> 16) - 32768;
        }
        chart_notable(x, y, 32, 0, seed % 32, notable);
        for (size_t i = 0; i < 32; i++) n += notable[i];
        ck_assert_uint_ge(n, 2);
        ck_assert_uint_le(n, CHART_TABS_MOST);
    }
}
END_TEST

START_TEST(a_stop_has_a_name_only_where_the_tab_key_reaches_it)
{
    text t = {0};
    const chart c = {.out = &t, .left = 40, .top = 20, .width = 200, .height = 100, .x_high = 10, .y_high = 10};
    chart_stop(&c, 5, 5, "at <5>\nof \"ten\"", true);
    ck_assert_ptr_nonnull(strstr(t.at, "tabindex=\"0\" role=\"img\" aria-label=\"at &lt;5&gt;; of &quot;ten&quot;\""));
    ck_assert_ptr_nonnull(strstr(t.at, "<circle cx=\"140.0\" cy=\"70.0\""));
    ck_assert_uint_eq(times(t.at, "<tspan"), 1);
    text_clear(&t);
    chart_stop(&c, 5, 5, "words", false);
    ck_assert_ptr_null(strstr(t.at, "tabindex"));
    ck_assert_ptr_null(strstr(t.at, "aria-label"));
    ck_assert_ptr_nonnull(strstr(t.at, ">words</text>"));
    text_clear(&t);
    chart_stop(&c, 11, 5, "outside", true);
    chart_stop(&c, 5, (double)NAN, "nowhere", true);
    ck_assert_uint_eq(t.length, 0);
    text_free(&t);
}
END_TEST

/* left, width of the i-th strip */
static void strip_is(const char *in, size_t i, double left, double width)
{
    double x = 0, w = 0;
    for (in = strstr(in, "data-x"); i > 0; i--) in = strstr(in + 1, "data-x");
    ck_assert_int_eq(sscanf(strstr(in, "<rect"), "<rect x=\"%lf\" y=\"20\" width=\"%lf\"", &x, &w), 2);
    near_within(x, left, 0, 0.051);
    near_within(w, width, 0, 0.051);
}

START_TEST(strips_meet_half_way)
{
    text t = {0};
    const chart c = {.out = &t, .left = 40, .top = 20, .width = 200, .height = 100, .x_high = 10, .y_high = 10};
    chart_strip strips[] = {{.x = 0, .y = 1, .tab = true}, {.x = 4, .y = 20}, {.x = 10, .y = NAN, .tab = true}};
    for (size_t i = 0; i < 3; i++) text_format(&strips[i].words, "strip %zu", i);
    chart_strips(&c, NULL, strips, 3);
    strip_is(t.at, 0, 26, 54);      /* from 14 before 40 to 80, half way to 120 */
    strip_is(t.at, 1, 80, 100);     /* to 180, half way to 240 */
    strip_is(t.at, 2, 180, 74);     /* to 14 past 240 */
    ck_assert_uint_eq(times(t.at, "<circle"), 1); /* the others have no dot on the plot */
    ck_assert_uint_eq(times(t.at, "tabindex"), 2);
    ck_assert_ptr_nonnull(strstr(t.at, "data-x=\"4\""));
    for (size_t i = 0; i < 3; i++) text_free(&strips[i].words);
    text_free(&t);
}
END_TEST

START_TEST(words_stay_on_the_drawing)
{
    const chart c = {.left = 40, .top = 20, .width = 300, .height = 100, .x_high = 10, .y_high = 10};
    for (double x = 0; x <= 10; x += 0.5)
        for (double y = 0; y <= 10; y += 0.5) {
            text t = {0};
            chart at = c;
            at.out = &t;
            double left = 0, top = 0;
            chart_stop(&at, x, y, "twenty characters wi\nand a second line\nand a third", false);
            ck_assert_int_eq(sscanf(strstr(t.at, "<text"), "<text x=\"%lf\" y=\"%lf\"", &left, &top), 2);
            ck_assert(left >= 0 && left + chart_text_width("twenty characters wi") <= CHART_WIDTH);
            ck_assert(top >= 8 && top + 28 <= 150);
            text_free(&t);
        }
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, ends_least_crossings_and_the_present_value_are_notable);
    tcase_add_test(c, the_tab_key_never_reaches_too_many);
    tcase_add_test(c, a_stop_has_a_name_only_where_the_tab_key_reaches_it);
    tcase_add_test(c, strips_meet_half_way);
    tcase_add_test(c, words_stay_on_the_drawing);
}

int main(void)
{
    return run_tests("stops", fill);
}
