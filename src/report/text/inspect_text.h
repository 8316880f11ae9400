/* The answer of inspect in words. */
#ifndef RAILBOW_REPORT_TEXT_INSPECT_TEXT_H
#define RAILBOW_REPORT_TEXT_INSPECT_TEXT_H

#include "cases/inspect_table.h"
#include "report/screen.h"
#include "table/text.h"

void inspect_text(text *out, const inspect_row *rows, size_t count, const screen *s);

#endif
