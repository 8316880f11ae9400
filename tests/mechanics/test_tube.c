/* Section values: published tables, exact integers, limits from both sides. */
#include "dice.h"
#include "near.h"

#include <railbow/tube.h>

#include <stddef.h>

static const double pi = 3.14159265358979323846;

#define AREA offsetof(rbow_section, area)
#define INERTIA offsetof(rbow_section, inertia)
#define MODULUS offsetof(rbow_section, section_modulus)
#define PLASTIC offsetof(rbow_section, plastic_modulus)
#define POLAR offsetof(rbow_section, polar_inertia)
#define RADIUS offsetof(rbow_section, radius)

static double value_at(const rbow_section *s, size_t offset)
{
    return *(const double *)(const void *)((const char *)s + offset);
}

static rbow_section section_of(double od, double wall)
{
    rbow_section s;
    ck_assert_int_eq(rbow_section_of(od, wall, &s), RBOW_OK);
    return s;
}

typedef struct published {
    double od, wall;
    size_t offset;
    double want, half; /* half a unit of the last printed digit */
} published;

static const published sections[] = {
    /* Gere & Goodno, Mechanics of Materials, 7th ed., problem 11.9-7 (read), in */
    {4.5, 0.237, AREA, 3.1740, 5e-5},
    {4.5, 0.237, INERTIA, 7.2326, 5e-5},
    {4.5, 0.237, RADIUS, 1.5095, 5e-5},
    /* the same, 11.9-11 (read) */
    {4.0, 0.226, AREA, 2.6795, 5e-5},
    {4.0, 0.226, INERTIA, 4.7877, 5e-5},
    {4.0, 0.226, RADIUS, 1.3367, 5e-5},
    /* the same, 11.6-5 (read): 2.2 in outside, 2.0 in inside */
    {2.2, 0.1, AREA, 0.65973, 5e-6},
    {2.2, 0.1, INERTIA, 0.36450, 5e-6},
    {2.2, 0.1, RADIUS, 0.74330, 5e-6},
    /* the same, 11.6-4 (read): 68 mm outside, 60 mm inside */
    {68, 4, AREA, 804.25, 5e-3},
    {68, 4, INERTIA, 413.38e3, 5},
    /* the same, 11.9-10 (read), mm */
    {140, 7, AREA, 2924.8, 5e-2},
    {140, 7, INERTIA, 6.4851e6, 50},
    {140, 7, RADIUS, 47.09, 5e-3},
    /* AISC Steel Construction Manual, table 1-13 (read): HSS 14.000 x 0.500, design wall 0.465 in */
    {14, 0.465, AREA, 19.8, 5e-2},
    {14, 0.465, INERTIA, 453, 0.5},
    {14, 0.465, MODULUS, 64.8, 5e-2},
    {14, 0.465, RADIUS, 4.79, 5e-3},
    {14, 0.465, PLASTIC, 85.2, 5e-2},
    {14, 0.465, POLAR, 907, 0.5},
    /* the same (read): HSS 14.000 x 0.250, design wall 0.233 in */
    {14, 0.233, AREA, 10.1, 5e-2},
    {14, 0.233, INERTIA, 239, 0.5},
    {14, 0.233, MODULUS, 34.1, 5e-2},
    {14, 0.233, RADIUS, 4.87, 5e-3},
    {14, 0.233, PLASTIC, 44.2, 5e-2},
    {14, 0.233, POLAR, 478, 0.5},
    /* the same (from memory, recomputed): HSS 6.000, 5.000 and 4.000 x 0.250 */
    {6, 0.233, AREA, 4.22, 5e-3},
    {6, 0.233, INERTIA, 17.6, 5e-2},
    {6, 0.233, MODULUS, 5.86, 5e-3},
    {6, 0.233, RADIUS, 2.04, 5e-3},
    {6, 0.233, PLASTIC, 7.75, 5e-3},
    {6, 0.233, POLAR, 35.2, 5e-2},
    {5, 0.233, AREA, 3.49, 5e-3},
    {5, 0.233, INERTIA, 9.94, 5e-3},
    {5, 0.233, MODULUS, 3.97, 5e-3},
    {5, 0.233, PLASTIC, 5.30, 5e-3},
    {4, 0.233, AREA, 2.76, 5e-3},
    {4, 0.233, INERTIA, 4.91, 5e-3},
    {4, 0.233, RADIUS, 1.33, 5e-3},
    {4, 0.233, PLASTIC, 3.31, 5e-3},
    /* EN 10210-2, tables of circular hollow sections (from memory, recomputed), mm */
    {48.3, 3.2, AREA, 453, 0.5},
    {48.3, 3.2, INERTIA, 11.6e4, 500},
    {48.3, 3.2, RADIUS, 16.0, 5e-2},
    {48.3, 3.2, MODULUS, 4.80e3, 5},
    {48.3, 3.2, PLASTIC, 6.52e3, 5},
    {48.3, 3.2, POLAR, 23.2e4, 500},
    {60.3, 3.2, AREA, 574, 0.5},
    {60.3, 3.2, INERTIA, 23.5e4, 500},
    {60.3, 3.2, RADIUS, 20.2, 5e-2},
    {60.3, 3.2, MODULUS, 7.78e3, 5},
    {60.3, 3.2, PLASTIC, 10.4e3, 50},
    {60.3, 3.2, POLAR, 46.9e4, 500},
    {114.3, 5, AREA, 1720, 5},
    {114.3, 5, INERTIA, 257e4, 5e3},
    {114.3, 5, RADIUS, 38.7, 5e-2},
    {114.3, 5, MODULUS, 45.0e3, 50},
    {114.3, 5, PLASTIC, 59.8e3, 50},
    {114.3, 5, POLAR, 514e4, 5e3},
    /* trade sizes (derived: pi/4 (D^2 - d^2), pi/64 (D^4 - d^4)), in */
    {1.25, 0.049, AREA, 0.1849, 5e-5},
    {1.25, 0.049, INERTIA, 0.03339, 5e-6},
    {1.25, 0.049, RADIUS, 0.4250, 5e-5},
    {1.25, 0.058, AREA, 0.2172, 5e-5},
    {1.25, 0.058, INERTIA, 0.03867, 5e-6},
    {1.25, 0.058, RADIUS, 0.4219, 5e-5},
    {1.25, 0.065, AREA, 0.2420, 5e-5},
    {1.25, 0.065, INERTIA, 0.04260, 5e-6},
    {1.25, 0.065, RADIUS, 0.4196, 5e-5},
};

