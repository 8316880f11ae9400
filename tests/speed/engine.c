/* The engine alone: the members of rows.c in memory, checked. Usage: engine COUNT [WHAT], with what is not known of them as
 * one of the words below. Prints the seconds that it took, the mean margin, so that no check can be left out, and the
 * processor's seconds. */
#include "rows.h"

#include <railbow/railbow.h>

#include <gsl/gsl_errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const rbow_material steel = {
    .name = "4130", .elastic_modulus = 29e6, .density = 0.283, .yield = 75e3, .compression_yield = 75e3,
    .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
};

static double radians(double degrees) { return degrees * (3.14159265358979323846 / 180); }

typedef struct doubt {
    const char *word;
    bool misses, pulls, welded, turns_bow, turns_miss;
} doubt;

static const doubt doubts[] = {
    {"rows", .misses = true},
    {"concrete", .misses = false},
    {"welded", .welded = true},
    {"forced", .misses = true, .pulls = true, .welded = true},
    {"direction", .turns_bow = true},
    {"welded_direction", .welded = true, .turns_bow = true},
    {"miss_direction", .misses = true, .welded = true, .turns_miss = true},
    {"two_directions", .misses = true, .welded = true, .turns_bow = true, .turns_miss = true},
};

static const doubt *doubt_named(const char *word)
{
    for (size_t i = 0; i < sizeof doubts / sizeof *doubts; i++)
        if (strcmp(word, doubts[i].word) == 0) return &doubts[i];
    return NULL;
}

static rbow_member member_of(const load_row *r, const doubt *d)
{
    rbow_member m = rbow_member_default();
    m.od = 1.25;
    m.wall = r->wall;
    m.length = r->length;
    m.end_a = m.end_b = d->welded ? RBOW_WELDED : RBOW_FIXED;
    m.compression = r->compression;
    m.spread_load = r->spread_load;
    m.spread_clock = radians(r->spread_clock);
    m.vertical_g = r->vertical_g;
    m.bow = r->bow;
    m.bow_clock = d->turns_bow ? RBOW_ANY_CLOCK : radians(r->bow_clock);
    m.miss_a = d->misses ? r->miss_a : 0;
    m.miss_a_clock = d->turns_miss ? RBOW_ANY_CLOCK : radians(r->miss_a_clock);
    m.gap = d->pulls ? 0.004 : 0;
    m.weld_zone = 1;
    return m;
}

static double seconds_now(void)
{
    struct timespec t;
    timespec_get(&t, TIME_UTC);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int main(int argc, char **argv)
{
    const long count = argc > 1 ? atol(argv[1]) : 1000;
    const doubt *d = doubt_named(argc > 2 ? argv[2] : "rows");
    rbow_member *members = count > 0 ? malloc((size_t)count * sizeof *members) : NULL;
    if (members == NULL || d == NULL) return 2;
    uint64_t x = ROWS_BEGIN;
    for (long i = 0; i < count; i++) {
        const load_row r = row_next(&x);
        members[i] = member_of(&r, d);
    }
    gsl_set_error_handler_off();
    double sum = 0;
    const clock_t started = clock();
    const double begun = seconds_now();
    for (long i = 0; i < count; i++) {
        rbow_result result;
        if (rbow_member_check(&members[i], &steel, &result) != RBOW_OK) return 2;
        sum += result.margin;
    }
    const double taken = seconds_now() - begun, used = (double)(clock() - started) / CLOCKS_PER_SEC;
    printf("%.9f %.12g %.9f\n", taken, sum / (double)count, used);
    free(members);
    return 0;
}
