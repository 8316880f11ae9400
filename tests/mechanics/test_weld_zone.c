/* Which places lie in a weld zone, and what tube is left there; and the components of a clock. */
#include "near.h"

#include <railbow/clock.h>
#include <railbow/weld_zone.h>

START_TEST(places)
{
    const rbow_weld_zone both = {.zone = 2, .length = 30}, free_b = {.zone = 2, .length = 30, .free_b = 1}, none = {.length = 30};
    static const struct {
        double x;
        int both, free_b;
    } at[] = {{0, 1, 1}, {1.999, 1, 1}, {2, 0, 0}, {15, 0, 0}, {28, 0, 0}, {28.001, 1, 0}, {30, 1, 0}};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
        ck_assert_int_eq(rbow_weld_zone_has(&both, at[i].x), at[i].both);
        ck_assert_int_eq(rbow_weld_zone_has(&free_b, at[i].x), at[i].free_b);
        ck_assert_int_eq(rbow_weld_zone_has(&none, at[i].x), 0);
    }
}
END_TEST

START_TEST(ends_of_the_zones)
{
    double ends[2];
    rbow_weld_zone_ends(&(rbow_weld_zone){.zone = 20, .length = 30}, ends); /* they overlap */
    near_within(ends[0], 20, 0, 0);
    near_within(ends[1], 10, 0, 0);
    rbow_weld_zone_ends(&(rbow_weld_zone){.zone = 2, .length = 30, .free_b = 1}, ends);
    ck_assert(isinf(ends[1]) && ends[1] > 0);
    rbow_weld_zone_ends(&(rbow_weld_zone){.length = 30}, ends);
    ck_assert(isinf(ends[0]) && ends[0] < 0 && isinf(ends[1]) && ends[1] > 0);
}
END_TEST

/* The bore stays as it is. */
START_TEST(dressed)
{
    const rbow_tube_size left = rbow_weld_zone_size((rbow_tube_size){1.25, 0.058}, 0.008);
    near_within(left.od, 1.234, 1e-15, 0);
    near_within(left.wall, 0.05, 1e-15, 0);
    near_within(left.od - 2 * left.wall, 1.25 - 2 * 0.058, 1e-15, 0);
}
END_TEST

START_TEST(clocks)
{
    const double pi = 3.14159265358979323846;
    double c[2];
    rbow_clock_components(3, 0, c);
    near_within(c[0], 3, 0, 0);
    near_within(c[1], 0, 0, 0);
    for (int quarter = -9; quarter <= 9; quarter += 2) { /* right, left: nothing is up */
        rbow_clock_components(3, quarter * pi / 2, c);
        near_within(c[0], 0, 0, 0);
        near_within(fabs(c[1]), 3, 1e-15, 0);
    }
    rbow_clock_components(3, pi / 6, c);
    near_within(c[1], 1.5, 1e-15, 0);
    rbow_clock_components(1, 1e-9, c); /* small, but no rounding */
    near_within(c[1], 1e-9, 1e-15, 0);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, places);
    tcase_add_test(c, ends_of_the_zones);
    tcase_add_test(c, dressed);
    tcase_add_test(c, clocks);
}

int main(void)
{
    return run_tests("weld_zone", fill);
}
