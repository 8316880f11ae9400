#define _POSIX_C_SOURCE 200809L
#include "program/rows.h"

#include "program/say.h"
#include "report/json/json.h"
#include "table/writer.h"

#include <stdlib.h>
#include <string.h>

rows rows_for(const output *out, const field_list *list)
{
    return (rows){.list = list, .format = out->format, .units = out->units};
}

static bool make_room(rows *r, size_t more)
{
    if (r->count + more <= r->room) return true;
    const size_t room = 2 * (r->count + more);
    char *kept = realloc(r->kept, room * r->list->record_size);
    if (kept == NULL) return false;
    r->kept = kept;
    r->room = room;
    return true;
}

static char **text_at(const rows *r, size_t record, const field *f)
{
    return (char **)(void *)(r->kept + record * r->list->record_size + f->offset);
}

static void keep(rows *r, const void *record)
{
    if (!make_room(r, 1)) {
        r->failed = true;
        return;
    }
    memcpy(r->kept + r->count * r->list->record_size, record, r->list->record_size);
    for (size_t i = 0; i < r->list->count; i++) {
        const field *f = &r->list->fields[i];
        if (f->kind != FIELD_TEXT) continue;
        *text_at(r, r->count, f) = strdup(field_text(f, record));
        r->failed = r->failed || *text_at(r, r->count, f) == NULL;
    }
    r->count++;
}

static void drop_kept(rows *r)
{
    for (size_t i = 0; i < r->count; i++)
        for (size_t k = 0; k < r->list->count; k++)
            if (r->list->fields[k].kind == FIELD_TEXT) free(*text_at(r, i, &r->list->fields[k]));
    r->count = 0;
}

static void keep_preferred(rows *r, const void *record)
{
    if (r->prefers == NULL || (r->count > 0 && !r->prefers(record, r->kept))) return;
    drop_kept(r);
    keep(r, record);
}

/* So much of a row with many answers is held at most. */
static void pass_on(rows *r)
{
    enum { HELD_MOST = 256 * 1024 };
    if (r->stream == NULL || r->written.length < HELD_MOST || r->stopped) return;
    r->stream->answered = true;
    r->stopped = !output_text(r->stream, &r->written);
}

void rows_add(rows *r, const void *record)
{
    switch (r->format) {
        case FORMAT_CSV: csv_row(&r->written, r->list, record, r->units); break;
        case FORMAT_JSON: json_row(&r->written, r->list, record, r->units); break;
        default: keep(r, record); return;
    }
    keep_preferred(r, record);
    pass_on(r);
}

bool rows_hand_on(rows *r, output *out, rows *kept)
{
    if (r->written.length > 0 || r->count > 0) out->answered = true;
    if (!output_text(out, &r->written)) return false;
    if (r->failed || (r->count > 0 && !make_room(kept, r->count))) {
        say("out of memory");
        return false;
    }
    if (r->prefers != NULL && r->count > 0 && kept->count > 0) {
        if (!r->prefers(r->kept, kept->kept)) {
            drop_kept(r);
            return true;
        }
        drop_kept(kept);
    }
    if (r->count > 0) /* the copies of the texts go along */
        memcpy(kept->kept + kept->count * r->list->record_size, r->kept, r->count * r->list->record_size);
    kept->count += r->count;
    r->count = 0;
    return true;
}

void rows_free(rows *r)
{
    drop_kept(r);
    free(r->kept);
    text_free(&r->written);
}

bool rows_begin(output *out, const field_list *list, const run_facts *facts)
{
    text t = {0};
    if (out->format == FORMAT_CSV) csv_header(&t, list, out->units);
    if (out->format == FORMAT_JSON) json_open(&t, facts, list, out->units);
    const bool fine = output_text(out, &t);
    text_free(&t);
    out->drop_comma = out->format == FORMAT_JSON;
    return fine;
}

bool rows_end(output *out, size_t refused, const rows *beside, const char *name)
{
    text t = {0};
    out->drop_comma = false;
    if (out->format == FORMAT_JSON && beside == NULL) json_close(&t, refused);
    if (out->format == FORMAT_JSON && beside != NULL) json_close_beside(&t, name, beside->list, &beside->written, beside->cut_short, beside->units, refused);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}
