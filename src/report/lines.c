#include "report/lines.h"

#include <stdio.h>
#include <string.h>

/* Continuation bytes of UTF-8 take no room. */
size_t line_width(const char *string)
{
    size_t width = 0;
    for (; *string != '\0'; string++) width += ((unsigned char)*string & 0xC0) != 0x80;
    return width;
}

void line_pad(text *out, size_t n)
{
    while (n-- > 0) text_char(out, ' ');
}

void shorten(text *out, const char *string, size_t most)
{
    text plain = {0};
    text_put(&plain, string);
    text_make_printable(&plain, 0);
    const char *from = text_string(&plain, &out->failed);
    const bool fits = line_width(from) <= most;
    for (size_t width = 0; *from != '\0'; from++) {
        width += ((unsigned char)*from & 0xC0) != 0x80;
        if (!fits && width > most - 3) break;
        text_char(out, *from);
    }
    if (!fits) text_put(out, "...");
    text_free(&plain);
}

static bool ends_in_digit(const char *word)
{
    const size_t length = strlen(word);
    return length > 0 && word[length - 1] >= '0' && word[length - 1] <= '9';
}

void wrap_from(text *out, const char *paragraph, size_t column, size_t indent)
{
    bool begun = false, number = false; /* a number keeps its unit on its line */
    while (*paragraph != '\0') {
        const size_t length = strcspn(paragraph, " ");
        char word[256];
        snprintf(word, sizeof word, "%.*s", (int)length, paragraph);
        const size_t width = line_width(word), next = paragraph[length] == ' ' ? strcspn(paragraph + length + 1, " ") + 1 : 0;
        if (begun && !number && column + 1 + width + (ends_in_digit(word) ? next : 0) > LINE_MOST) {
            text_char(out, '\n');
            line_pad(out, indent);
            column = indent;
        } else if (begun) {
            text_char(out, ' ');
            column++;
        }
        begun = true;
        number = ends_in_digit(word);
        text_put(out, word);
        column += width;
        paragraph += length + (paragraph[length] == ' ');
    }
}

void wrap(text *out, const char *paragraph, size_t indent)
{
    wrap_from(out, paragraph, 0, indent);
    text_char(out, '\n');
}
