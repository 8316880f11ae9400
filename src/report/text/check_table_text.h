/* The table of check: a line a case, and below it what its heads mean. */
#ifndef RAILBOW_REPORT_TEXT_CHECK_TABLE_TEXT_H
#define RAILBOW_REPORT_TEXT_CHECK_TABLE_TEXT_H

#include "cases/check_table.h"
#include "report/screen.h"
#include "table/text.h"

/* rows, count: in the order of the file; one at least. */
void check_table_text(text *out, const check_row *rows, size_t count, const screen *s);

#endif
