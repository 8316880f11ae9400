/* Totals of one tube over all cases of a comparison, and the choice of a tube. */
#ifndef RAILBOW_CASES_COMPARE_SUM_H
#define RAILBOW_CASES_COMPARE_SUM_H

#include "cases/compare_table.h"

typedef struct tube_sum {
    size_t holds, cases, impossible;
    double weight, change, worst; /* lb, sums over all cases; smallest margin where it is possible */
    const char *worst_case;
    const compare_row *first;
} tube_sum;

/* rows: all tubes of the first case, then of the second, and so on; tube: below rows[0].tubes. */
tube_sum sum_of_tube(const compare_row *rows, size_t count, size_t tube);

/* The lightest tube that holds in every case; the smaller diameter on a tie.
 * Returned: its number; rows[0].tubes for none. */
size_t lightest_tube(const compare_row *rows, size_t count);

/* The tube that holds in most cases; among equals the one whose smallest margin is largest. */
size_t nearest_tube(const compare_row *rows, size_t count);

#endif
