/* The results of check as a table. */
#ifndef RAILBOW_CASES_CHECK_TABLE_H
#define RAILBOW_CASES_CHECK_TABLE_H

#include "cases/case_table.h"
#include "cases/governing_detail.h"

typedef struct check_row {
    load_case given;
    const rbow_material *material; /* the row that serves the tube's wall */
    rbow_result result;            /* margin, verdict, governs_at and what is taken: of the weakest of the tube and its details */
    rbow_result tube;              /* of the tube itself */
    rbow_member taken;             /* the concrete member that governs in the tube itself */
    governing_detail detail;       /* where a detail governs, result.governs is RBOW_BY_NONE */
    const char *governs;           /* name of the check or of the detail that sets the margin */
    const char *remarks;           /* the remarks of the result as text, separated by semicolons */
} check_row;

extern const field_list check_list; /* of check_row */

/* Whether the case is short only because its forced fit can relax: as built it would hold. */
bool holds_by_fit(const check_row *r);

/* What the forced fit costs, in points of margin: 100 (margin_unforced - margin_as_built); negative where it happens to help. */
double fit_cost(const check_row *r);

/* The load factor asked for against yield. */
double asked_of_yield(const check_row *r);

/* The load factor of the check that governs (INFINITY if none does), and the factor asked for against it. */
double deciding_factor(const check_row *r);
double asked_factor(const check_row *r);

#endif
