#include "table/reader_header.h"

#include "table/messages.h"
#include "table/names.h"
#include "table/utf8.h"

#include <string.h>

enum { UNKNOWN_MANY = 4 }; /* so many unknown columns look like a table of something else */

typedef struct span {
    const char *at;
    size_t length;
} span;

typedef struct heading {
    span name, unit;
    bool has_unit, is_closed; /* whether there is a bracket, and its other half at the end */
} heading;

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static span trimmed(const char *at, size_t length)
{
    while (length > 0 && is_blank(at[length - 1])) length--;
    while (length > 0 && is_blank(at[0])) at++, length--;
    return (span){at, length};
}

static heading take_heading(const char *cell, size_t n)
{
    const span all = trimmed(cell, n);
    const char *bracket = memchr(all.at, '[', all.length);
    if (bracket == NULL) return (heading){.name = all};
    heading h = {.name = trimmed(all.at, (size_t)(bracket - all.at)), .has_unit = true};
    const size_t behind = all.length - (size_t)(bracket + 1 - all.at);
    h.is_closed = behind > 0 && bracket[behind] == ']';
    if (h.is_closed) h.unit = trimmed(bracket + 1, behind - 1);
    return h;
}

static const field *find(const field_list *list, span name)
{
    for (size_t i = 0; i < list->count; i++)
        if (name_is(list->fields[i].name, name.at, name.length)) return &list->fields[i];
    return NULL;
}

static const file_column *column_of(const reader *r, const field *f)
{
    const size_t count = r->cells < COLUMNS_MOST ? r->cells : COLUMNS_MOST;
    for (size_t i = 0; i < count; i++)
        if (r->columns[i].field == f) return &r->columns[i];
    return NULL;
}

static const char *quote(reader *r, span s)
{
    return reader_quote(r, s.at, s.length);
}

#define FAULT(column, ...) message_add(&r->trouble, r->file, r->row_line, column, __VA_ARGS__)

/* The field that a like table calls so; NULL for none. */
static const field *find_stranger(const field_list *list, span name)
{
    for (size_t i = 0; i < list->count; i++)
        if (list->fields[i].stranger != NULL && name_is(list->fields[i].stranger, name.at, name.length)) return &list->fields[i];
    return NULL;
}

static void unknown(reader *r, span name)
{
    const field *stranger = find_stranger(r->list, name);
    const char *near = NULL, *shown = quote(r, name);
    r->unknown++;
    text_clear(&r->said);
    text_add(&r->said, name.at, name.length);
    if (!r->said.failed) near = field_nearest(r->list, r->said.at);
    if (name.length == 0) FAULT(NULL, "column %zu has no name", r->cells);
    else if (stranger != NULL) FAULT(NULL, "unknown column %s: %s", shown, stranger->instead);
    else if (near != NULL) FAULT(NULL, "unknown column %s; did you mean '%s'?", shown, near);
    else FAULT(NULL, "unknown column %s", shown);
}

static bool has_dimension(const field *f)
{
    return (f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER) && f->dimension != DIM_NONE;
}

/* A column whose header has no bracket. */
static void do_without_unit(reader *r, file_column *c)
{
    const field *f = c->field;
    if (!has_dimension(f)) return;
    if (f->dimension == DIM_ANGLE) c->unit = unit_find(DIM_ANGLE, "deg", 3);
    else if (f->kind == FIELD_EITHER) c->numbers_refused = true;
    else
        FAULT(f->name, "needs its unit in the header: %s, as in '%s [%s]'", reader_unit_names(r, f->dimension),
              f->name, unit_at(f->dimension, 0)->name);
}

static void take_unit(reader *r, file_column *c, const heading *h)
{
    const field *f = c->field;
    if (!h->has_unit) {
        do_without_unit(r, c);
    } else if (!h->is_closed) {
        FAULT(f->name, "the bracket around the unit is not closed");
    } else if (!has_dimension(f)) {
        FAULT(f->name, "takes no unit, but has %s", quote(r, h->unit));
    } else {
        c->unit = c->named = unit_find(f->dimension, h->unit.at, h->unit.length);
        if (c->named == NULL)
            FAULT(f->name, "%s is not a unit for it: use %s", quote(r, h->unit),
                  reader_unit_names(r, f->dimension));
    }
}

/* A column whose unit is wrong still counts as there. One without any header is passed over. */
static void take_name(reader *r, heading h)
{
    const field *f = find(r->list, h.name);
    if (h.name.length == 0 && !h.has_unit) return;
    if (f == NULL) {
        unknown(r, h.name);
    } else if (column_of(r, f) != NULL) {
        FAULT(f->name, "the column is given twice");
    } else {
        file_column *c = &r->columns[r->cells - 1];
        c->field = f;
        r->named_count = r->cells;
        take_unit(r, c, &h);
    }
}

void header_cell(reader *r, const char *cell, size_t n)
{
    if (++r->cells > COLUMNS_MOST) return;
    r->columns[r->cells - 1] = (file_column){.field = NULL};
    if (n > READER_CELL_MOST) FAULT(NULL, "column %zu: is longer than %d bytes", r->cells, READER_CELL_MOST);
    else if (!utf8_valid(cell, n))
        FAULT(NULL, "column %zu: %s is not UTF-8: save the file as UTF-8", r->cells, reader_quote(r, cell, n));
    else take_name(r, take_heading(cell, n));
}

static bool is_missing(const reader *r, const field *f)
{
    return (f->rule & FIELD_REQUIRED) && column_of(r, f) == NULL;
}

static void find_missing(reader *r)
{
    size_t count = 0, i = 0;
    for (const field *f = r->list->fields; f < r->list->fields + r->list->count; f++) count += is_missing(r, f);
    if (count == 0) return;
    text_clear(&r->said);
    for (const field *f = r->list->fields; f < r->list->fields + r->list->count; f++)
        if (is_missing(r, f)) text_item(&r->said, i++, count, "and", f->name);
    if (!r->said.failed) FAULT(NULL, "%s %s missing", r->said.at, count == 1 ? "is" : "are");
}

/* A line of nothing but separators is no header. */
static bool is_empty(const reader *r)
{
    return r->named_count == 0 && r->trouble.length == 0 && r->cells <= COLUMNS_MOST;
}

void header_end(reader *r)
{
    if (is_empty(r)) {
        r->cells = 0;
        return;
    }
    if (r->cells > COLUMNS_MOST)
        FAULT(NULL, "has %zu columns: more than %d are not read", r->cells, COLUMNS_MOST);
    find_missing(r);
    if (r->unknown >= UNKNOWN_MANY) FAULT(NULL, "%zu of its columns are unknown here: is it the right file for this command?", r->unknown);
    r->has_header = true;
    r->column_count = r->cells;
    r->cells = 0;
    if (reader_lost_text(r)) reader_stop_short_of_memory(r);
    if (r->trouble.length > 0) r->stopped = true;
}

void header_break(reader *r, size_t line, const char *fault)
{
    message_add(&r->trouble, r->file, line, NULL, "column %zu: %s", r->cells + 1, fault);
    r->stopped = true;
    if (reader_lost_text(r)) reader_stop_short_of_memory(r);
}
