/* What the fuzz targets share: fuzzer bytes as a table, fed in pieces whose length the bytes choose. */
#ifndef TESTS_FUZZ_FEED_H
#define TESTS_FUZZ_FEED_H

#include "table/reader.h"
#include "table/text.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The first byte says how long the pieces are. `take` gets every good record. */
static inline void feed_table(const field_list *list, const void *prototype, const uint8_t *data, size_t size,
                              void (*take)(const void *record, void *context), void *context)
{
    if (size == 0) return;
    const size_t piece = (size_t)data[0] + 1;
    const char *at = (const char *)data + 1, *end = (const char *)data + size;
    reader *r = reader_new(list, "fuzz", prototype);
    row_batch b = {0};
    if (r == NULL) abort();
    while (at < end) {
        const size_t left = (size_t)(end - at), n = piece < left ? piece : left;
        char *alone = malloc(n); /* so that a byte read beyond the piece is seen */
        if (alone == NULL) abort();
        memcpy(alone, at, n);
        const reader_state state = reader_feed(r, alone, n, &b);
        for (size_t i = 0; i < b.count; i++) {
            const row *found = &b.rows[i];
            if ((found->record == NULL) == (*found->complaints == '\0')) abort();
            if (found->record != NULL) take(found->record, context);
        }
        free(alone);
        if (state == READER_STOPPED) break;
        at += n;
    }
    reader_feed(r, NULL, 0, &b);
    for (size_t i = 0; i < b.count; i++)
        if (b.rows[i].record != NULL) take(b.rows[i].record, context);
    for (const char *c = reader_trouble(r); *c != '\0'; c++)
        if ((unsigned char)*c < ' ' && *c != '\n') abort(); /* messages are printable */
    row_batch_free(&b);
    reader_free(r);
}

/* What was written: whole, without a NUL, and no drawing holds a number that is none. Frees both. */
static inline void ck_written(text *said, text *page)
{
    if (said->failed || page->failed) abort();
    if (said->length > 0 && memchr(said->at, '\0', said->length) != NULL) abort();
    if (page->length > 0 && (memchr(page->at, '\0', page->length) != NULL || strstr(page->at, "=\"nan") != NULL)) abort();
    text_free(said);
    text_free(page);
}

#endif
