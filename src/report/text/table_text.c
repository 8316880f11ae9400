#include "report/text/table_text.h"

#include "report/text/grid.h"

void table_text(text *out, const table *t)
{
    grid g = {0};
    text_format(out, "%s\n\n", t->title);
    grid_column(&g, "column", GRID_LEFT);
    grid_column(&g, "unit", GRID_LEFT);
    if (t->input) grid_column(&g, "default", GRID_LEFT);
    grid_column(&g, "meaning", GRID_LEFT);
    for (size_t i = 0; i < t->list->count; i++) {
        const field *f = &t->list->fields[i];
        grid_cell(&g, TONE_PLAIN, f->name);
        grid_cell(&g, TONE_PLAIN, table_unit(f));
        if (t->input) grid_cell(&g, TONE_PLAIN, table_default(f));
        grid_cell(&g, TONE_PLAIN, f->meaning);
    }
    grid_write(out, &g, false);
    grid_free(&g);
    text_char(out, '\n');
}
