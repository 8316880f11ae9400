/* Every table that the program reads or writes: for the list of columns, help, manual, schema and completions. */
#ifndef RAILBOW_CASES_LIST_TABLE_LIST_H
#define RAILBOW_CASES_LIST_TABLE_LIST_H

#include "cases/case_table.h"
#include "cases/frame_study_table.h"
#include "cases/frame_table.h"
#include "cases/limit_table.h"
#include "cases/sweep_table.h"

typedef struct table {
    const char *title;   /* "Results of check" */
    const char *command; /* the command that has it; NULL for several */
    const field_list *list;
    bool input;
    bool of_frame; /* a further answer of its command, of a frame as a rule */
} table;

enum { TABLES = 50 };

typedef struct tables {
    table at[TABLES];
    size_t count;
    sweep_columns sweep, frame_sweep; /* the entries of sweep, limit and cases point to these; they have no varied column */
    limit_columns limit;
    listed_columns listed;
    listed_tube_columns listed_tubes;
    frame_limit_columns frame_limit;
} tables;

/* A filled list points into itself: do not copy it. */
void tables_fill(tables *t);

/* The texts of the columns "unit" and "default" in the printed list. */
const char *table_unit(const field *f);
const char *table_default(const field *f);

#endif
