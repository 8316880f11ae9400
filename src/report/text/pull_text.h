/* The answer of pull in words. */
#ifndef RAILBOW_REPORT_TEXT_PULL_TEXT_H
#define RAILBOW_REPORT_TEXT_PULL_TEXT_H

#include "cases/pull_table.h"
#include "report/screen.h"
#include "table/text.h"

void pull_text(text *out, const pulled_row *rows, size_t count, const screen *s);

#endif
