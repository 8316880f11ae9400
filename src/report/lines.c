#include "report/lines.h"

#include "report/characters.h"

#include <string.h>

size_t line_width(const char *string)
{
    size_t width = 0;
    for (; *string != '\0'; string += character_length(string)) width += character_width(string);
    return width;
}

void line_pad(text *out, size_t n)
{
    while (n-- > 0) text_char(out, ' ');
}

size_t line_part(const char *string, size_t width)
{
    size_t length = 0, taken = 0;
    while (string[length] != '\0') {
        taken += character_width(string + length);
        if (taken > width && length > 0) break;
        length += character_length(string + length);
    }
    return length;
}

/* ---- what users wrote ------------------------------------------------------------------------------- */

void put_printable(text *out, const char *string)
{
    text plain = {0};
    text_put(&plain, string);
    text_make_printable(&plain, 0);
    const char *from = text_string(&plain, &out->failed);
    for (; *from != '\0'; from += character_length(from)) {
        if (character_is_hidden(from))
            text_format(out, "\\u%04lX", character_number(from));
        else
            text_add(out, from, character_length(from));
    }
    text_free(&plain);
}

/* Where the end of a string begins that fills at most `width` columns. */
static const char *tail_of(const char *string, size_t width)
{
    size_t left = line_width(string);
    while (left > width || (*string != '\0' && character_width(string) == 0)) { /* no mark without its letter */
        left -= character_width(string);
        string += character_length(string);
    }
    return string;
}

void shorten(text *out, const char *string, size_t most)
{
    text plain = {0};
    put_printable(&plain, string);
    const char *from = text_string(&plain, &out->failed);
    if (line_width(from) <= most) {
        text_put(out, from);
    } else {
        const size_t kept = most - 1, head = (kept + 1) / 2;
        text_add(out, from, line_part(from, head));
        text_put(out, "\xE2\x80\xA6");
        text_put(out, tail_of(from, kept - head));
    }
    text_free(&plain);
}

/* ---- paragraphs ------------------------------------------------------------------------------------- */

static bool ends_in_digit(const char *word, size_t length)
{
    return length > 0 && word[length - 1] >= '0' && word[length - 1] <= '9';
}

static size_t width_of(const char *word, size_t length)
{
    size_t width = 0;
    for (const char *at = word; at < word + length; at += character_length(at)) width += character_width(at);
    return width;
}

/* A word, broken where a line ends if it must. Returned: the column behind it. */
static size_t put_word(text *out, const char *word, size_t length, size_t column, size_t indent, size_t width)
{
    while (length > 0) {
        const size_t room = width > column ? width - column : 1, fits = line_part(word, room);
        const size_t part = fits < length ? fits : length;
        text_add(out, word, part);
        column += width_of(word, part);
        word += part;
        length -= part;
        if (length == 0) break;
        text_char(out, '\n');
        line_pad(out, indent);
        column = indent;
    }
    return column;
}

void wrap_from(text *out, const char *paragraph, size_t column, size_t indent, size_t width)
{
    bool begun = false, number = false; /* a number keeps its unit on its line */
    while (*paragraph != '\0') {
        const size_t length = strcspn(paragraph, " "), own = width_of(paragraph, length);
        const bool digit = ends_in_digit(paragraph, length);
        const size_t next = paragraph[length] == ' ' ? strcspn(paragraph + length + 1, " ") : 0;
        const size_t unit = digit && next > 0 ? 1 + width_of(paragraph + length + 1, next) : 0;
        if (begun && column + 1 + own + unit > width && (!number || column + 1 + own > width)) {
            text_char(out, '\n');
            line_pad(out, indent);
            column = indent;
        } else if (begun) {
            text_char(out, ' ');
            column++;
        }
        begun = true;
        number = digit;
        column = put_word(out, paragraph, length, column, indent, width);
        paragraph += length + (paragraph[length] == ' ');
    }
}

void wrap(text *out, const char *paragraph, size_t indent, size_t width)
{
    text lines = {0};
    wrap_from(&lines, paragraph, 0, indent, width);
    for (const char *at = text_string(&lines, &out->failed); *at != '\0';) { /* no blanks at the end of a line */
        const size_t length = strcspn(at, "\n");
        size_t kept = length;
        while (kept > 0 && at[kept - 1] == ' ') kept--;
        text_add(out, at, kept);
        at += length;
        if (*at != '\0') text_char(out, *at++);
    }
    text_char(out, '\n');
    text_free(&lines);
}
