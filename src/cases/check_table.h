/* The answers of check as a table. */
#ifndef RAILBOW_CASES_CHECK_TABLE_H
#define RAILBOW_CASES_CHECK_TABLE_H

#include "cases/case_table.h"

typedef struct check_row {
    load_case given;
    const rbow_material *material; /* that serves it */
    rbow_result result;
    rbow_member taken;             /* the concrete member that governs */
    const char *remarks;           /* those of the result as a text, separated by semicolons */
} check_row;

extern const field_list check_list; /* of check_row */

/* Whether it would hold only because of what is locked in, which can relax: it is short for that reason. */
bool holds_by_fit(const check_row *r);

/* The load factor asked for against yield. */
double asked_of_yield(const check_row *r);

/* The load factor that decides, INFINITY where nothing governs, and the one asked of it. */
double deciding_factor(const check_row *r);
double asked_factor(const check_row *r);

#endif
