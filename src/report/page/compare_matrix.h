/* Every case with every tube as a matrix of margins, as the text has it. */
#ifndef RAILBOW_REPORT_PAGE_COMPARE_MATRIX_H
#define RAILBOW_REPORT_PAGE_COMPARE_MATRIX_H

#include "cases/compare_table.h"
#include "table/text.h"
#include "table/unit.h"

/* rows: of all tubes of the first case, then of the second ...; pick: the tube of the verdict, rows[0].tubes for none. own_od: each
 * case keeps its diameter, so a wall names a tube. */
void page_compare_matrix(text *out, const compare_row *rows, size_t count, size_t pick, bool own_od, unit_system units);

#endif
