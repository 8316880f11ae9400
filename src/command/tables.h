/* Every table that goes in or out, once: for the list of columns, the help, the manual, the schema and completions. */
#ifndef RAILBOW_COMMAND_TABLES_H
#define RAILBOW_COMMAND_TABLES_H

#include "report/study_table.h"
#include "table/text.h"

typedef struct table {
    const char *title;   /* "Results of check" */
    const char *command; /* whose it is; NULL: of several commands */
    const field_list *list;
    bool input;
} table;

enum { TABLES = 20 };

typedef struct tables {
    table at[TABLES];
    size_t count;
    sweep_columns sweep; /* what the entries of sweep and limit point into: as they are without their varied column */
    limit_columns limit;
} tables;

/* The tables stay where they are: no copy of a filled one. */
void tables_fill(tables *t);

/* The columns of one table: name, unit, default (of input), meaning. */
void table_say(text *out, const table *t);

/* What stands in the column "unit" of such a list, and in "default". */
const char *table_unit(const field *f);
const char *table_default(const field *f);

#endif
