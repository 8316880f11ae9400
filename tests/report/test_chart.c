/* Ticks, labels and geometry of charts: expected values by hand. */
#include "near.h"

#include "report/chart/chart.h"
#include "report/html.h"

#include <stdio.h>
#include <string.h>

static void ticks_are(double low, double high, size_t most, double first, double step, size_t count)
{
    const chart_ticks t = chart_ticks_in(low, high, most);
    ck_assert_uint_eq(t.count, count);
    near_within(t.step, step, 1e-12, 0);
    for (size_t i = 0; i < count; i++) near_within(t.at[i], first + (double)i * step, 1e-12, 1e-12 * step);
}

START_TEST(ticks_are_round)
{
    ticks_are(0, 10, 6, 0, 2, 6);
    ticks_are(0, 24, 6, 0, 5, 5);
    ticks_are(0, 42, 9, 0, 10, 5);
    ticks_are(-1, 1, 5, -1, 0.5, 5);
    ticks_are(0.013, 0.047, 5, 0.02, 0.01, 3);
    ticks_are(0, 79500, 6, 0, 20000, 4);
    ck_assert_int_eq(chart_ticks_in(0, 0.4, 5).decimals, 1);
    ck_assert_int_eq(chart_ticks_in(0, 0.05, 6).decimals, 2);
    ck_assert_int_eq(chart_ticks_in(0, 1000, 6).decimals, 0);
}
END_TEST

START_TEST(ticks_lie_inside_and_are_never_too_many)
{
    for (double low = -3; low < 3; low += 0.37)
        for (double span = 1e-9; span < 1e9; span *= 3.7)
            for (size_t most = 2; most <= CHART_TICKS_MOST; most++) {
                const chart_ticks t = chart_ticks_in(low * span, (low + 1) * span, most);
                ck_assert_uint_le(t.count, most);
                for (size_t i = 0; i < t.count; i++) {
                    ck_assert(t.at[i] >= (low - 1e-8) * span && t.at[i] <= (low + 1 + 1e-8) * span);
                    ck_assert(i == 0 || t.at[i] > t.at[i - 1]);
                }
            }
}
END_TEST

START_TEST(no_range_no_ticks)
{
    ck_assert_uint_eq(chart_ticks_in(1, 1, 5).count, 0);
    ck_assert_uint_eq(chart_ticks_in(1, 0, 5).count, 0);
    ck_assert_uint_eq(chart_ticks_in(0, INFINITY, 5).count, 0);
    ck_assert_uint_eq(chart_ticks_in((double)NAN, 1, 5).count, 0);
}
END_TEST

START_TEST(an_axis_ends_at_a_round_place)
{
    near_within(chart_round_up(79.5, 6), 80, 1e-12, 0);
    near_within(chart_round_up(80, 6), 80, 1e-12, 0);
    near_within(chart_round_up(0.0123, 6), 0.015, 1e-12, 0);
    near_within(chart_round_up(0, 6), 1, 0, 0);
    near_within(chart_round_up((double)NAN, 6), 1, 0, 0);
}
END_TEST

START_TEST(labels_keep_apart)
{
    double at[] = {10, 11, 12, 50};
    chart_spread(at, 4, 10, 0, 100);
    near_within(at[0], 10, 0, 1e-12);
    near_within(at[1], 20, 0, 1e-12);
    near_within(at[2], 30, 0, 1e-12);
    near_within(at[3], 50, 0, 1e-12);
    double low[] = {98, 99, 100};
    chart_spread(low, 3, 10, 0, 100);
    near_within(low[0], 80, 0, 1e-12);
    near_within(low[2], 100, 0, 1e-12);
    double free[] = {5, 45};
    chart_spread(free, 2, 10, 0, 100);
    near_within(free[0], 5, 0, 0);
    near_within(free[1], 45, 0, 0);
}
END_TEST

static const chart plain = {.left = 10, .top = 20, .width = 100, .height = 50, .x_high = 10, .y_low = -1, .y_high = 1};

START_TEST(values_stand_where_they_should)
{
    near_within(chart_x(&plain, 0), 10, 0, 1e-12);
    near_within(chart_x(&plain, 10), 110, 0, 1e-12);
    near_within(chart_y(&plain, -1), 70, 0, 1e-12);
    near_within(chart_y(&plain, 0), 45, 0, 1e-12);
    near_within(chart_y(&plain, 1), 20, 0, 1e-12);
}
END_TEST

static void line_is(const double x[], const double y[], size_t count, const char *want)
{
    text t = {0};
    chart c = plain;
    c.out = &t;
    chart_line(&c, x, y, count, "s");
    ck_assert_str_eq(t.at != NULL ? t.at : "", want);
    text_free(&t);
}

START_TEST(lines_end_at_the_border)
{
    line_is((const double[]){0, 10}, (const double[]){-1, 1}, 2, "<path d=\"M10.00 70.00L110.00 20.00\" class=\"s\"/>\n");
    line_is((const double[]){0, 10}, (const double[]){0, 2}, 2, "<path d=\"M10.00 45.00L60.00 20.00\" class=\"s\"/>\n");
    line_is((const double[]){0, 5, 10}, (const double[]){0, 2, 0}, 3,
            "<path d=\"M10.00 45.00L35.00 20.00M85.00 20.00L110.00 45.00\" class=\"s\"/>\n");
    line_is((const double[]){0, 10}, (const double[]){2, 3}, 2, "");
    line_is((const double[]){-5, 5}, (const double[]){0, 0}, 2, "<path d=\"M10.00 45.00L60.00 45.00\" class=\"s\"/>\n");
}
END_TEST

