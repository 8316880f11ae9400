/* Result tables as JSON: {"units": {...}, "rows": [{...}, ...]}; infinity and what does not exist are null. */
#ifndef RAILBOW_REPORT_JSON_JSON_H
#define RAILBOW_REPORT_JSON_JSON_H

#include "table/field.h"
#include "table/text.h"

void json_open(text *out, const field_list *list, unit_system units);
/* With the comma that parts it from the row before; the first row of all has to lose this one byte. */
void json_row(text *out, const field_list *list, const void *record, unit_system units);
void json_close(text *out);

#endif
