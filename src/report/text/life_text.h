/* The answer of life as a text. */
#ifndef RAILBOW_REPORT_TEXT_LIFE_TEXT_H
#define RAILBOW_REPORT_TEXT_LIFE_TEXT_H

#include "cases/detail/life_table.h"
#include "report/screen.h"
#include "table/text.h"

void life_text(text *out, const life_told *t, const screen *s);

#endif
