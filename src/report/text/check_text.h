/* The answer of check in words: the verdict first, then the table, then what the remarks mean. */
#ifndef RAILBOW_REPORT_TEXT_CHECK_TEXT_H
#define RAILBOW_REPORT_TEXT_CHECK_TEXT_H

#include "cases/detail/detail_results.h"
#include "report/screen.h"
#include "table/text.h"

/* rows, details: in the order of the file. every: all details, where a long table lists the weakest. a: what to do about the worst of
 * the rows; not read where all hold. */
void check_text(text *out, const check_row *rows, size_t count, const detail_answer *details, size_t detail_count, bool every, const advice *a,
                const screen *s);

/* Two of its parts: the verdict in words, and what the remarks mean (nothing where there is none). */
void check_verdict_text(text *out, const check_row *rows, size_t count, const advice *a, const screen *s);
void check_remarks_text(text *out, const check_row *rows, size_t count, const screen *s);

#endif
