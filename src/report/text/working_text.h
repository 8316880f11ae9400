/* The working of an answer for a terminal, and as a table. */
#ifndef RAILBOW_REPORT_TEXT_WORKING_TEXT_H
#define RAILBOW_REPORT_TEXT_WORKING_TEXT_H

#include "cases/step_table.h"
#include "report/screen.h"
#include "working/steps.h"

/* The row of a step under the heading `part`. */
step_row step_row_of(const char *name, const char *part, const working_row *r);

/* Each step on two lines: what it is, its formula and [source]; with numbers, and the result. */
void working_text(text *out, const working *w, const screen *s);

/* What a record says beside the defaults of `prototype`: column, and value with its unit. */
void given_text(text *out, const field_list *list, const void *record, const void *prototype, const screen *s);

/* All that a record says. */
void record_text(text *out, const field_list *list, const void *record, const screen *s);

#endif
