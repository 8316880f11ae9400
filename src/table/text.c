#include "table/text.h"

#include "table/utf8.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_ROOM = 64, QUOTE_MOST = 40 };

/* Doubles, so that a text built byte by byte costs a constant time a byte. */
char *text_grow(text *t, size_t n)
{
    if (t->failed) return NULL;
    t->failed = n > SIZE_MAX / 4 - t->length;
    if (t->failed) return NULL;
    size_t room = t->room > 0 ? t->room : FIRST_ROOM;
    while (room <= t->length + n) room *= 2;
    char *at = realloc(t->at, room);
    t->failed = at == NULL;
    if (t->failed) return NULL;
    t->at = at;
    t->room = room;
    return at + t->length;
}

void text_add(text *t, const char *bytes, size_t n)
{
    char *at = text_reserve(t, n);
    if (at == NULL) return;
    memcpy(at, bytes, n);
    at[n] = '\0';
    t->length += n;
}

void text_put(text *t, const char *string)
{
    text_add(t, string, strlen(string));
}

void text_format_list(text *t, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, arguments);
    char *at = length < 0 ? NULL : text_reserve(t, (size_t)length);
    if (at != NULL) t->length += (size_t)vsnprintf(at, (size_t)length + 1, format, again);
    t->failed |= at == NULL;
    va_end(again);
}

void text_format(text *t, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    text_format_list(t, format, arguments);
    va_end(arguments);
}

void text_item(text *t, size_t i, size_t count, const char *last, const char *item)
{
    if (i > 0 && i + 1 == count) text_format(t, " %s ", last);
    else if (i > 0) text_put(t, ", ");
    text_put(t, item);
}

size_t text_add_printable(text *t, const char *bytes, size_t n)
{
    const size_t length = utf8_character(bytes, n);
    if (length == 0 || (length == 1 && utf8_is_control(bytes, 1))) {
        text_format(t, "\\x%02X", (unsigned char)*bytes);
    } else if (utf8_is_control(bytes, length)) {
        const unsigned long code = utf8_code(bytes, length);
        text_format(t, code > 0xFFFF ? "\\U%08lX" : "\\u%04lX", code);
    } else {
        text_add(t, bytes, length);
    }
    return length > 0 ? length : 1;
}

void text_quote(text *t, const char *bytes, size_t n)
{
    size_t i = 0;
    text_char(t, '\'');
    for (int characters = 0; i < n && characters < QUOTE_MOST; characters++)
        i += text_add_printable(t, bytes + i, n - i);
    text_put(t, i < n ? "'..." : "'");
}

static bool is_printable(const char *bytes, size_t n, char kept)
{
    for (size_t i = 0; i < n;) {
        const size_t length = utf8_character(bytes + i, n - i);
        if (length == 0 || (utf8_is_control(bytes + i, length) && !(kept != '\0' && bytes[i] == kept))) return false;
        i += length;
    }
    return true;
}

/* `kept` is a control that stays; 0 for none */
static void make_printable(text *t, size_t start, char kept)
{
    if (t->failed || t->length <= start || is_printable(t->at + start, t->length - start, kept)) return;
    text raw = {0};
    text_add(&raw, t->at + start, t->length - start);
    t->length = start;
    for (size_t i = 0; i < raw.length;) {
        if (kept != '\0' && raw.at[i] == kept) text_char(t, raw.at[i++]);
        else i += text_add_printable(t, raw.at + i, raw.length - i);
    }
    t->failed |= raw.failed;
    text_free(&raw);
}

void text_make_printable(text *t, size_t start)
{
    make_printable(t, start, '\0');
}

void text_make_lines_printable(text *t)
{
    make_printable(t, 0, '\n');
}

const char *text_string(const text *t, bool *lost)
{
    *lost |= t->failed;
    return t->at != NULL ? t->at : "";
}

void text_clear(text *t)
{
    t->length = 0;
    if (t->at != NULL) t->at[0] = '\0';
}

void text_free(text *t)
{
    free(t->at);
    *t = (text){0};
}

void text_free_part(text *part, text *whole)
{
    whole->failed = whole->failed || part->failed;
    text_free(part);
}
