/* The engine alone: the members of rows.c in memory, checked. Usage: engine COUNT. Prints the seconds that it took, and
 * the mean margin, so that no check can be left out. */
#include "rows.h"

#include <railbow/railbow.h>

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static const rbow_material steel = {
    .name = "4130", .elastic_modulus = 29e6, .density = 0.283, .yield = 75e3, .compression_yield = 75e3,
    .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
};

static double radians(double degrees) { return degrees * (3.14159265358979323846 / 180); }

static rbow_member member_of(const load_row *r)
{
    rbow_member m = rbow_member_default();
    m.od = 1.25;
    m.wall = r->wall;
    m.length = r->length;
    m.end_a = m.end_b = RBOW_WELDED;
    m.compression = r->compression;
    m.spread_load = r->spread_load;
    m.spread_clock = radians(r->spread_clock);
    m.vertical_g = r->vertical_g;
    m.bow = r->bow;
    m.bow_clock = radians(r->bow_clock);
    m.miss_a = r->miss_a;
    m.miss_a_clock = radians(r->miss_a_clock);
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
    rbow_member *members = count > 0 ? malloc((size_t)count * sizeof *members) : NULL;
    if (members == NULL) return 2;
    uint64_t x = ROWS_BEGIN;
    for (long i = 0; i < count; i++) {
        const load_row r = row_next(&x);
        members[i] = member_of(&r);
    }
    gsl_set_error_handler_off();
    double sum = 0;
    const double begun = seconds_now();
    for (long i = 0; i < count; i++) {
        rbow_result result;
        if (rbow_member_check(&members[i], &steel, &result) != RBOW_OK) return 2;
        sum += result.margin;
    }
    printf("%.9f %.12g\n", seconds_now() - begun, sum / (double)count);
    free(members);
    return 0;
}
