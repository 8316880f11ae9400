/* The columns of one table: name, unit, default (of input), meaning. */
#ifndef RAILBOW_REPORT_TEXT_TABLE_TEXT_H
#define RAILBOW_REPORT_TEXT_TABLE_TEXT_H

#include "cases/list/table_list.h"
#include "report/screen.h"
#include "table/text.h"

void table_text(text *out, const table *t, const screen *s);

#endif
