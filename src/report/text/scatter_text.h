/* The answer of scatter in words and bars. Rows in the order of the file. */
#ifndef RAILBOW_REPORT_TEXT_SCATTER_TEXT_H
#define RAILBOW_REPORT_TEXT_SCATTER_TEXT_H

#include "cases/scatter_table.h"
#include "report/screen.h"
#include "table/text.h"

void scatter_text(text *out, const scatter_row *rows, size_t count, unsigned seed, const screen *s);

#endif
