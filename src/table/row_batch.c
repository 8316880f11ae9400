#include "table/row_batch.h"

#include <stdlib.h>
#include <string.h>

/* While a batch grows, its blocks may move. Until it is settled, offsets stand in the place of the pointers:
 * of each row's complaints and of each record's texts. The texts begin with "", so that offset 0 is a row
 * without complaints; the records of these rows lie in their order. */

static void put_offset(void *pointer, size_t offset)
{
    memcpy(pointer, &offset, sizeof offset);
}

static size_t get_offset(const void *pointer)
{
    size_t offset;
    memcpy(&offset, pointer, sizeof offset);
    return offset;
}

static void put_pointer(void *pointer, const char *target)
{
    memcpy(pointer, &target, sizeof target);
}

/* From one record to the next, so that each may hold anything. */
static size_t stride(const record_layout *l)
{
    const size_t step = _Alignof(max_align_t);
    return (l->record_size + step - 1) / step * step;
}

bool row_batch_start(row_batch *b)
{
    b->count = 0;
    text_clear(&b->records);
    text_clear(&b->texts);
    text_add(&b->texts, "", 1);
    return !b->texts.failed && !b->records.failed;
}

static bool make_room(row_batch *b)
{
    enum { FIRST_ROOM = 16 };
    if (b->count < b->room) return true;
    const size_t room = b->room > 0 ? 2 * b->room : FIRST_ROOM;
    row *rows = realloc(b->rows, room * sizeof *rows);
    if (rows == NULL) return false;
    b->rows = rows;
    b->room = room;
    return true;
}

/* The finished record holds offsets into its own texts; in the batch these texts begin at `base`. */
static void add_record(row_batch *b, const record_layout *l, const finished_row *finished)
{
    const size_t base = b->texts.length;
    char *record = text_reserve(&b->records, stride(l));
    if (record == NULL) return;
    memcpy(record, finished->record, l->record_size);
    for (size_t i = 0; i < l->text_count; i++) {
        char *pointer = record + l->text_offsets[i];
        put_offset(pointer, base + get_offset(pointer));
    }
    b->records.length += stride(l);
    text_add(&b->texts, finished->texts->at, finished->texts->length);
}

bool row_batch_add(row_batch *b, const record_layout *l, const finished_row *finished)
{
    const text *complaints = finished->complaints;
    if (!make_room(b)) return false;
    row *added = &b->rows[b->count];
    added->line = finished->line;
    put_offset(&added->complaints, complaints == NULL ? 0 : b->texts.length);
    if (complaints == NULL) add_record(b, l, finished);
    else text_add(&b->texts, complaints->at, complaints->length + 1);
    if (b->texts.failed || b->records.failed) return false;
    b->count++;
    return true;
}

static void settle_record(char *record, const record_layout *l, const char *texts)
{
    for (size_t i = 0; i < l->text_count; i++) {
        char *pointer = record + l->text_offsets[i];
        put_pointer(pointer, texts + get_offset(pointer));
    }
}

void row_batch_settle(row_batch *b, const record_layout *l)
{
    char *record = b->records.at;
    for (size_t i = 0; i < b->count; i++) {
        row *next = &b->rows[i];
        const size_t complaints = get_offset(&next->complaints);
        next->complaints = b->texts.at + complaints;
        next->record = NULL;
        if (complaints > 0) continue;
        settle_record(record, l, b->texts.at);
        next->record = record;
        record += stride(l);
    }
}

void row_batch_free(row_batch *b)
{
    free(b->rows);
    text_free(&b->records);
    text_free(&b->texts);
    *b = (row_batch){0};
}
