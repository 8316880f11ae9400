#include "report/list_text.h"

#include "report/grid.h"
#include "table/number.h"

#include <math.h>

const char caution[] = "An aid to judgement, no substitute for the rule book, local codes and a licensed engineer. "
                       "Elastic model; it does not cover fatigue, cracks, weld defects, dents or impact.";

void put_number(text *out, double value, int digits)
{
    char written[NUMBER_ROOM];
    if (isnan(value)) {
        text_put(out, "-");
    } else if (isinf(value)) {
        text_put(out, value > 0 ? "no limit" : "-no limit");
    } else {
        number_write_digits(written, value, digits);
        text_put(out, written);
    }
}

void put_percent(text *out, double share)
{
    if (isinf(share))
        text_put(out, "no limit");
    else if (share > 99.99)
        text_put(out, "over 9999 %");
    else
        text_format(out, "%+.1f %%", 100 * share);
}

void put_factor(text *out, double factor)
{
    if (isinf(factor))
        text_put(out, "no limit");
    else if (factor > 999)
        text_put(out, "over 999");
    else
        text_format(out, "%.2f", factor);
}

static void add_cell(grid *g, const field *f, const void *record, unit_system units)
{
    text cell = {0};
    const unit *shown = unit_shown(f->dimension, units);
    const char *word = field_text(f, record);
    if (word != NULL)
        text_put(&cell, word);
    else
        put_number(&cell, shown != NULL ? unit_from_own(shown, field_get(f, record)) : field_get(f, record), 5);
    grid_cell(g, TONE_PLAIN, text_string(&cell, &g->cells.failed));
    text_free(&cell);
}

static void put_head(text *head, const field *f, unit_system units)
{
    const unit *shown = unit_shown(f->dimension, units);
    text_put(head, f->name);
    if (shown != NULL) text_format(head, " [%s]", shown->name);
}

static void turned_block(text *out, const field_list *list, const void *records, size_t count, unit_system units)
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

void list_text_turned(text *out, const field_list *list, const void *records, size_t count, unit_system units)
{
    enum { BLOCK = 6 };
    for (size_t first = 0; first < count; first += BLOCK) {
        if (first > 0) text_char(out, '\n');
        turned_block(out, list, (const char *)records + first * list->record_size,
                     count - first < BLOCK ? count - first : BLOCK, units);
    }
}
