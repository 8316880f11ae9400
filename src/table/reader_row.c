#include "table/reader_row.h"

#include "table/messages.h"
#include "table/names.h"
#include "table/reader_messages.h"
#include "table/utf8.h"
#include "table/written_number.h"

#include <math.h>
#include <string.h>

static void begin(reader *r)
{
    memcpy(r->record, r->fresh, r->list->record_size);
    text_clear(&r->texts);
    text_add(&r->texts, r->fresh_texts.at, r->fresh_texts.length);
    text_clear(&r->complaints);
}

static void finish(reader *r)
{
    r->has_row = true;
    r->cells = 0;
    const bool good = r->complaints.length == 0;
    const finished_row finished = {r->row_line, r->record, &r->texts, good ? NULL : &r->complaints};
    if (reader_lost_text(r) || !row_batch_add(r->out, &r->layout, &finished)) reader_stop_short_of_memory(r);
}

static bool is_clean(reader *r, const file_column *c, const char *cell, size_t n)
{
    if (memchr(cell, '\0', n) != NULL) reader_refuse(r, c, "%s has a NUL byte in it", reader_quote(r, cell, n));
    else if (!utf8_valid(cell, n)) reader_refuse(r, c, "%s is not UTF-8", reader_quote(r, cell, n));
    else return true;
    return false;
}

static void take_empty(reader *r, const file_column *c)
{
    if (c->field->rule & (FIELD_REQUIRED | FIELD_LISTED)) reader_refuse(r, c, "is empty: a value is needed");
}

static void take_text(reader *r, const file_column *c, const char *cell, size_t n)
{
    if (!is_clean(r, c, cell, n)) return;
    memcpy((char *)r->record + c->field->offset, &r->texts.length, sizeof r->texts.length);
    text_add(&r->texts, cell, n + 1);
}

static void take_word(reader *r, const file_column *c, const char *cell, size_t n)
{
    for (const field_word *w = c->field->words; w->word != NULL; w++) {
        if (!name_is(w->word, cell, n)) continue;
        field_set_word(c->field, r->record, w->value);
        return;
    }
    if (is_clean(r, c, cell, n)) reader_refuse_word(r, c, cell, n);
}

/* Words in any order; each adds its bits. */
static void take_set(reader *r, const file_column *c, const char *cell, size_t n)
{
    int bits = 0;
    if (!is_clean(r, c, cell, n)) return;
    for (size_t from = 0; from < n;) {
        const size_t length = strcspn(cell + from, " ");
        const field_word *w = c->field->words;
        while (w->word != NULL && !name_is(w->word, cell + from, length)) w++;
        if (length > 0 && w->word == NULL) {
            reader_refuse_words(r, c, cell + from, length);
            return;
        }
        if (length > 0) bits |= (int)w->value;
        from += length + 1;
    }
    field_set_word(c->field, r->record, bits);
}

static void keep_number(reader *r, const file_column *c, double value, const char *cell, size_t n)
{
    if (c->numbers_refused)
        reader_refuse(r, c, "%s has no unit: name it in the header, %s, as in '%s [%s]'", reader_quote(r, cell, n),
                 reader_unit_names(r, c->field->dimension), c->field->name,
                 unit_at(c->field->dimension, 0)->name);
    else if (isinf(value)) reader_refuse(r, c, "%s is too large", reader_quote(r, cell, n));
    else if (!field_allows(c->field, value)) reader_refuse_bounds(r, c, cell, n);
    else field_set(c->field, r->record, value);
}

static void take_number(reader *r, const file_column *c, const char *cell, size_t n)
{
    double value;
    if (written_number_read(cell, n, c->unit, r->separator != ',', &value)) keep_number(r, c, value, cell, n);
    else if (c->field->kind == FIELD_EITHER) take_word(r, c, cell, n);
    else if (is_clean(r, c, cell, n)) reader_refuse_number(r, c, cell, n);
}

static void refuse_nameless(reader *r, const char *cell, size_t n)
{
    message_add(&r->complaints, r->file, r->row_line, NULL, "%s stands in column %zu, which has no name in the header",
                reader_quote(r, cell, n), r->cells);
}

void row_cell(reader *r, const char *cell, size_t n)
{
    if (r->cells == 0) {
        begin(r);
        r->comment = n > 0 && *cell == '#';
        r->is_filled = false;
    }
    r->is_filled |= n > 0;
    if (r->cells++ >= r->column_count) return;
    const file_column *c = &r->columns[r->cells - 1];
    if (c->field == NULL) {
        if (n > 0) refuse_nameless(r, cell, n);
    } else if (n == 0) take_empty(r, c);
    else if (n > READER_CELL_MOST) reader_refuse(r, c, "is longer than %d bytes", READER_CELL_MOST);
    else if (c->field->kind == FIELD_TEXT) take_text(r, c, cell, n);
    else if (c->field->kind == FIELD_WORD) take_word(r, c, cell, n);
    else if (c->field->kind == FIELD_SET) take_set(r, c, cell, n);
    else take_number(r, c, cell, n);
}

/* With a cell too many or too few, no complaint on one of them is sure to be on the right column. Columns without a name
 * at the end may be missing; a row of nothing but separators is none. */
void row_end(reader *r)
{
    if (!r->is_filled) {
        r->cells = 0;
        return;
    }
    if (r->cells > r->column_count || r->cells < r->named_count) {
        text_clear(&r->complaints);
        message_add(&r->complaints, r->file, r->row_line, NULL, "has %zu cell%s where the header has %zu%s",
                    r->cells, r->cells == 1 ? "" : "s", r->column_count,
                    r->comment ? ": comments (#) stand before the header only" : "");
    }
    finish(r);
}

void row_break(reader *r, size_t line, const char *fault)
{
    if (r->cells == 0) begin(r);
    const field *f = r->cells < r->column_count ? r->columns[r->cells].field : NULL;
    const char *name = f != NULL ? f->name : NULL;
    message_add(&r->complaints, r->file, line, name, "%s", fault);
    finish(r);
}
