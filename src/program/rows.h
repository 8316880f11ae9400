/* Result rows on their way out: written as CSV or JSON one after the other, or kept for a text. */
#ifndef RAILBOW_PROGRAM_ROWS_H
#define RAILBOW_PROGRAM_ROWS_H

#include "program/output.h"
#include "report/facts.h"
#include "table/field.h"

typedef struct rows {
    const field_list *list;
    output_format format;
    unit_system units;
    text written;       /* CSV, JSON                                                  */
    char *kept;         /* text: the records themselves, list->record_size bytes each */
    size_t count, room; /* of kept                                                    */
    bool failed;        /* memory ran out                                             */
    bool cut_short;     /* of rows beside others: not all was looked for              */
    /* Of rows that are written: whether a record is kept in place of the one kept so far; NULL: none is kept. Among equals the first
     * stays. */
    bool (*prefers)(const void *record, const void *kept);
    output *stream;     /* what is written goes on as it comes; NULL: it waits        */
    bool stopped;       /* the stream takes no more                                   */
} rows;

rows rows_for(const output *out, const field_list *list);

/* One record; its texts are copied where it is kept. */
void rows_add(rows *r, const void *record);

/* Hands on what was added: to the output what is written, to `kept` what is kept.
 * Returned: false after a message. */
bool rows_hand_on(rows *r, output *out, rows *kept);
void rows_free(rows *r);

/* What stands before the first row and after the last; nothing for text. */
bool rows_begin(output *out, const field_list *list, const run_facts *facts);
/* beside: of a JSON answer, rows of another table that stand beside its own under a name; NULL for none. */
bool rows_end(output *out, size_t refused, const rows *beside, const char *name);

#endif
