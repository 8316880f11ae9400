/* The results of scatter as a table. */
#ifndef RAILBOW_CASES_SCATTER_TABLE_H
#define RAILBOW_CASES_SCATTER_TABLE_H

#include "table/field.h"

typedef struct margin_statistics { /* counts are whole numbers */
    double samples;  /* calculated                                       */
    double refused;  /* refused by the model                             */
    double infinite; /* no limit: they hold, and no mean includes them   */
    double unstable; /* no equilibrium at load factor 1; their margin counts */
    double short_share, short_low, short_high; /* of the samples not refused, with Wilson's 95 % interval */
    double mean, sd, p01, p05, p50, p95;       /* of the finite margins; NaN without any */
} margin_statistics;

enum { SCATTER_BARS = 24, SCATTER_DRIVERS = 6 };

typedef struct scatter_row {
    const char *name;
    margin_statistics margins;
    const char *driver;
    double driver_share;
    /* not in the table */
    const char *refused_column, *refused_why; /* of the first refused sample; "" for none */
    double nominal; /* margin of the case without tolerances */
    int rank;       /* of the driver, from 0 */
    double low, high, bars[SCATTER_BARS]; /* distribution of the finite margins; 0 is a boundary of bars */
    size_t drivers; /* how many of the first drivers follow */
    const char *driver_names[SCATTER_DRIVERS];
    double driver_shares[SCATTER_DRIVERS];
} scatter_row;

extern const field_list scatter_list; /* of scatter_row */

/* The distribution of margins that are finite and sorted. */
void scatter_fill_bars(scatter_row *answer, const double margins[], size_t count);

#endif
