/* The answer of limit in words and tables. Rows in the order of the file. */
#ifndef RAILBOW_REPORT_TEXT_LIMIT_TEXT_H
#define RAILBOW_REPORT_TEXT_LIMIT_TEXT_H

#include "cases/limit_table.h"
#include "report/screen.h"
#include "table/text.h"

void limit_text(text *out, const limit_row *rows, size_t count, const limit_asked *asked, const screen *s);

#endif
