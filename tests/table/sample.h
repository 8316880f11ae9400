/* A small table with a field of every kind, and what a reader makes of a file, as one text to compare. */
#ifndef TESTS_TABLE_SAMPLE_H
#define TESTS_TABLE_SAMPLE_H

#include "near.h"
#include "table/number.h"
#include "table/reader.h"

#include <string.h>

typedef struct sample {
    const char *name, *note;
    double length, slope, share, load, end, hinge;
    int shape;
} sample;

enum { SHAPE_SINE, SHAPE_ARC, SHAPE_KINK };

static const field_word sample_shapes[] = {
    {"sine", SHAPE_SINE}, {"arc", SHAPE_ARC}, {"kink", SHAPE_KINK}, {NULL, 0}};
static const field_word sample_ends[] = {{"pinned", 0}, {"fixed", INFINITY}, {NULL, 0}};
static const field_word sample_hinges[] = {{"loose", -1}, {NULL, 0}};

#define DEGREE (3.14159265358979323846 / 180)
#define FIELD(kind_, name_, dimension_)                                                                        \
    .name = #name_, .kind = kind_, .dimension = dimension_, .offset = offsetof(sample, name_)
#define NUMBER(name_, dimension_) FIELD(FIELD_NUMBER, name_, dimension_)
#define EITHER(name_, dimension_) FIELD(FIELD_EITHER, name_, dimension_)

static const field sample_fields[] = {
    {.name = "name", .kind = FIELD_TEXT, .offset = offsetof(sample, name), .rule = FIELD_REQUIRED},
    {.name = "note", .kind = FIELD_TEXT, .offset = offsetof(sample, note)},
    {NUMBER(length, DIM_LENGTH), .most = INFINITY, .rule = FIELD_REQUIRED | FIELD_ABOVE},
    {NUMBER(slope, DIM_ANGLE), .least = -90 * DEGREE, .most = 90 * DEGREE},
    {NUMBER(share, DIM_NONE), .fallback = 0.5, .most = 1, .rule = FIELD_ABOVE},
    {NUMBER(load, DIM_FORCE), .least = -INFINITY, .most = INFINITY, .rule = FIELD_LISTED},
    {EITHER(end, DIM_ROTATIONAL_STIFFNESS), .most = INFINITY, .words = sample_ends},
    {EITHER(hinge, DIM_ANGLE), .least = -INFINITY, .most = INFINITY, .words = sample_hinges},
    {.name = "shape",
     .kind = FIELD_WORD,
     .offset = offsetof(sample, shape),
     .fallback = SHAPE_ARC,
     .words = sample_shapes},
};

static const field_list sample_list = {"sample", sample_fields, sizeof sample_fields / sizeof *sample_fields,
                                       sizeof(sample)};

static inline void show_record(text *out, const void *record)
{
    for (const field *f = sample_fields; f < sample_fields + sample_list.count; f++) {
        char digits[NUMBER_ROOM];
        const char *word = f->kind == FIELD_NUMBER ? NULL : field_text(f, record);
        if (word == NULL) number_write_digits(digits, field_get(f, record), 17);
        text_format(out, " %s=%s", f->name, word != NULL ? word : digits);
    }
    text_char(out, '\n');
}

static inline void show_batch(text *out, const row_batch *b)
{
    for (size_t i = 0; i < b->count; i++) {
        const row *at = &b->rows[i];
        ck_assert((at->record == NULL) == (at->complaints[0] != '\0'));
        text_format(out, "%zu", at->line);
        if (at->record != NULL) show_record(out, at->record);
        else text_format(out, " bad\n%s", at->complaints);
    }
}

/* How long the next piece is: a fixed length, or (0) random ones up to 40. */
static inline size_t piece(size_t fixed, unsigned *seed)
{
    *seed = *seed * 1103515245U + 12345U;
    return fixed > 0 ? fixed : 1 + (*seed >> 16) % 40;
}

/* Rows as "LINE name=... note=..." or "LINE bad" and the complaints; then what was wrong with the whole. */
static inline text read_bytes(const char *bytes, size_t n, size_t cut)
{
    sample prototype;
    field_defaults(&sample_list, &prototype);
    reader *r = reader_new(&sample_list, "f.csv", &prototype);
    ck_assert_ptr_nonnull(r);
    row_batch batches[2] = {{0}, {0}}; /* in turns, as a pipeline would */
    text out = {0};
    unsigned seed = (unsigned)n;
    size_t fed = 0;
    reader_state state = READER_GOING;
    while (n > 0 && state == READER_GOING) {
        const size_t wanted = piece(cut, &seed), taken = wanted < n ? wanted : n;
        row_batch *b = &batches[fed++ % 2];
        state = reader_feed(r, bytes, taken, b);
        show_batch(&out, b);
        bytes += taken;
        n -= taken;
    }
    if (state == READER_GOING) state = reader_feed(r, NULL, 0, &batches[0]);
    else batches[0].count = 0;
    show_batch(&out, &batches[0]);
    ck_assert((state == READER_STOPPED) == (reader_trouble(r)[0] != '\0'));
    text_put(&out, reader_trouble(r));
    row_batch_free(&batches[0]);
    row_batch_free(&batches[1]);
    reader_free(r);
    return out;
}

#define WHOLE ((size_t)-1)

static inline void reads(const char *bytes, size_t n, const char *want)
{
    static const size_t cuts[] = {WHOLE, 1, 2, 3, 7, 0};
    for (size_t i = 0; i < sizeof cuts / sizeof *cuts; i++) {
        text got = read_bytes(bytes, n, cuts[i]);
        ck_assert_str_eq(got.at, want);
        text_free(&got);
    }
}

/* A file, a literal that may hold NULs, and all that must come of it, whole and in pieces. */
#define READS(file, want) reads(file, sizeof(file) - 1, want)

#endif
