/* Every table that goes in or out, once: for the list of columns, the help, the manual, the schema and completions. */
#ifndef RAILBOW_CASES_TABLE_LIST_H
#define RAILBOW_CASES_TABLE_LIST_H

#include "cases/limit_table.h"
#include "cases/sweep_table.h"

typedef struct table {
    const char *title;   /* "Results of check" */
    const char *command; /* whose it is; NULL: of several commands */
    const field_list *list;
    bool input;
} table;

enum { TABLES = 18 };

typedef struct tables {
    table at[TABLES];
    size_t count;
    sweep_columns sweep; /* what the entries of sweep and limit point into: as they are without their varied column */
    limit_columns limit;
} tables;

/* The tables stay where they are: no copy of a filled one. */
void tables_fill(tables *t);

/* What stands in the column "unit" of such a list, and in "default". */
const char *table_unit(const field *f);
const char *table_default(const field *f);

#endif
