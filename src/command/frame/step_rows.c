#include "command/frame/step_rows.h"

#include "report/text/working_text.h"

void put_step_rows(rows *written, const char *name, const working *w)
{
    const char *part = "";
    for (size_t i = 0; i < w->count; i++) {
        const working_row *r = &w->rows[i];
        if (*r->formula == '\0') {
            part = r->step;
            continue;
        }
        const step_row step = step_row_of(name, part, r);
        rows_add(written, &step);
    }
}
