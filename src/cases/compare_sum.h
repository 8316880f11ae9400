/* Totals of one tube over all cases of a comparison, and the choice of a tube. */
#ifndef RAILBOW_CASES_COMPARE_SUM_H
#define RAILBOW_CASES_COMPARE_SUM_H

#include "cases/compare_table.h"

typedef struct tube_sum {
    size_t holds, cases, impossible;
    double weight, change, worst; /* lb, each part once; the least margin where the tube is possible */
    const char *worst_case;
    const compare_row *first;
} tube_sum;

/* What the parts weigh when each has its own pick. */
typedef struct parts_sum {
    size_t parts, picked; /* how many there are; how many have a tube that holds */
    double weight, change; /* lb, of those that have */
} parts_sum;

parts_sum sum_of_parts(const compare_row *rows, size_t count);

/* One part with its pick. */
typedef struct part_sum {
    const compare_row *first; /* a row of the part */
    const compare_row *pick;  /* the row of its pick that weighs; NULL for none */
    size_t cases;
    double worst;             /* the least margin with its pick, and where */
    const char *worst_case;
} part_sum;

/* Given: sums, room for parts_sum.parts of them */
void sum_each_part(const compare_row *rows, size_t count, size_t parts, part_sum sums[]);

/* rows: marked by compare_parts; of all tubes of the first case, then of the second ...; tube: below rows[0].tubes. */
tube_sum sum_of_tube(const compare_row *rows, size_t count, size_t tube);

/* The lightest tube that holds in every case; the smaller diameter on a tie.
 * Returned: its number; rows[0].tubes for none. */
size_t lightest_tube(const compare_row *rows, size_t count);

/* The tube that holds in most cases; among equals the one whose smallest margin is largest. */
size_t nearest_tube(const compare_row *rows, size_t count);

#endif
