/* The example rows of a new table. */
#ifndef RAILBOW_TABLE_STARTER_H
#define RAILBOW_TABLE_STARTER_H

#include "table/field.h"
#include "table/text.h"

typedef struct starter { /* a column, and its cells in each system of units, with | between the rows; NULL: as in the first */
    const char *column;
    const char *cells[2];
} starter;

typedef struct starter_table {
    const field_list *list;
    const char *front; /* its comment lines */
    const starter *starters;
    size_t count, rows;
} starter_table;

/* The table with the starters' columns, or with all of its list. */
void starter_write(text *out, const starter_table *t, bool all, unit_system units);

#endif
