/* S-N curves as a table. */
#ifndef RAILBOW_CASES_DETAIL_CURVE_TABLE_H
#define RAILBOW_CASES_DETAIL_CURVE_TABLE_H

#include "table/field.h"

#include <railbow/life.h>

typedef struct curve_row {
    rbow_sn_curve curve; /* stress_unit is set by curve_fault */
    int stress_unit;     /* as the table names it */
    size_t line;         /* of the file; no column */
} curve_row;

extern const field_list curve_list; /* of curve_row */

/* What is wrong with a row beyond single cells, and its stress_unit in psi.
 * Returned: the column at fault, with what is wrong in *why; NULL for none. */
struct text;
const char *curve_fault(curve_row *row, struct text *why);

#endif
