/* The answer of index in words and tables. Rows of the parts, then of the cases, each in
 * the order of the file. */
#ifndef RAILBOW_REPORT_TEXT_ORIENTATION_TEXT_H
#define RAILBOW_REPORT_TEXT_ORIENTATION_TEXT_H

#include "cases/orientation_table.h"
#include "report/screen.h"
#include "table/text.h"

void orientation_text(text *out, const orientation_row *rows, size_t count, const screen *s);

#endif
