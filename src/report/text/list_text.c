#include "report/text/list_text.h"

#include "report/text/grid.h"
#include "report/values.h"

static void add_cell(grid *g, const field *f, const void *record, unit_system units)
{
    text cell = {0};
    const char *word = field_text(f, record);
    if (word != NULL)
        text_put(&cell, word);
    else
        put_number(&cell, shown(field_get(f, record), f->dimension, units), 5);
    grid_cell(g, TONE_PLAIN, text_string(&cell, &g->cells.failed));
    text_free(&cell);
}

static void put_head(text *head, const field *f, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    text_put(head, f->name);
    if (u != NULL) text_format(head, " [%s]", u->name);
}

static void put_block(text *out, const field_list *list, const void *records, size_t count, unit_system units)
{
    grid g = {0};
    grid_column(&g, "", GRID_LEFT);
    for (size_t i = 0; i < count; i++) grid_column(&g, "", GRID_RIGHT);
    for (size_t i = 0; i < list->count; i++) {
        text head = {0};
        put_head(&head, &list->fields[i], units);
        grid_cell(&g, TONE_PLAIN, text_string(&head, &g.cells.failed));
        text_free(&head);
        for (size_t k = 0; k < count; k++)
            add_cell(&g, &list->fields[i], (const char *)records + k * list->record_size, units);
    }
    grid_write(out, &g, false);
    grid_free(&g);
}

void list_text(text *out, const field_list *list, const void *records, size_t count, unit_system units)
{
    enum { BLOCK = 6 };
    for (size_t first = 0; first < count; first += BLOCK) {
        if (first > 0) text_char(out, '\n');
        put_block(out, list, (const char *)records + first * list->record_size,
                     count - first < BLOCK ? count - first : BLOCK, units);
    }
}
