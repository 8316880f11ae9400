/* One tube over all cases of a comparison, and which one to pick. */
#ifndef RAILBOW_CASES_COMPARE_SUM_H
#define RAILBOW_CASES_COMPARE_SUM_H

#include "cases/compare_table.h"

typedef struct tube_sum {
    size_t holds, cases, impossible;
    double weight, change, worst; /* lb, of every case; the least margin where the tube is possible */
    const char *worst_case;
    const compare_row *first;
} tube_sum;

/* rows: of all tubes of the first case, then of the second ...; tube: below rows[0].tubes. */
tube_sum sum_of_tube(const compare_row *rows, size_t count, size_t tube);

/* The lightest that holds in every case, the smaller diameter on a tie. Returned: its number; rows[0].tubes for none. */
size_t lightest_tube(const compare_row *rows, size_t count);

/* The one that holds in most cases, then with the best worst margin. */
size_t nearest_tube(const compare_row *rows, size_t count);

#endif
