#include "table/reader_inside.h"

#include <stdlib.h>
#include <string.h>

/* While a batch grows, its blocks may move. Until it is settled, offsets stand in the place of the pointers:
 * of each row's complaints and of each record's texts. The texts begin with "", so that offset 0 is a row
 * without complaints; the records of these rows lie in their order. */

static void put_offset(void *pointer_place, size_t offset)
{
    memcpy(pointer_place, &offset, sizeof offset);
}

static size_t get_offset(const void *pointer_place)
{
    size_t offset;
    memcpy(&offset, pointer_place, sizeof offset);
    return offset;
}

static void put_pointer(void *pointer_place, const char *pointer)
{
    memcpy(pointer_place, &pointer, sizeof pointer);
}

/* From one record to the next, so that each may hold anything. */
static size_t stride(const reader *r)
{
    const size_t step = _Alignof(max_align_t);
    return (r->list->record_size + step - 1) / step * step;
}

bool batch_start(batch *b)
{
    b->count = 0;
    text_clear(&b->records);
    text_clear(&b->texts);
    text_add(&b->texts, "", 1);
    return !b->texts.failed && !b->records.failed;
}

static bool make_room(batch *b)
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

/* The reader's record holds offsets into the reader's own texts; in the batch these texts begin at `base`. */
static void add_record(batch *b, const reader *r)
{
    const size_t base = b->texts.length;
    char *record = text_reserve(&b->records, stride(r));
    if (record == NULL) return;
    memcpy(record, r->record, r->list->record_size);
    for (size_t i = 0; i < r->text_count; i++) {
        char *place = record + r->text_places[i];
        put_offset(place, base + get_offset(place));
    }
    b->records.length += stride(r);
    text_add(&b->texts, r->texts.at, r->texts.length);
}

bool batch_add(batch *b, const reader *r)
{
    const bool good = r->complaints.length == 0;
    if (!make_room(b)) return false;
    row *added = &b->rows[b->count];
    added->line = r->row_line;
    put_offset(&added->complaints, good ? 0 : b->texts.length);
    if (good) add_record(b, r);
    else text_add(&b->texts, r->complaints.at, r->complaints.length + 1);
    if (b->texts.failed || b->records.failed) return false;
    b->count++;
    return true;
}

static void settle_record(char *record, const reader *r, const char *texts)
{
    for (size_t i = 0; i < r->text_count; i++) {
        char *place = record + r->text_places[i];
        put_pointer(place, texts + get_offset(place));
    }
}

void batch_settle(batch *b, const reader *r)
{
    char *record = b->records.at;
    for (size_t i = 0; i < b->count; i++) {
        row *next = &b->rows[i];
        const size_t complaints = get_offset(&next->complaints);
        next->complaints = b->texts.at + complaints;
        next->record = NULL;
        if (complaints > 0) continue;
        settle_record(record, r, b->texts.at);
        next->record = record;
        record += stride(r);
    }
}

void batch_free(batch *b)
{
    free(b->rows);
    text_free(&b->records);
    text_free(&b->texts);
    *b = (batch){0};
}
