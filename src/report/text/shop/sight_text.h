/* The answer of sight as a text. */
#ifndef RAILBOW_REPORT_TEXT_SHOP_SIGHT_TEXT_H
#define RAILBOW_REPORT_TEXT_SHOP_SIGHT_TEXT_H

#include "cases/shop/sight_table.h"
#include "report/screen.h"
#include "table/text.h"

void sight_text(text *out, const sight_row *rows, size_t count, const screen *s);

#endif
