/* The one form that every message has. */
#ifndef RAILBOW_TABLE_MESSAGES_H
#define RAILBOW_TABLE_MESSAGES_H

#include "table/text.h"

/* One line: "FILE:LINE: COLUMN: ...\n". `column` may be NULL; line 0 leaves it out. */
void message_add(text *out, const char *file, size_t line, const char *column, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

#endif
