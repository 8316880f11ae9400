/* Any result table as an aligned text. */
#ifndef RAILBOW_REPORT_TEXT_LIST_TEXT_H
#define RAILBOW_REPORT_TEXT_LIST_TEXT_H

#include "report/screen.h"
#include "table/field.h"
#include "table/text.h"

/* Every column with its unit, numbers with four significant digits, for a few records with many columns: one line a
 * column, one column a record, in blocks that fit the screen. */
void list_text(text *out, const field_list *list, const void *records, size_t count, const screen *s);

#endif
