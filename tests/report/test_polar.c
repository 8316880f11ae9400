/* Values round the clock: expected geometry by hand. */
#include "near.h"

#include "report/chart/polar.h"

#include <string.h>

static size_t times(const char *in, const char *what)
{
    size_t n = 0;
    for (const char *at = in; (at = strstr(at, what)) != NULL; at += strlen(what)) n++;
    return n;
}

START_TEST(clocks_go_round_from_the_top)
{
    const chart_polar p = {.x = 100, .y = 50, .radius = 40, .low = -20, .high = 60};
    static const struct {
        double degrees, value, x, y;
    } places[] = {{0, 60, 100, 10}, {90, 60, 140, 50}, {180, 20, 100, 70}, {270, 0, 90, 50}, {45, -20, 100, 50},
                  {90, 999, 140, 50}, {90, -999, 100, 50}, {0, INFINITY, 100, 10}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        double x, y;
        chart_polar_place(&p, places[i].degrees * 3.14159265358979323846 / 180, places[i].value, &x, &y);
        near_within(x, places[i].x, 0, 1e-9);
        near_within(y, places[i].y, 0, 1e-9);
    }
}
END_TEST

START_TEST(a_line_round_the_clock_closes)
{
    text t = {0};
    const chart_polar p = {.out = &t, .x = 100, .y = 50, .radius = 40, .low = 0, .high = 10};
    chart_polar_line(&p, (const double[]){10, 5, 10, 2.5}, 4, "s");
    ck_assert_str_eq(t.at, "<path d=\"M100.00 10.00L120.00 50.00L100.00 90.00L90.00 50.00Z\" class=\"s\"/>\n");
    text_clear(&t);
    chart_polar_line(&p, (const double[]){10, 5, (double)NAN, 2.5}, 4, "s"); /* goes on over the top, stays open */
    ck_assert_str_eq(t.at, "<path d=\"M100.00 10.00L120.00 50.00M90.00 50.00L100.00 10.00\" class=\"s\"/>\n");
    text_clear(&t);
    chart_polar_line(&p, (const double[]){(double)NAN, (double)NAN}, 2, "s");
    chart_polar_point(&p, 0, (double)NAN, "s");
    chart_polar_point(&p, (double)NAN, 1, "s");
    chart_polar_ring(&p, 0, "s"); /* in the middle it is no ring */
    chart_polar_ring(&p, 11, "s");
    ck_assert_uint_eq(t.length, 0);
    chart_polar_ring(&p, 5, "s");
    ck_assert_str_eq(t.at, "<circle cx=\"100.00\" cy=\"50.00\" r=\"20.00\" class=\"s\"/>\n");
    text_free(&t);
}
END_TEST

START_TEST(rings_at_round_values)
{
    text t = {0};
    const chart_polar p = {.out = &t, .x = 0, .y = 0, .radius = 40, .low = -20, .high = 60};
    chart_polar_axes(&p);
    ck_assert_uint_eq(times(t.at, "<line"), 12);
    ck_assert_uint_eq(times(t.at, "<circle"), 5); /* 0, 20, 40, 60 and the rim */
    ck_assert_ptr_nonnull(strstr(t.at, "r=\"10.00\" class=\"grid\""));
    ck_assert_ptr_nonnull(strstr(t.at, ">0</text>"));
    ck_assert_ptr_nonnull(strstr(t.at, ">60</text>"));
    ck_assert_ptr_null(strstr(t.at, ">-20</text>"));
    text_free(&t);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, clocks_go_round_from_the_top);
    tcase_add_test(c, a_line_round_the_clock_closes);
    tcase_add_test(c, rings_at_round_values);
}

int main(void)
{
    return run_tests("polar", fill);
}
