/* Rows that are read together: records, or the complaints on a bad row, in blocks that the next batch uses again. */
#ifndef RAILBOW_TABLE_ROW_BATCH_H
#define RAILBOW_TABLE_ROW_BATCH_H

#include "table/text.h"

enum { READER_CELL_MOST = 64 * 1024 }; /* longest cell, bytes; a longer one makes its row bad */

typedef struct row {
    size_t line;        /* where it begins in the file, from 1                                    */
    void *record;       /* NULL when the row is bad                                               */
    const char *complaints; /* finished messages; "" when the row is good                         */
} row;

typedef struct row_batch {
    row *rows;
    size_t count;
    /* what the rows point into; one block each, reused by the next batch */
    size_t room;
    text records, texts;
} row_batch;

void row_batch_free(row_batch *b);

/* ---- for the reader, which fills it ---- */

typedef struct record_layout {
    size_t record_size;
    size_t *text_offsets; /* of the texts in a record */
    size_t text_count;
} record_layout;

/* The texts of records are kept as offsets while their block may still move, in the place of the pointers. */
_Static_assert(sizeof(size_t) <= sizeof(char *), "an offset must fit in the place of a pointer");

typedef struct finished_row {
    size_t line;
    const void *record;     /* its texts are offsets into `texts` */
    const text *texts;
    const text *complaints; /* NULL when the row is good */
} finished_row;

/* The caller's batch is emptied, gets one more row, and at last all offsets are turned into pointers.
 * Returned: false when memory ran out; rows added before stay good. */
bool row_batch_start(row_batch *b);
bool row_batch_add(row_batch *b, const record_layout *l, const finished_row *finished);
void row_batch_settle(row_batch *b, const record_layout *l);

#endif
