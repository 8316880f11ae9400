/* Every remark of the check, and that what it calls idle is. */
#include "members.h"

#include <gsl/gsl_errno.h>
#include <stddef.h>

/* A bow too small to change anything, so that none is missing. */
static rbow_member bowed(void)
{
    rbow_member m = sound();
    m.bow = 1e-9;
    return m;
}

static void remarked(const rbow_member *m, unsigned want)
{
    const rbow_result r = check(m, &steel);
    ck_assert_msg(r.remarks == want, "%x, want %x", r.remarks, want);
}

static rbow_member with(double compression, double end_a, double end_b)
{
    rbow_member m = bowed();
    m.compression = compression;
    m.end_a = end_a;
    m.end_b = end_b;
    m.weld_zone = 0.5;
    return m;
}

START_TEST(every_remark)
{
    rbow_member m = bowed();
    remarked(&m, 0);
    m.compression = 12000; /* critical 10 618 */
    remarked(&m, RBOW_REMARK_UNSTABLE);
    m = bowed();
    m.gap = 0.08; /* 77 333 psi */
    remarked(&m, RBOW_REMARK_SET);
    m = bowed();
    m.length = 64; /* L'/r 150.6 */
    remarked(&m, RBOW_REMARK_SLENDER);
    m.length = 63.7; /* 149.9 */
    remarked(&m, 0);
    m = bowed();
    m.length = 12.4;
    remarked(&m, RBOW_REMARK_SHORT_TUBE);
    m.length = 12.5;
    remarked(&m, 0);
    m = bowed();
    m.wall = 0.028; /* D/t 44.6 against 44.08 */
    remarked(&m, RBOW_REMARK_THIN_WALL);
    m = with(500, 0, 0);
    m.dressed = 0.0285; /* 1.193/.0205 = 58.2 against 55.1 for the weld's yield */
    remarked(&m, RBOW_REMARK_THIN_WALL);
    m = with(500, RBOW_FIXED, RBOW_FIXED);
    remarked(&m, RBOW_REMARK_STIFF_ENDS);
    m = with(500, RBOW_WELDED, RBOW_WELDED); /* exactly 2 is not above */
    remarked(&m, 0);
    m.weld_zone = 0; /* typed: the metal there is as strong as elsewhere */
    remarked(&m, 0);
    m.weld_zone = RBOW_UNSET;
    remarked(&m, RBOW_REMARK_WELD_ZONE_TAKEN);
    m.bow = 0;
    remarked(&m, RBOW_REMARK_WELD_ZONE_TAKEN | RBOW_REMARK_NO_BOW);
}
END_TEST

/* Both sides of each bound, and the bound itself, which is fine. */
START_TEST(every_odd_size)
{
    rbow_member fine = sound(), small = sound();
    small.compression = 0;
    small.od = 0.25, small.wall = 0.02, small.length = 10;
    rbow_member large = small;
    large.od = 6, large.wall = 0.5, large.length = 240;
    rbow_member thick = fine;
    thick.od = 1, thick.wall = 0.25;
    rbow_member thin = fine;
    thin.od = 2.4, thin.wall = 0.04, thin.length = 60;
    rbow_member fixed = fine;
    fixed.end_a = fixed.end_b = RBOW_FIXED;
    const struct {
        rbow_member m;
        size_t field;
        double bound, odd; /* in: the last that is fine, and one beyond it */
    } bounds[] = {
        {small, offsetof(rbow_member, od), 0.25, 0.2499},       {large, offsetof(rbow_member, od), 6, 6.001},
        {small, offsetof(rbow_member, wall), 0.02, 0.0199},     {large, offsetof(rbow_member, wall), 0.5, 0.501},
        {thin, offsetof(rbow_member, wall), 2.4 / 60, 0.03999}, {thick, offsetof(rbow_member, wall), 0.25, 0.2501},
        {fine, offsetof(rbow_member, length), 3.75, 3.7499},    {large, offsetof(rbow_member, length), 240, 240.1},
        {fine, offsetof(rbow_member, bow), 1.5, 1.5001},        {fixed, offsetof(rbow_member, miss_a), 1.5, 1.5001},
        {fixed, offsetof(rbow_member, miss_b), 1.5, 1.5001},
    };
    for (size_t i = 0; i < sizeof bounds / sizeof *bounds; i++) {
        rbow_member m = bounds[i].m;
        memcpy((char *)&m + bounds[i].field, &bounds[i].bound, sizeof(double));
        ck_assert_msg((check(&m, &steel).remarks & RBOW_REMARK_SIZE) == 0, "row %zu: %g is fine", i, bounds[i].bound);
        memcpy((char *)&m + bounds[i].field, &bounds[i].odd, sizeof(double));
        ck_assert_msg((check(&m, &steel).remarks & RBOW_REMARK_SIZE) != 0, "row %zu: %g is odd", i, bounds[i].odd);
    }
}
END_TEST

START_TEST(every_idle_value)
{
    rbow_member m = with(500, RBOW_FIXED, RBOW_FIXED);
    m.eccentricity = 0.1;
    remarked(&m, RBOW_REMARK_STIFF_ENDS | RBOW_REMARK_IDLE_ECCENTRICITY);
    m.eccentricity = 0;
    m.moment_a = 1;
    remarked(&m, RBOW_REMARK_STIFF_ENDS | RBOW_REMARK_IDLE_MOMENT_A);
    m.moment_a = 0;
    m.moment_b = -1;
    remarked(&m, RBOW_REMARK_STIFF_ENDS | RBOW_REMARK_IDLE_MOMENT_B);
    m = with(500, 0, 0);
    m.point_load = 5;
    m.point_at = 0;
    remarked(&m, RBOW_REMARK_IDLE_POINT_LOAD);
    m.point_at = 30;
    remarked(&m, RBOW_REMARK_IDLE_POINT_LOAD);
    m.point_at = 29;
    remarked(&m, 0);
    m.point_load = 0;
    m.dressed = 0.001;
    remarked(&m, 0);
    m.weld_zone = 0;
    remarked(&m, RBOW_REMARK_IDLE_DRESSED);
    m.dressed = 0;
    m.gap_stiffness = 1e5;
    remarked(&m, RBOW_REMARK_IDLE_GAP_STIFFNESS);
    m.gap = 1e-6;
    remarked(&m, 0);
    m = with(50, RBOW_FIXED, RBOW_FREE);
    m.eccentricity = 0.1; /* acts at B, as do these */
    m.moment_b = 1;
    m.point_load = 1;
    m.point_at = 30;
    m.miss_a = 0.01;
    remarked(&m, 0);
    m.moment_a = 1;
    remarked(&m, RBOW_REMARK_IDLE_MOMENT_A);
}
END_TEST

/* What is remarked as idle changes nothing. */
START_TEST(idle_values_are_idle)
{
    const rbow_member plain = with(500, RBOW_FIXED, RBOW_FIXED);
    rbow_member m = plain;
    m.eccentricity = 0.3;
    m.moment_a = 500;
    m.moment_b = -300;
    m.point_load = 1e4;
    m.point_at = 0;
    rbow_result one = check(&plain, &steel), two = check(&m, &steel);
    near_within(two.margin, one.margin, 1e-12, 0);
    near_within(two.peak_stress, one.peak_stress, 1e-12, 0);
    near_within(two.peak_moment, one.peak_moment, 0, 1e-9);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, every_remark);
    tcase_add_test(cases, every_odd_size);
    tcase_add_test(cases, every_idle_value);
    tcase_add_test(cases, idle_values_are_idle);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/remarks", fill);
}