START_TEST(published_sections)
{
    for (size_t i = 0; i < sizeof sections / sizeof *sections; i++) {
        const published *p = &sections[i];
        const rbow_section s = section_of(p->od, p->wall);
        const double got = value_at(&s, p->offset);
        ck_assert_msg(fabs(got - p->want) <= p->half, "%g x %g: %.9g, want %.9g", p->od, p->wall, got, p->want);
    }
}
END_TEST

START_TEST(published_shape_factors)
{
    static const struct {
        double od, wall, want, half;
    } shape[] = {
        {1.25, 0.049, 1.3237, 5e-5}, /* derived: (16/3 pi)(1 - q^3)/(1 - q^4), q = d/D */
        {1.5, 0.120, 1.3770, 5e-5},  /* derived, the same formula                      */
        {2, 1, 16 / (3 * pi), 1e-14},    /* solid round: any strength-of-materials text (read)     */
        {1, 1e-9, 4 / pi, 1e-8},         /* thin tube: the same (from memory); off by about t/D    */
    };
    for (size_t i = 0; i < sizeof shape / sizeof *shape; i++) {
        const rbow_section s = section_of(shape[i].od, shape[i].wall);
        near_within(s.plastic_modulus / s.section_modulus, shape[i].want, 0, shape[i].half);
    }
}
END_TEST

/* With a whole number of units for D and t the textbook's differences are whole numbers too: D^4 - d^4 has no
 * rounding at all in 64 bits, however thin the wall. A unit of 2^-14 in keeps the inputs exact. */
static void against_integers(uint64_t od, uint64_t wall)
{
    const double unit = 0x1p-14;
    const uint64_t bore = od - 2 * wall;
    const double second = (double)(od * od - bore * bore) * pow(unit, 2);
    const double third = (double)(od * od * od - bore * bore * bore) * pow(unit, 3);
    const double fourth = (double)(od * od * od * od - bore * bore * bore * bore) * pow(unit, 4);
    const double squares = (double)(od * od + bore * bore) * pow(unit, 2);
    const rbow_section s = section_of((double)od * unit, (double)wall * unit);
    const double exact = 1e-14; /* the contract's */

    near_within(s.od, (double)od * unit, 0, 0);
    near_within(s.wall, (double)wall * unit, 0, 0);
    near_within(s.bore, (double)bore * unit, 0, 0);
    near_within(s.area, pi / 4 * second, exact, 0);
    near_within(s.inertia, pi / 64 * fourth, exact, 0);
    near_within(s.section_modulus, pi / 32 * fourth / ((double)od * unit), exact, 0);
    near_within(s.plastic_modulus, third / 6, exact, 0);
    near_within(s.polar_inertia, pi / 32 * fourth, exact, 0);
    near_within(s.radius, sqrt(squares) / 4, exact, 0);
    near_within(s.diameter_to_wall, (double)od / (double)wall, exact, 0);
}

