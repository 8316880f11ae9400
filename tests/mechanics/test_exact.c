/* Where double precision would cancel, against 60 digits: tests/reference/exact.csv, made by exact.py. */
#include "near.h"

#include <railbow/beamcolumn.h>
#include <railbow/tube.h>

#include <gsl/gsl_errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { NUMBERS_MOST = 22, STATIONS = 4 };
static const double bending = 1.121e6, length = 37.3;

static int read_numbers(char *line, double number[NUMBERS_MOST])
{
    int count = 0;
    strtok(line, ",");
    for (char *cell; (cell = strtok(NULL, ",\n")) != NULL && count < NUMBERS_MOST; count++)
        number[count] = strcmp(cell, "free") == 0 ? RBOW_FREE : strtod(cell, NULL);
    return count;
}

static double spring(double relative)
{
    return relative < 0 ? RBOW_FREE : relative * bending / length;
}

static void compare_section(const double *n)
{
    rbow_section s;
    ck_assert_int_eq(rbow_section_of(n[0], n[1], &s), RBOW_OK);
    near_within(s.area, n[2], 1e-14, 0);
    near_within(s.inertia, n[3], 1e-14, 0);
    near_within(s.radius, n[4], 1e-14, 0);
    near_within(s.plastic_modulus, n[5], 1e-14, 0);
}

static double critical(double a, double b)
{
    double load;
    ck_assert_int_eq(rbow_critical_load(bending, length, spring(a), spring(b), &load), RBOW_OK);
    return load;
}

static void compare_critical(const double *n)
{
    near_within(critical(n[0], n[1]) / bending * length * length, n[2], 1e-12, 0);
}

/* The contract: about 1e-14/(1 - P/P_cr) of the largest value along the tube. */
static void compare_beam(const double *n, double *worst)
{
    const rbow_beam beam = {.bending_stiffness = bending, .length = length, .compression = n[2],
                            .critical_load = critical(n[0], n[1]), .stiffness_a = spring(n[0]),
                            .stiffness_b = spring(n[1]), .point_at = length, .bow_at = length / 2};
    const rbow_loading loading = {.spread_load = n[4], .moment_a = n[5], .moment_b = n[6], .bow = n[7], .slope_a = n[8],
                                  .slope_b = n[9]};
    const double *want = n + 10, part[STATIONS] = {0, 0.25, 0.5, 1};
    double largest[3] = {0, 0, 0};
    rbow_prepared prepared;
    rbow_solution solution;
    ck_assert_int_eq(rbow_beam_prepare(&beam, &prepared), RBOW_OK);
    rbow_beam_solve(&prepared, &loading, &solution);
    for (int i = 0; i < 3 * STATIONS; i++) largest[i % 3] = fmax(largest[i % 3], fabs(want[i]));
    const double allowed = 4e-14 / (1 - fmax(n[3], 0));
    for (int i = 0; i < STATIONS; i++) {
        rbow_station at;
        rbow_beam_at(&prepared, &solution, part[i] * length, &at);
        const double got[3] = {at.moment, at.deflection, at.slope};
        for (int k = 0; k < 3; k++) {
            near_within(got[k], want[3 * i + k], 0, allowed * largest[k]);
            *worst = fmax(*worst, fabs(got[k] - want[3 * i + k]) / largest[k] * (1 - fmax(n[3], 0)));
        }
    }
}

START_TEST(nothing_cancels)
{
    char line[2000];
    double number[NUMBERS_MOST], worst = 0;
    int sections = 0, loads = 0, beams = 0;
    FILE *file = fopen(SOURCE_DIR "/tests/reference/exact.csv", "r");
    ck_assert(file != NULL);
    gsl_set_error_handler_off();
    while (fgets(line, sizeof line, file) != NULL) {
        const char kind = line[0];
        const int count = kind == '#' ? 0 : read_numbers(line, number);
        if (kind == 's' && count == 6) compare_section(number), sections++;
        if (kind == 'c' && count == 3) compare_critical(number), loads++;
        if (kind == 'b' && count == NUMBERS_MOST) compare_beam(number, &worst), beams++;
    }
    fclose(file);
    printf("%d sections, %d critical loads, %d beams; worst %.1e/(1 - P/P_cr)\n", sections, loads, beams, worst);
    ck_assert(sections >= 14 && loads >= 6 && beams >= 60);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, nothing_cancels);
}

int main(void)
{
    return run_tests("exact", fill);
}
