/* The answers to readings from the shop as tables: records and their field lists. */
#ifndef RAILBOW_REPORT_SHOP_TABLE_H
#define RAILBOW_REPORT_SHOP_TABLE_H

#include "table/field.h"

enum { BASIS_TURN_READ, BASIS_LEAST_ENERGY };

typedef struct release_row {
    const char *name;
    double fit_axial, shear, shear_clock, moment_at_cut, moment_clock, moment_a, moment_b, fit_stress, yield_use;
    int basis;
    double miss_a, miss_a_clock, miss_b, miss_b_clock;
} release_row;

enum { PULL_SET, PULL_BEYOND };

typedef struct pulled_row {
    const char *name;
    double set, yield_travel, yield_pull, pull, travel, springback, peak_strain, strain_over_yield;
    double residual_stress, yielded_length;
    int state;
    double most_set;         /* not in the table */
    int step;                /* likewise: 1, 2 ... of a sneak-up; 0 for the pull alone */
} pulled_row;

enum { INSPECT_MEETS, INSPECT_RECHECK, INSPECT_UNREAD, INSPECT_BELOW };

typedef struct inspect_row { /* NaN: not read */
    const char *tag, *part;
    double od_mean, od_least, od_most, ovality;
    double wall_mean, wall_least, wall_fit_least, thin_clock, bore_offset, bow;
    int verdict;
    const char *reason;
    const char *name; /* of a load case, with --cases */
    double margin_nominal, margin_measured;
    int repeated; /* not in the table: the tag stands in the row before */
} inspect_row;

extern const field_list release_list, pulled_list;
extern const field_list inspect_list, inspect_cases_list; /* the second with the load case's three columns */
extern const field_word inspect_words[];

#endif
