/* The answer of sticks as a text: a cutting list for the shop. */
#ifndef RAILBOW_REPORT_TEXT_SHOP_STICKS_TEXT_H
#define RAILBOW_REPORT_TEXT_SHOP_STICKS_TEXT_H

#include "cases/shop/sticks_table.h"
#include "report/screen.h"
#include "table/text.h"

/* rows: the pieces of a stick follow each other. */
void sticks_text(text *out, const stick_row *rows, size_t count, double kerf, const screen *s);

#endif
