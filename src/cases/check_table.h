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

/* The row with the smallest margin, the first among equals. Given: count at least 1 */
const check_row *check_worst(const check_row *rows, size_t count);

/* Whether the case is short only because its forced fit can relax: as built it would hold. */
bool holds_by_fit(const check_row *r);

/* What the forced fit costs, in points of margin: 100 (margin_unforced - margin_as_built); negative where it happens to help. */
double fit_cost(const check_row *r);

/* The load factor asked for against yield. */
double asked_of_yield(const check_row *r);

/* The load factor of the check that governs (INFINITY if none does), and the factor asked for against it. */
double deciding_factor(const check_row *r);
double asked_factor(const check_row *r);

/* ---- what to do about a case that is short ------------------------------------------------------------- */

/* The columns that advice may change, the wall last. */
enum { ADVICE_MISS_A, ADVICE_MISS_B, ADVICE_GAP, ADVICE_BOW, ADVICE_WALL, ADVICE_COLUMNS };

typedef struct advice_row {
    const char *name; /* of the case */
    int column;       /* ADVICE_... */
    double now, to;   /* in */
    double margin;    /* with the change alone; at least 0 */
} advice_row;

extern const field_list advice_list; /* of advice_row */

/* The changes that were found for one case, one for each column at most. */
typedef struct advice {
    advice_row rows[ADVICE_COLUMNS];
    size_t count;
    bool lost;     /* memory ran out: nothing is known */
    bool searched; /* smaller misses, gap and bow were looked for, not walls alone */
} advice;

/* The name of the column as in files: "miss_a". */
const char *advice_column(int column);

#endif
