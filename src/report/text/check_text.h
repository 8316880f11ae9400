/* The answer of check in words: the verdict first, then the table, then what is worth a word. */
#ifndef RAILBOW_REPORT_TEXT_CHECK_TEXT_H
#define RAILBOW_REPORT_TEXT_CHECK_TEXT_H

#include "cases/check_table.h"
#include "table/text.h"

/* Given:    rows, count  in the order of the file
 *           faults       some rows could not be checked
 *           colour       the text goes to a terminal that shows it */
void check_text(text *out, const check_row *rows, size_t count, bool faults, unit_system units, bool colour);

/* Two of its parts: the verdict in words, and what the remarks mean (nothing where there is none). */
void check_verdict_text(text *out, const check_row *rows, size_t count, bool faults, unit_system units, bool colour);
void check_remarks_text(text *out, const check_row *rows, size_t count);

#endif
