/* Lines of an answer: their width, paragraphs broken to it, and texts cut to fit. Widths are columns of a terminal. */
#ifndef RAILBOW_REPORT_LINES_H
#define RAILBOW_REPORT_LINES_H

#include "table/text.h"

/* Columns that a string takes; colours take none. */
size_t line_width(const char *string);

/* So many blanks. */
void line_pad(text *out, size_t n);

/* Bytes at the start of a string that fill at most `width` columns, but one character at least. */
size_t line_part(const char *string, size_t width);

/* Adds a paragraph broken at blanks to lines of at most `width` columns; each line but the first is indented. A word that
 * no line holds is broken where the line ends; a number keeps its unit on its line. */
void wrap(text *out, const char *paragraph, size_t indent, size_t width);

/* The same without the line's end, and from a column of a line already begun. */
void wrap_from(text *out, const char *paragraph, size_t column, size_t indent, size_t width);

/* What a user wrote, safe to print and whole: what steers a terminal shows as \xNN, what cannot be seen as \uNNNN. */
void put_printable(text *out, const char *string);

/* The same, cut to `most` columns (3 or more) with an ellipsis in place of the middle. */
void shorten(text *out, const char *string, size_t most);

#endif