START_TEST(exact_integers)
{
    dice d = {7};
    for (int i = 0; i < 20000; i++) {
        const uint64_t od = 2 + dice_bits(&d) % 60000;
        against_integers(od, 1 + dice_bits(&d) % (od / 2));
    }
    for (uint64_t od = 10000; od <= 60000; od += 5000) {
        against_integers(od, 1); /* D/t up to 60 000 */
        against_integers(od, od / 2);
        against_integers(od, od / 2 - 1);
    }
}
END_TEST

/* The binomials written out: (D^4 - (D-2t)^4)/8t = D^3 - 3 D^2 t + 4 D t^2 - 2 t^3, and so on. */
START_TEST(thin_wall_limit)
{
    for (int power = 10; power <= 60; power += 5) {
        const double od = 1.25, wall = od * ldexp(1, -power), share = wall / od;
        const rbow_section s = section_of(od, wall);
        near_within(s.area, pi * wall * od * (1 - share), 1e-14, 0);
        near_within(s.inertia, pi / 8 * wall * pow(od, 3) * (1 - 3 * share + 4 * share * share - 2 * pow(share, 3)),
                    1e-14, 0);
        near_within(s.plastic_modulus, wall * od * od * (1 - 2 * share + 4.0 / 3 * share * share), 1e-14, 0);
        near_within(s.radius, od / sqrt(8), 1.01 * share + 1e-14, 0);
    }
}
END_TEST

START_TEST(solid_bar)
{
    for (double od = 1e-3; od < 1e4; od *= 7.3) {
        const rbow_section s = section_of(od, od / 2);
        near_within(s.bore, 0, 0, 0);
        near_within(s.area, pi * od * od / 4, 1e-14, 0);
        near_within(s.inertia, pi * pow(od, 4) / 64, 1e-14, 0);
        near_within(s.section_modulus, pi * pow(od, 3) / 32, 1e-14, 0);
        near_within(s.plastic_modulus, pow(od, 3) / 6, 1e-14, 0);
        near_within(s.polar_inertia, pi * pow(od, 4) / 32, 1e-14, 0);
        near_within(s.radius, od / 4, 1e-14, 0);
        near_within(s.diameter_to_wall, 2, 0, 0);
    }
}
END_TEST

static void no_section(double od, double wall, rbow_status want)
{
    rbow_section s = {0};
    ck_assert_msg(rbow_section_of(od, wall, &s) == want, "%g x %g", od, wall);
    const double all[] = {s.od,            s.wall,            s.bore,          s.area,   s.inertia,
                          s.section_modulus, s.plastic_modulus, s.polar_inertia, s.radius, s.diameter_to_wall};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) ck_assert_msg(isnan(all[i]), "%g x %g", od, wall);
}

START_TEST(refused_sections)
{
    static const double bad_od[] = {0, -0.0, -1, NAN, INFINITY, -INFINITY};
    static const double bad_wall[] = {0, -0.0, -0.1, 0.75, NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof bad_od / sizeof *bad_od; i++) no_section(bad_od[i], 0.1, RBOW_BAD_OD);
    for (size_t i = 0; i < sizeof bad_wall / sizeof *bad_wall; i++) no_section(1.25, bad_wall[i], RBOW_BAD_WALL);
    no_section(1.25, nextafter(0.625, 1), RBOW_BAD_WALL);
    no_section(NAN, NAN, RBOW_BAD_OD);
    section_of(1.25, 0.625);
    section_of(1.25, nextafter(0.625, 0));
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, published_sections);
    tcase_add_test(cases, published_shape_factors);
    tcase_add_test(cases, exact_integers);
    tcase_add_test(cases, thin_wall_limit);
    tcase_add_test(cases, solid_bar);
    tcase_add_test(cases, refused_sections);
}

int main(void)
{
    return run_tests("mechanics/tube", fill);
}
