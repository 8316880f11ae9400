#include "report/text/table_text.h"

#include "report/text/cells.h"

void table_text(text *out, const table *t, const screen *s)
{
    grid g = {0};
    put_sentence(out, t->title, 0, s);
    text_char(out, '\n');
    grid_column(&g, GRID_LEFT, "column");
    grid_column(&g, GRID_LEFT, "unit");
    if (t->input) grid_column(&g, GRID_WORDS, "default");
    grid_column(&g, GRID_WORDS, "meaning");
    for (size_t i = 0; i < t->list->count; i++) {
        const field *f = &t->list->fields[i];
        grid_cell(&g, TONE_PLAIN, f->name);
        grid_cell(&g, TONE_PLAIN, table_unit(f));
        if (t->input) grid_cell(&g, TONE_PLAIN, table_default(f));
        grid_cell(&g, TONE_PLAIN, f->meaning);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}