START_TEST(what_does_not_exist_breaks_a_line)
{
    line_is((const double[]){0, 2, 4, 6, 8}, (const double[]){0, 0, (double)NAN, 0, 0}, 5,
            "<path d=\"M10.00 45.00L30.00 45.00M70.00 45.00L90.00 45.00\" class=\"s\"/>\n");
    line_is((const double[]){0, 2}, (const double[]){0, INFINITY}, 2, "");
}
END_TEST

START_TEST(bars_and_points_stay_inside)
{
    text t = {0};
    chart c = plain;
    c.out = &t;
    chart_bar(&c, 2, 99, 40, 8, "b");
    ck_assert_str_eq(t.at, "<rect x=\"30.00\" y=\"36.00\" width=\"80.00\" height=\"8.00\" class=\"b\"/>\n");
    text_clear(&t);
    chart_point(&c, 11, 0, "p");
    ck_assert_uint_eq(t.length, 0);
    text_free(&t);
}
END_TEST

START_TEST(numbers_of_an_axis)
{
    static const struct {
        double value;
        int decimals;
        const char *words;
    } numbers[] = {{0.25, 2, "0.25"}, {5000, 0, "5000"}, {-29000, 0, "-29 000"}, {123456, 0, "123 456"}, {2e7, 0, "2e+07"},
                   {-1.5e6, 0, "-1.5e+06"}, {3e-8, 8, "3e-08"}, {0, 8, "0"}};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        char words[CHART_TICK_ROOM];
        chart_tick_words(words, numbers[i].value, numbers[i].decimals);
        ck_assert_str_eq(words, numbers[i].words);
    }
}
END_TEST

static size_t times(const char *in, const char *what)
{
    size_t n = 0;
    for (const char *at = in; (at = strstr(at, what)) != NULL; at += strlen(what)) n++;
    return n;
}

START_TEST(names_stand_clear_of_points_and_each_other)
{
    text t = {0};
    const chart c = {.out = &t, .left = 0, .top = 20, .width = 200, .height = 100, .x_high = 200, .y_high = 100};
    /* the second point is where the first's name would go, above it */
    const chart_name two[] = {{100, 50, "abc", "s"}, {100, 63, "de", "s"}};
    chart_names(&c, two, 2);
    ck_assert_str_eq(t.at, "<text x=\"100.00\" y=\"87.00\" text-anchor=\"middle\" class=\"s\">abc</text>\n"
                           "<text x=\"100.00\" y=\"48.00\" text-anchor=\"middle\" class=\"s\">de</text>\n");
    text_clear(&t);
    chart_name crowd[20]; /* all at one place: one name each way, then there is no room */
    for (size_t i = 0; i < 20; i++) crowd[i] = (chart_name){100, 50, "abcdef", "s"};
    chart_names(&c, crowd, 20);
    ck_assert_uint_eq(times(t.at, "<text"), 4);
    text_clear(&t);
    const chart_name corner[] = {{0, 0, "abc", "s"}}; /* neither above it nor below is there room to its left */
    chart_names(&c, corner, 1);
    ck_assert_str_eq(t.at, "<text x=\"19.25\" y=\"113.00\" text-anchor=\"middle\" class=\"s\">abc</text>\n");
    text_free(&t);
}
END_TEST

START_TEST(texts_are_escaped)
{
    text t = {0};
    html_text(&t, "a<b>&\"'\x01\t\x7f\xff\xef\xbf\xbf\xc3\xa9");
    ck_assert_str_eq(t.at, "a&lt;b&gt;&amp;&quot;&#39;\\x01 \\x7F\xef\xbf\xbd\xc3\xa9");
    text_clear(&t);
    html_unit(&t, "lbf-in^2");
    ck_assert_str_eq(t.at, "lbf-in²");
    text_clear(&t);
    chart_open(&t, 10, 5, "<t>", "");
    ck_assert_str_eq(t.at, "<svg viewBox=\"0 0 10 5\" role=\"img\"><title>&lt;t&gt;</title>\n");
    text_free(&t);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, ticks_are_round);
    tcase_add_test(c, ticks_lie_inside_and_are_never_too_many);
    tcase_add_test(c, no_range_no_ticks);
    tcase_add_test(c, an_axis_ends_at_a_round_place);
    tcase_add_test(c, labels_keep_apart);
    tcase_add_test(c, values_stand_where_they_should);
    tcase_add_test(c, lines_end_at_the_border);
    tcase_add_test(c, what_does_not_exist_breaks_a_line);
    tcase_add_test(c, bars_and_points_stay_inside);
    tcase_add_test(c, numbers_of_an_axis);
    tcase_add_test(c, names_stand_clear_of_points_and_each_other);
    tcase_add_test(c, texts_are_escaped);
}

int main(void)
{
    return run_tests("chart", fill);
}
