/* The answers of scatter as a table. */
#ifndef RAILBOW_CASES_SCATTER_TABLE_H
#define RAILBOW_CASES_SCATTER_TABLE_H

#include "table/field.h"

typedef struct margin_statistics { /* counts are whole numbers */
    double samples;  /* done                                             */
    double refused;  /* outside the model                                */
    double infinite; /* no limit: they hold, and stand in no mean        */
    double unstable; /* no equilibrium as loaded; judged by their margin */
    double short_share, short_low, short_high; /* of those not refused; Wilson's 95 % interval */
    double mean, sd, p01, p05, p50, p95;       /* of the finite margins; NaN without any */
} margin_statistics;

enum { SCATTER_BARS = 24, SCATTER_DRIVERS = 6 };

typedef struct scatter_row {
    const char *name;
    margin_statistics margins;
    const char *driver;
    double driver_share;
    /* not in the table */
    const char *refused_column, *refused_why; /* of the first that was refused; "" */
    double nominal; /* margin of the case as given */
    int rank;       /* of the driver, from 0 */
    double low, high, bars[SCATTER_BARS]; /* distribution of the finite margins; no bar lies across 0 */
    size_t drivers; /* the first of them in order */
    const char *driver_names[SCATTER_DRIVERS];
    double driver_shares[SCATTER_DRIVERS];
} scatter_row;

extern const field_list scatter_list; /* of scatter_row */

#endif
