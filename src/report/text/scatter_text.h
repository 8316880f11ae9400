/* The answer of scatter in words and bars. Rows in the order of the file; faults: some rows could not be answered. */
#ifndef RAILBOW_REPORT_TEXT_SCATTER_TEXT_H
#define RAILBOW_REPORT_TEXT_SCATTER_TEXT_H

#include "cases/scatter_table.h"
#include "table/text.h"

void scatter_text(text *out, const scatter_row *rows, size_t count, unsigned seed, bool faults, bool colour);

#endif
