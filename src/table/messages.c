#include "table/messages.h"

void message_add(text *out, const char *file, size_t line, const char *column, const char *format, ...)
{
    const size_t start = out->length;
    va_list arguments;
    text_put(out, file);
    if (line > 0) text_format(out, ":%zu", line);
    text_put(out, ": ");
    if (column != NULL) text_format(out, "%s: ", column);
    va_start(arguments, format);
    text_format_list(out, format, arguments);
    va_end(arguments);
    text_make_printable(out, start);
    text_char(out, '\n');
}
