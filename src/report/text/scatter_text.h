/* The answer of scatter in words and bars. Rows in the order of the file. */
#ifndef RAILBOW_REPORT_TEXT_SCATTER_TEXT_H
#define RAILBOW_REPORT_TEXT_SCATTER_TEXT_H

#include "cases/scatter_table.h"
#include "report/screen.h"
#include "table/text.h"

/* Its parts, of one row: how many samples are short, without what they are of; the margins, and the samples that stand in no
 * mean; the bars, and what they mean. */
void scatter_shorts_text(text *out, const scatter_row *r);
void scatter_margins_text(text *out, const scatter_row *r, const screen *s);
void scatter_bars_text(text *out, const scatter_row *r, const screen *s);
void scatter_seed_text(text *out, unsigned seed, const screen *s);

void scatter_text(text *out, const scatter_row *rows, size_t count, unsigned seed, const screen *s);

#endif
