/* The answer of sweep in words and tables. Rows in the order of the file. */
#ifndef RAILBOW_REPORT_TEXT_SWEEP_TEXT_H
#define RAILBOW_REPORT_TEXT_SWEEP_TEXT_H

#include "cases/sweep_table.h"
#include "report/screen.h"
#include "table/text.h"

void sweep_text(text *out, const sweep_row *rows, size_t count, const field *const varied[], size_t columns,
                const screen *s);

#endif
