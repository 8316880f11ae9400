/* What stands between the cells of a file: a comma, a semicolon or a tab. */
#ifndef RAILBOW_TABLE_SEPARATOR_H
#define RAILBOW_TABLE_SEPARATOR_H

#include <stdbool.h>

bool is_separator(char sign);

/* "sep=;", as a spreadsheet writes it above the header. Returned: the sign that it names, 0 for no such line. */
char separator_named(const char *line);

/* The one that stands in the header most often, outside quotes; the comma where none does. */
char separator_of(const char *header);

#endif
