/* The load cases that are measured: bowed, missed, spread-loaded in both planes, between ends that are known. */
#ifndef RAILBOW_TESTS_SPEED_ROWS_H
#define RAILBOW_TESTS_SPEED_ROWS_H

#include <math.h>
#include <stdint.h>

typedef struct load_row { /* in, lbf, degrees; od 1.25 in, 4130, both ends fixed, a weld zone of 1 in */
    double wall, length, compression, spread_load, spread_clock, vertical_g, bow, bow_clock, miss_a, miss_a_clock;
} load_row;

#define ROWS_BEGIN 88172645463325252ULL

/* Marsaglia's xorshift: the same rows on every machine. */
static inline double row_share(uint64_t *x)
{
    *x ^= *x << 13;
    *x ^= *x >> 7;
    *x ^= *x << 17;
    return (double)(*x >> 11) / 9007199254740992.0;
}

/* With so many steps to a unit: the number that its digits in a file are read as. */
static inline double row_between(uint64_t *x, double low, double high, double steps)
{
    return round((low + (high - low) * row_share(x)) * steps) / steps;
}

/* Given: x, ROWS_BEGIN for the first row. Returned: the next row. */
static inline load_row row_next(uint64_t *x)
{
    static const double walls[] = {0.049, 0.058, 0.065, 0.083};
    load_row r;
    r.wall = walls[(int)(4 * row_share(x))];
    r.length = row_between(x, 20, 50, 10);
    r.compression = row_between(x, 500, 5000, 1);
    r.spread_load = row_between(x, 0, 4, 100);
    r.spread_clock = row_between(x, 0, 360, 1);
    r.vertical_g = row_between(x, 1, 4, 10);
    r.bow = row_between(x, 0, 0.06, 1000);
    r.bow_clock = row_between(x, 0, 360, 1);
    r.miss_a = row_between(x, 0, 0.3, 1000);
    r.miss_a_clock = row_between(x, 0, 360, 1);
    return r;
}

#endif
