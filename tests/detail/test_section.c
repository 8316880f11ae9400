/* The section that a hole leaves: published and independent values, and its stresses against a search of all points. */
#include "detail/net_section.h"
#include "details.h"

/* 1.25 x .058 with 3/16, 1/4, 3/8 in: exact strip integrals (derived, by quadrature): area, I about the axis across the hole's
 * line, I about the hole's line. */
START_TEST(known_sections)
{
    static const double known[][4] = {{3.0 / 16, .195356, .030967, .038603}, {.25, .187980, .028434, .038514}, {.375, .172944, .023462, .038141}};
    rbow_net_section n;
    for (int i = 0; i < 3; i++) {
        ck_assert_int_eq(rbow_net_section_of(1.25, .058, known[i][0], 2, &n), RBOW_OK);
        near_within(n.area, known[i][1], 0, 6e-7);
        near_within(n.inertia_along, known[i][2], 0, 6e-7);
        near_within(n.inertia_across, known[i][3], 0, 6e-7);
        near_within(n.shift, 0, 0, 0);
    }
}
END_TEST

enum { OD, WALL, HOLE, WALLS, AREA, ALONG, ACROSS, SHIFT, PUSH, UP_, RIGHT_, CLOCK, MOST, LEAST, WORST_MOST, WORST_LEAST, CELLS };

/* net_sections.py: quadrature, and every point of the outline. */
START_TEST(independent_sections)
{
    FILE *file = fopen(SOURCE_DIR "/tests/detail/net_sections.csv", "r");
    char line[1000];
    int rows = 0;
    ck_assert_ptr_nonnull(file);
    ck_assert_ptr_nonnull(fgets(line, sizeof line, file));
    while (fgets(line, sizeof line, file) != NULL) {
        double v[CELLS];
        const char *at = line;
        for (int i = 0; i < CELLS; i++) {
            char *end;
            v[i] = strtod(at, &end);
            ck_assert(end > at);
            at = end + 1;
        }
        rbow_net_section n;
        ck_assert_int_eq(rbow_net_section_of(v[OD], v[WALL], v[HOLE], (int)v[WALLS], &n), RBOW_OK);
        near_within(n.area, v[AREA], 1e-12, 0);
        near_within(n.inertia_along, v[ALONG], 1e-11, 0);
        near_within(n.inertia_across, v[ACROSS], 1e-11, 0);
        near_within(n.shift, v[SHIFT], 1e-11, 1e-15);
        const rbow_section_forces f = {.axial = v[PUSH], .moment_up = v[UP_], .moment_right = v[RIGHT_]};
        const double size = fabs(v[MOST]) + fabs(v[LEAST]);
        const net_stress s = rbow_net_stress(&n, &f, v[CLOCK]), worst = rbow_net_stress(&n, &f, RBOW_ANY_CLOCK);
        near_within(s.most, v[MOST], 0, 1e-7 * size);
        near_within(s.least, v[LEAST], 0, 1e-7 * size);
        near_within(worst.most, v[WORST_MOST], 0, 3e-5 * size); /* half-degree steps of the direction */
        near_within(worst.least, v[WORST_LEAST], 0, 3e-5 * size);
        ck_assert(worst.most >= v[WORST_MOST] - 1e-9 * size && worst.least <= v[WORST_LEAST] + 1e-9 * size);
        rows++;
    }
    fclose(file);
    ck_assert_int_gt(rows, 50);
}
END_TEST

START_TEST(stress_of_a_point)
{
    rbow_net_section n;
    const rbow_section_forces f = {.axial = 2500, .moment_up = 700, .moment_right = -300};
    ck_assert_int_eq(rbow_net_section_of(1.25, .058, .25, 1, &n), RBOW_OK);
    const net_stress s = rbow_net_stress(&n, &f, 0.4);
    double most = -INFINITY, least = INFINITY;
    for (int i = 0; i < 7200; i++) {
        const double a = i * 3.14159265358979 / 3600;
        net_point at = {n.radius * cos(a), n.radius * sin(a)};
        if (at.along > 0 && fabs(at.across) < n.half) at = (net_point){n.edge, at.across < 0 ? -n.half : n.half};
        const double v = rbow_net_stress_at(&n, &f, 0.4, at);
        most = fmax(most, v);
        least = fmin(least, v);
    }
    near_within(s.most, most, 1e-6, 0);
    near_within(s.least, least, 1e-6, 0);
}
END_TEST

START_TEST(refused)
{
    rbow_net_section n;
    ck_assert_int_eq(rbow_net_section_of(1.25, .058, -0.1, 2, &n), RBOW_BAD_HOLE);
    ck_assert(isnan(n.area) && isnan(n.radius));
    ck_assert_int_eq(rbow_net_section_of(1.25, .058, NAN, 2, &n), RBOW_BAD_HOLE);
    ck_assert_int_eq(rbow_net_section_of(1.25, .058, 1.25 - .116, 2, &n), RBOW_BAD_HOLE);
    ck_assert_int_eq(rbow_net_section_of(1.25, .058, .2, 3, &n), RBOW_BAD_WALLS);
    ck_assert_int_eq(rbow_net_section_of(0, .058, .2, 1, &n), RBOW_BAD_OD);
    ck_assert_int_eq(rbow_net_section_of(1.25, 1, .2, 1, &n), RBOW_BAD_WALL);
    ck_assert_int_eq(rbow_net_section_of(1, .5, 0, 1, &n), RBOW_OK); /* a solid bar without a hole */
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, known_sections);
    tcase_add_test(c, independent_sections);
    tcase_add_test(c, stress_of_a_point);
    tcase_add_test(c, refused);
}

int main(void)
{
    return run_tests("section of a hole", fill);
}
