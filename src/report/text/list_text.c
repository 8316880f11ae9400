#include "report/text/list_text.h"

#include "report/text/grid_write.h"
#include "report/values.h"

static void add_cell(grid *g, const field *f, const void *record, unit_system units)
{
    text cell = {0};
    const char *word = field_text(f, record);
    if (word != NULL)
        text_put(&cell, word);
    else
        put_number(&cell, shown(field_get(f, record), f->dimension, units), 4);
    grid_text(g, TONE_PLAIN, &cell);
}

static void put_head(text *head, const field *f, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    text_put(head, f->name);
    if (u != NULL) text_format(head, " [%s]", u->name);
}

static void put_block(text *out, const field_list *list, const void *records, size_t count, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_LEFT, "%s", "");
    for (size_t i = 0; i < count; i++) grid_column(&g, GRID_RIGHT, "%s", "");
    for (size_t i = 0; i < list->count; i++) {
        text head = {0};
        put_head(&head, &list->fields[i], s->units);
        grid_text(&g, TONE_PLAIN, &head);
        for (size_t k = 0; k < count; k++)
            add_cell(&g, &list->fields[i], (const char *)records + k * list->record_size, s->units);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

void list_text(text *out, const field_list *list, const void *records, size_t count, const screen *s)
{
    enum { HEAD = 25, COLUMN = 10 };
    const size_t block = s->width > HEAD + COLUMN ? (s->width - HEAD) / COLUMN : 1, most = GRID_COLUMNS_MOST - 1;
    const size_t abreast = block < most ? block : most;
    for (size_t first = 0; first < count; first += abreast) {
        if (first > 0) text_char(out, '\n');
        put_block(out, list, (const char *)records + first * list->record_size,
                  count - first < abreast ? count - first : abreast, s);
    }
}
