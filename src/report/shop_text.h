/* The answers to readings from the shop in words, for a terminal. */
#ifndef RAILBOW_REPORT_SHOP_TEXT_H
#define RAILBOW_REPORT_SHOP_TEXT_H

#include "report/shop_table.h"
#include "table/text.h"

void release_text(text *out, const release_row *rows, size_t count, bool faults, unit_system units, bool colour);
void pull_text(text *out, const pulled_row *rows, size_t count, bool faults, unit_system units, bool colour);
void inspect_text(text *out, const inspect_row *rows, size_t count, bool faults, unit_system units, bool colour);

#endif
