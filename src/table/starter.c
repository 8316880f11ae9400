#include "table/starter.h"

#include <string.h>

static const starter *starter_of(const starter_table *t, const field *f)
{
    for (size_t i = 0; i < t->count; i++)
        if (strcmp(t->starters[i].column, f->name) == 0) return &t->starters[i];
    return NULL;
}

static const char *cells_of(const starter *s, unit_system units)
{
    return s->cells[units] != NULL ? s->cells[units] : s->cells[UNITS_US];
}

static bool has_number(const starter *s)
{
    const char *at = s != NULL ? s->cells[UNITS_US] : NULL;
    for (; at != NULL; at = strchr(at, '|') != NULL ? strchr(at, '|') + 1 : NULL)
        if (*at >= '0' && *at <= '9') return true;
    return false;
}

/* An angle without a bracket is in degrees. An end may be a word, so its header needs a unit only if a number stands in
 * the column. */
static void put_head(text *out, const field *f, const starter *s, bool all, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    text_put(out, f->name);
    if (u != NULL && f->dimension != DIM_ANGLE && (f->kind == FIELD_NUMBER || all || has_number(s))) text_format(out, " [%s]", u->name);
}

/* No cell of a starter needs quotes. */
static void put_cell(text *out, const starter *s, size_t row, unit_system units)
{
    const char *at = cells_of(s, units);
    for (; row > 0; row--) at = strchr(at, '|') + 1;
    text_add(out, at, strcspn(at, "|"));
}

static void put_row(text *out, const starter_table *t, size_t row, bool all, unit_system units)
{
    const char *comma = "";
    for (size_t i = 0; i < t->list->count; i++) {
        const field *f = &t->list->fields[i];
        const starter *s = starter_of(t, f);
        if (s == NULL && !all) continue;
        text_put(out, comma);
        comma = ",";
        if (row == 0) put_head(out, f, s, all, units);
        else if (s != NULL) put_cell(out, s, row - 1, units);
    }
    text_char(out, '\n');
}

void starter_write(text *out, const starter_table *t, bool all, unit_system units)
{
    text_put(out, t->front);
    for (size_t row = 0; row <= t->rows; row++) put_row(out, t, row, all, units);
}
