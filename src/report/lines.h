/* Lines of an answer: their width, paragraphs broken to it, and texts cut to fit. */
#ifndef RAILBOW_REPORT_LINES_H
#define RAILBOW_REPORT_LINES_H

#include "table/text.h"

enum { LINE_MOST = 98 }; /* characters */

/* Characters, not bytes. */
size_t line_width(const char *string);

/* So many blanks. */
void line_pad(text *out, size_t n);

/* Adds a paragraph broken at blanks; each line but the first is indented. */
void wrap(text *out, const char *paragraph, size_t indent);

/* The same without the line's end, and from a column of a line already begun. */
void wrap_from(text *out, const char *paragraph, size_t column, size_t indent);

/* What a user wrote, safe to print, cut to `most` characters with "..." in place of the rest. */
void shorten(text *out, const char *string, size_t most);

#endif
