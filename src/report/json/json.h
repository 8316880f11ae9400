/* Result tables as JSON: {"version": ..., "command": [...], "inputs": [...], "materials": {"file": ..., "sha256": ...},
 * (of life "curves", likewise), "units": {...}, "rows": [{...}, ...], "refused": n}; infinity and what does not exist are null. */
#ifndef RAILBOW_REPORT_JSON_JSON_H
#define RAILBOW_REPORT_JSON_JSON_H

#include "report/facts.h"
#include "table/field.h"
#include "table/text.h"

#include <stdbool.h>

void json_open(text *out, const run_facts *facts, const field_list *list, unit_system units);
/* With the comma that parts it from the row before; the first row of all has to lose this one byte. */
void json_row(text *out, const field_list *list, const void *record, unit_system units);
/* refused: what should be in the answer and is not: rows without one, and files that could not be read to their end */
void json_close(text *out, size_t refused);
/* The same with a second table beside the rows: its rows as json_row has written them, and cut_short: whether the search for them was. */
void json_close_beside(text *out, const char *name, const field_list *list, const text *written, bool cut_short, unit_system units, size_t refused);

/* Several tables in one answer: {"version": ..., ..., "materials": {...}, NAME: {"units": {...}, "rows": [...]}, ...,
 * "refused": n}. The rows are those of json_row. */
void json_open_tables(text *out, const run_facts *facts);
void json_open_table(text *out, const char *name, const field_list *list, unit_system units);
void json_close_table(text *out);
/* Before the end: "NAME": true or false. */
void json_flag(text *out, const char *name, bool set);
void json_close_tables(text *out, size_t refused);

#endif
