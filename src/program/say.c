#include "program/say.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void say(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    fputs("railbow: ", stderr);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
    va_end(arguments);
}

void say_lines(const char *lines)
{
    while (*lines != '\0') {
        const size_t length = strcspn(lines, "\n");
        fprintf(stderr, "railbow: %.*s\n", (int)length, lines);
        lines += length + (lines[length] == '\n');
    }
}
