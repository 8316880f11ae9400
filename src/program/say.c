#include "program/say.h"

#include "table/text.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Messages that differ in numbers and quoted words alone are of one kind. Twenty of a kind are shown, then they are counted;
 * kinds past KINDS are all shown. */
enum { KINDS = 64, SHOWN_MOST = 20, FIRST_ROOM = 160 };

static struct {
    uint64_t key;
    size_t count;
    char first[FIRST_ROOM]; /* what the first of them said */
    bool is_cut;
} kinds[KINDS];
static size_t kind_count;

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* FNV-1a over what stays the same in messages of a kind. */
static uint64_t key_of(const char *line, size_t n)
{
    uint64_t key = 14695981039346656037U;
    bool quoted = false;
    for (size_t i = 0; i < n; i++) {
        if (line[i] == '\'') quoted = !quoted;
        if (quoted || is_digit(line[i])) continue;
        key = (key ^ (unsigned char)line[i]) * 1099511628211U;
    }
    return key;
}

/* Whether the message is to be shown. */
static bool count_in(const char *line, size_t n)
{
    const uint64_t key = key_of(line, n);
    for (size_t i = 0; i < kind_count; i++)
        if (kinds[i].key == key) return ++kinds[i].count <= SHOWN_MOST;
    if (kind_count == KINDS) return true;
    kinds[kind_count].key = key;
    kinds[kind_count].count = 1;
    size_t kept = n < FIRST_ROOM ? n : FIRST_ROOM - 1;
    while (kept < n && kept > 0 && (line[kept] & 0xC0) == 0x80) kept--; /* no half character */
    memcpy(kinds[kind_count].first, line, kept);
    kinds[kind_count].first[kept] = '\0';
    kinds[kind_count++].is_cut = kept < n;
    return true;
}

static void put_line(const char *line, size_t n)
{
    if (count_in(line, n)) fprintf(stderr, "railbow: %.*s\n", (int)n, line);
}

/* What the user named may hold anything: it is shown, and steers nothing. */
void say(const char *format, ...)
{
    text line = {0};
    va_list arguments;
    va_start(arguments, format);
    text_format_list(&line, format, arguments);
    va_end(arguments);
    text_make_printable(&line, 0);
    if (line.failed) text_free(&line);
    if (line.at != NULL) put_line(line.at, line.length);
    else fputs("railbow: out of memory\n", stderr);
    text_free(&line);
}

void say_lines(const char *lines)
{
    while (*lines != '\0') {
        const size_t length = strcspn(lines, "\n");
        put_line(lines, length);
        lines += length + (lines[length] == '\n');
    }
}

void say_rest(void)
{
    for (size_t i = 0; i < kind_count; i++) {
        if (kinds[i].count <= SHOWN_MOST) continue;
        fprintf(stderr, "railbow: %zu more messages of this kind are not shown: %s%s\n", kinds[i].count - SHOWN_MOST,
                kinds[i].first, kinds[i].is_cut ? "..." : "");
    }
    kind_count = 0;
}
