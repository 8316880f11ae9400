/* A growing text, and the writer callback through which all output leaves. */
#ifndef RAILBOW_TABLE_TEXT_H
#define RAILBOW_TABLE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct text {
    char *at; /* NUL-terminated once anything was added; NULL before */
    size_t length;
    size_t room;
    bool failed; /* memory ran out: what was added since is lost; sticky until text_free */
} text;

/* Makes room for n more bytes and their NUL and returns where they go (NULL if memory ran out);
 * the caller adds what it wrote to `length`. */
static inline char *text_reserve(text *t, size_t n);

void text_add(text *t, const char *bytes, size_t n);
void text_put(text *t, const char *string);
static inline void text_char(text *t, char c);
void text_format(text *t, const char *format, ...) __attribute__((format(printf, 2, 3)));
void text_format_list(text *t, const char *format, va_list arguments) __attribute__((format(printf, 2, 0)));

/* The i-th of `count` items in a sentence: "a", "a or b", "a, b or c" (with "or" for `last`). */
void text_item(text *t, size_t i, size_t count, const char *last, const char *item);

/* One character as it may be shown: a control (utf8.h) as \xNN or \uNNNN, a byte that is not UTF-8 as \xNN.
 * Returned: how many bytes of bytes[0..n) it took (n > 0). */
size_t text_add_printable(text *t, const char *bytes, size_t n);

/* What a user wrote, as a message quotes it: printable, in single quotes, cut to 40 characters ("..." follows). */
void text_quote(text *t, const char *bytes, size_t n);

/* Makes the end of a text, from `start` on, or all of it but the ends of its lines, printable. */
void text_make_printable(text *t, size_t start);
void text_make_lines_printable(text *t);

/* What it says ("" before anything was added); *lost becomes true where memory ran out on the way. */
const char *text_string(const text *t, bool *lost);

void text_clear(text *t); /* empty again, memory kept, failed kept */
void text_free(text *t);

/* Frees a part of a greater text, which fails where its part did. */
void text_free_part(text *part, text *whole);

/* Where finished bytes go: a file, a string, a browser. Returns 0, or -1 when they could not be taken. */
typedef struct sink {
    int (*write)(void *context, const char *bytes, size_t n);
    void *context;
} sink;

/* What a row of an answer asks sixty times is here to be inline. */

char *text_grow(text *t, size_t n); /* text_reserve where there may be no room */

static inline char *text_reserve(text *t, size_t n)
{
    return !t->failed && n < t->room - t->length ? t->at + t->length : text_grow(t, n);
}

static inline void text_char(text *t, char c)
{
    char *at = text_reserve(t, 1);
    if (at == NULL) return;
    at[0] = c;
    at[1] = '\0';
    t->length++;
}

#endif
