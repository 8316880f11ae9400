/* What the files of the reader share: its state, and the quotes in its messages. The file is cut into lines before libcsv
 * sees it (reader.c), the header says which column holds which field (reader_header.c), and each further row becomes a
 * record or complaints (reader_row.c), which go into the caller's batch (row_batch.c). reader_messages.c finds the words. */
#ifndef RAILBOW_TABLE_READER_CORE_H
#define RAILBOW_TABLE_READER_CORE_H

#include "table/field.h"
#include "table/row_batch.h"
#include "table/text.h"
#include "table/text_decoder.h"

#include <csv.h>

typedef struct reader reader;

enum { COLUMNS_MOST = 1024 }; /* a header with more is not read on: memory must not grow with it */

typedef struct file_column {
    const field *field; /* NULL for a column without a header, which is passed over */
    const unit *named; /* by the header; NULL where it has no bracket  */
    const unit *unit;  /* that its numbers are in; NULL for none     */
    bool numbers_refused; /* they would need a unit that the header does not name */
} file_column;

struct reader {
    const field_list *list;
    char *file;
    struct csv_parser csv;
    bool stopped;       /* nothing more can be read: `trouble` says why                */

    text_decoder decoder; /* from the file's bytes to UTF-8                            */
    text first_line;    /* the line being met while the separator is not known         */
    char separator;     /* ',', ';' or tab; 0 while it is not known                    */

    size_t line;        /* being read, from 1                                         */
    size_t row_line;    /* where the row in progress began, or the next one will      */
    size_t cell_line;   /* the same for the cell                                      */
    bool at_line_start;
    bool after_return;  /* the last byte was a CR: an LF belongs to the same line's end */
    bool in_line_end;   /* that LF is being read                                      */
    bool skipping;      /* to the next line: a comment, or behind a fault             */
    bool ended;

    bool has_header, has_row;
    file_column *columns;    /* COLUMNS_MOST; of the file, in its order                */
    size_t column_count;
    size_t named_count;      /* up to the last one that has a name                     */

    record_layout layout;
    void *fresh;        /* the record that each row starts from ...                   */
    text fresh_texts;   /* ... and its texts; the first is ""                         */

    size_t cells;       /* of the row in progress, so far                             */
    size_t unknown;     /* columns of the header that the list does not have          */
    bool comment;       /* it begins with '#'                                         */
    bool is_filled;     /* it has a cell that is not empty                            */
    void *record;
    text texts, complaints;

    row_batch *out;
    text trouble;
    char *memory_trouble; /* ready made, for it cannot be made when it is needed      */
    text quoted, said;  /* parts of a message in the making                           */
};

void reader_stop_short_of_memory(reader *r);

/* Whether a text that belongs to the row in progress ran out of memory. */
bool reader_lost_text(const reader *r);

/* Parts of messages, valid until the next call of the same one; "" when memory ran out. */
const char *reader_quote(reader *r, const char *bytes, size_t n);
const char *reader_unit_names(reader *r, dimension d);

/* A complaint on a cell of the row in progress. */
void reader_refuse(reader *r, const file_column *c, const char *format, ...) __attribute__((format(printf, 3, 4)));

#endif
