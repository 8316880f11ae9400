/* Result rows on their way out as CSV or JSON, one after the other, or kept for a text. */
#ifndef RAILBOW_COMMAND_RESULTS_H
#define RAILBOW_COMMAND_RESULTS_H

#include "command/output.h"
#include "table/field.h"

/* What stands before the first row and after the last; nothing for text. */
bool results_open(output *out, const field_list *list);
bool results_close(output *out);

/* One row as the output's format wants it; nothing for text. */
void results_row(text *written, const output *out, const field_list *list, const void *record);

#endif
