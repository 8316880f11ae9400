#include "program/say.h"

#include "table/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* What the user named may hold anything: it is shown, and steers nothing. */
void say(const char *format, ...)
{
    text line = {0};
    va_list arguments;
    va_start(arguments, format);
    text_format_list(&line, format, arguments);
    va_end(arguments);
    text_make_printable(&line, 0);
    fprintf(stderr, "railbow: %s\n", line.failed ? "out of memory" : line.at);
    text_free(&line);
}

void say_lines(const char *lines)
{
    while (*lines != '\0') {
        const size_t length = strcspn(lines, "\n");
        fprintf(stderr, "railbow: %.*s\n", (int)length, lines);
        lines += length + (lines[length] == '\n');
    }
}
