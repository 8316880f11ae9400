/* The tables of one answer, as CSV or JSON. */
#ifndef RAILBOW_PROGRAM_FRAME_ANSWER_TABLES_H
#define RAILBOW_PROGRAM_FRAME_ANSWER_TABLES_H

#include "program/output.h"
#include "report/facts.h"
#include "table/field.h"

typedef struct answer_table {
    const char *name; /* in JSON, where several stand together */
    const field_list *list;
    const void *records;
    size_t count;
    bool (*has)(const void *context, size_t row); /* whether the table has that record; NULL: it has all */
    const void *context;
} answer_table;

typedef struct answer_flag { /* a truth about the answer, in JSON */
    const char *name;
    bool set;
} answer_flag;

/* CSV: the table `of`. JSON: all of them, the flag (NULL for none), and how many rows are refused. Returned: false after a message. */
bool answer_tables_write(output *out, const answer_table tables[], size_t count, size_t of, const answer_flag *flag,
                         const run_facts *facts, size_t refused);

/* An answer that is one table. Returned: false after a message. */
bool answer_table_write(output *out, const answer_table *table, const run_facts *facts);

#endif
