#include "table/reader_core.h"

#include "table/messages.h"

#include <stdarg.h>

void reader_stop_short_of_memory(reader *r)
{
    r->trouble.failed = true;
    r->stopped = true;
}

bool reader_lost_text(const reader *r)
{
    return r->trouble.failed || r->texts.failed || r->complaints.failed || r->quoted.failed || r->said.failed;
}

const char *reader_quote(reader *r, const char *bytes, size_t n)
{
    text_clear(&r->quoted);
    text_quote(&r->quoted, bytes, n);
    return text_string(&r->quoted, &r->quoted.failed);
}

const char *reader_unit_names(reader *r, dimension d)
{
    text_clear(&r->said);
    unit_say_names(&r->said, d);
    return text_string(&r->said, &r->said.failed);
}

void reader_refuse(reader *r, const file_column *c, const char *format, ...)
{
    text words = {0};
    va_list arguments;
    va_start(arguments, format);
    text_format_list(&words, format, arguments);
    va_end(arguments);
    if (!words.failed) message_add(&r->complaints, r->file, r->row_line, c->field->name, "%s", words.at);
    r->complaints.failed |= words.failed;
    text_free(&words);
}
