/* The answer of compare in words and tables. Rows in the order of the file. */
#ifndef RAILBOW_REPORT_TEXT_COMPARE_TEXT_H
#define RAILBOW_REPORT_TEXT_COMPARE_TEXT_H

#include "cases/compare_table.h"
#include "report/screen.h"
#include "table/text.h"

/* own_od: no diameters were named, each case keeps its own. */
void compare_text(text *out, const compare_row *rows, size_t count, bool own_od, const screen *s);

#endif
