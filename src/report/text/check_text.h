/* The answer of check in words: the verdict first, then the table, then what the remarks mean. */
#ifndef RAILBOW_REPORT_TEXT_CHECK_TEXT_H
#define RAILBOW_REPORT_TEXT_CHECK_TEXT_H

#include "cases/check_table.h"
#include "report/screen.h"
#include "table/text.h"

/* rows, count: in the order of the file. a: what to do about the worst of them; not read where all hold. */
void check_text(text *out, const check_row *rows, size_t count, const advice *a, const screen *s);

/* Two of its parts: the verdict in words, and what the remarks mean (nothing where there is none). */
void check_verdict_text(text *out, const check_row *rows, size_t count, const advice *a, const screen *s);
void check_remarks_text(text *out, const check_row *rows, size_t count, const screen *s);

#endif
