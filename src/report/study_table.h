/* The answers of the studies as tables: records and their field lists. */
#ifndef RAILBOW_REPORT_STUDY_TABLE_H
#define RAILBOW_REPORT_STUDY_TABLE_H

#include "report/check_table.h"

typedef struct compare_row {
    const char *name;
    double od, wall, weight, weight_change, stiffness_change, margin;
    int governs;
    const char *verdict; /* holds, short, or "not possible: why" */
    const char *pick;    /* "lightest" or "" */
    size_t tube, tubes;  /* which of how many was asked; not in the table */
    int outcome;         /* COMPARE_...; likewise */
} compare_row;

enum { COMPARE_HOLDS, COMPARE_SHORT, COMPARE_NOT_POSSIBLE };

extern const field_list compare_list;

enum { SWEEP_COLUMNS_MOST = 2 };

typedef struct sweep_row {
    const char *name;
    double value[SWEEP_COLUMNS_MOST]; /* of the varied columns */
    double margin;
    int governs, verdict;
    double yield_factor, column_factor, interaction_factor, fit_stress, peak_stress, deflection;
    /* not in the table */
    bool begins; /* the first of its case */
    size_t at;   /* which of all combinations, from 0; the refused ones have no row */
    double now[SWEEP_COLUMNS_MOST]; /* what the case itself has in the varied columns */
    double factor, factor_yield;    /* asked */
} sweep_row;

/* The list of a sweep: its varied columns stand behind the case under their own names. */
typedef struct sweep_columns {
    field fields[16];
    field_list list;
} sweep_columns;

void sweep_columns_fill(sweep_columns *s, const field *const varied[], size_t count);

enum { LIMIT_ROW_FOUND, LIMIT_ROW_NEVER, LIMIT_ROW_ALREADY };

typedef struct limit_row {
    const char *name, *column;
    double limit, now, room; /* in the column's unit */
    int state;
    /* not in the table */
    bool ends;      /* the model refuses to go on */
    bool before;    /* now lies before the range, so that nothing between was looked at */
    bool short_now; /* now lies outside the range, and the case is under the target there */
} limit_row;

/* The present value is past its limit, or the case short from the start or as it is. */
bool limit_is_past(const limit_row *r);

/* The list of a limit: its three numbers carry the dimension of the column asked for. */
typedef struct limit_columns {
    field fields[8];
    field_list list;
} limit_columns;

void limit_columns_fill(limit_columns *l, const field *column);

enum { INDEX_CLOCKS = 120 };

typedef struct index_row {
    const char *name;
    double margin_as_marked, best_clock, best_margin, worst_clock, worst_margin;
    /* not in the table */
    double marked_clock, bow;
    double round[INDEX_CLOCKS]; /* margins at even clocks from 0 on; NaN where they were not asked for */
} index_row;

extern const field_list index_list;

enum { SCATTER_BARS = 24, SCATTER_DRIVERS = 6 };

typedef struct scatter_row {
    const char *name;
    double samples, refused, short_share, short_low, short_high;
    double margin_mean, margin_sd, margin_p01, margin_p05, margin_p50, margin_p95;
    const char *driver;
    double driver_share;
    /* not in the table */
    double infinite, unstable;
    const char *refused_column, *refused_why; /* of the first that was refused; "" */
    double nominal; /* margin of the case as given */
    int rank;       /* of the driver, from 0 */
    double low, high, bars[SCATTER_BARS]; /* distribution of the finite margins; no bar lies across 0 */
    size_t drivers; /* the first of them in order */
    const char *driver_names[SCATTER_DRIVERS];
    double driver_shares[SCATTER_DRIVERS];
} scatter_row;

extern const field_list scatter_list;

#endif
