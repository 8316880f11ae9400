/* The answer of limit in words and tables. Rows in the order of the file; faults: some rows could not be answered. */
#ifndef RAILBOW_REPORT_TEXT_LIMIT_TEXT_H
#define RAILBOW_REPORT_TEXT_LIMIT_TEXT_H

#include "cases/limit_table.h"
#include "table/text.h"

void limit_text(text *out, const limit_row *rows, size_t count, const limit_asked *asked, bool faults, unit_system units,
                bool colour);

#endif
