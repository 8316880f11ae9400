/* One plane of the beam-column against fine chains of beam elements: tests/reference/chain.csv, made by chain.py.
 * A chain of 64 elements is right to about 3e-7 of the largest value of its kind. */
#include "near.h"

#include <railbow/beamcolumn.h>

#include <gsl/gsl_errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { NUMBERS = 21, SHAPE = 10 }; /* of a row, behind its name: 14 given, 7 wanted */

/* Each number of a row; words as what they stand for. */
static bool read_row(char *line, double number[NUMBERS])
{
    int count = 0;
    if (strncmp(line, "chain ", 6) != 0) return false;
    for (char *cell = strchr(line, ',') + 1; cell != NULL && count < NUMBERS; count++) {
        char *end = strpbrk(cell, ",\n");
        *end = '\0';
        number[count] = strcmp(cell, "free") == 0   ? RBOW_FREE
                        : strcmp(cell, "sine") == 0 ? RBOW_BOW_SINE
                        : strcmp(cell, "arc") == 0  ? RBOW_BOW_ARC
                                                    : strtod(cell, NULL);
        cell = end + 1;
    }
    ck_assert_int_eq(count, NUMBERS);
    return true;
}

static double largest(double a, double b, double c)
{
    return fmax(fabs(a), fmax(fabs(b), fabs(c)));
}

static void compare(const double *given)
{
    const double *want = given + 14, near = 1e-6;
    rbow_beam beam = {.bending_stiffness = given[0], .length = given[1], .stiffness_a = given[2], .stiffness_b = given[3],
                      .compression = given[4], .point_at = given[7], .bow_at = given[1] / 2,
                      .bow_shape = given[SHAPE] > 0 ? RBOW_BOW_ARC : RBOW_BOW_SINE};
    const rbow_loading loading = {.spread_load = given[5], .point_load = given[6], .moment_a = given[8],
                                  .moment_b = given[9], .bow = given[11], .slope_a = given[12], .slope_b = given[13]};
    const double place[] = {0, 0.25, 0.5, 1};
    rbow_prepared prepared;
    rbow_solution solution;
    rbow_station at[4];
    ck_assert_int_eq(rbow_critical_load(given[0], given[1], given[2], given[3], &beam.critical_load), RBOW_OK);
    near_within(beam.critical_load, want[0], near, 0);
    ck_assert_int_eq(rbow_beam_prepare(&beam, &prepared), RBOW_OK);
    rbow_beam_solve(&prepared, &loading, &solution);
    for (int i = 0; i < 4; i++) rbow_beam_at(&prepared, &solution, place[i] * given[1], &at[i]);
    const double turn = near * largest(want[1], want[2], 0), move = near * largest(want[3], want[4], want[5]);
    near_within(at[0].slope, want[1], 0, turn);
    near_within(at[3].slope, want[2], 0, turn);
    near_within(at[1].deflection, want[3], 0, move);
    near_within(at[2].deflection, want[4], 0, move);
    near_within(at[3].deflection, want[5], 0, move);
    near_within(at[2].moment, want[6], near, near * want[0] * largest(want[3], want[4], want[5]));
}

START_TEST(chains_agree)
{
    char line[2000];
    double number[NUMBERS];
    int rows = 0;
    FILE *file = fopen(SOURCE_DIR "/tests/reference/chain.csv", "r");
    ck_assert(file != NULL);
    gsl_set_error_handler_off();
    while (fgets(line, sizeof line, file) != NULL) {
        if (!read_row(line, number)) continue;
        compare(number);
        rows++;
    }
    fclose(file);
    ck_assert_int_ge(rows, 60);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, chains_agree);
}

int main(void)
{
    return run_tests("chain", fill);
}
