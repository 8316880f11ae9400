/* What the files of the reader share. The file is cut into lines before libcsv sees it (reader.c), the header
 * says which column holds which field (reader_header.c), and each further row becomes a record or complaints
 * (reader_row.c), which go into the caller's batch (batch.c). complain.c finds the words. */
#ifndef RAILBOW_TABLE_READER_INSIDE_H
#define RAILBOW_TABLE_READER_INSIDE_H

#include "table/reader.h"

#include <csv.h>

enum { COLUMNS_MOST = 1024 }; /* a header with more is not read on: memory must not grow with it */

typedef struct file_column {
    const field *field;
    const unit *named; /* by the header; NULL where it has no bracket  */
    const unit *unit;  /* that its numbers are in; NULL for none     */
    bool numbers_refused; /* they would need a unit that the header does not name */
} file_column;

/* The texts of records are kept as offsets while their block may still move, in the place of the pointers. */
_Static_assert(sizeof(size_t) <= sizeof(char *), "an offset must fit in the place of a pointer");

struct reader {
    const field_list *list;
    char *file;
    struct csv_parser csv;
    reader_state state;

    size_t line;        /* being read, from 1                                         */
    size_t row_line;    /* where the row in progress began, or the next one will      */
    size_t cell_line;   /* the same for the cell                                      */
    bool at_line_start;
    bool skipping;      /* to the next line: a comment, or behind a fault             */
    bool ended;
    size_t mark_bytes;  /* of a byte-order mark at the start that are behind us       */

    bool has_header, has_row;
    file_column *columns;    /* as many as the list has fields                             */
    size_t column_count;

    size_t *text_places; /* offsets of the list's FIELD_TEXTs in a record             */
    size_t text_count;
    void *fresh;        /* the record that each row starts from ...                   */
    text fresh_texts;   /* ... and its texts; the first is ""                         */

    size_t cells;       /* of the row in progress, so far                             */
    bool comment;       /* it begins with '#'                                         */
    void *record;
    text texts, complaints;

    batch *out;
    text trouble;
    char *memory_trouble; /* ready made, for it cannot be made when it is needed      */
    text quoted, said;  /* parts of a message in the making                           */
};

/* libcsv's callbacks for a cell and the end of a row hand on to these. */
void header_cell(reader *r, const char *cell, size_t n);
void header_end(reader *r);
void row_cell(reader *r, const char *cell, size_t n);
void row_end(reader *r);

/* Ends the header or the row in progress where it cannot be read on; `fault` says why, `line` is its place. */
void header_break(reader *r, size_t line, const char *fault);
void row_break(reader *r, size_t line, const char *fault);

void reader_stop_short_of_memory(reader *r);

/* Whether a text that belongs to the row in progress ran out of memory. */
bool reader_lost_text(const reader *r);

/* Parts of messages, valid until the next call of the same one; "" when memory ran out. */
const char *reader_quote(reader *r, const char *bytes, size_t n);
const char *reader_unit_names(reader *r, dimension d);

/* Complaints on a cell of the row in progress. Numbers: `cell` is one that number_read refused. */
void complain(reader *r, const file_column *c, const char *format, ...) __attribute__((format(printf, 3, 4)));
void complain_of_number(reader *r, const file_column *c, const char *cell, size_t n);
void complain_of_bounds(reader *r, const file_column *c, const char *cell, size_t n);
void complain_of_word(reader *r, const file_column *c, const char *cell, size_t n);

/* The batch that the caller gave: emptied, one more row from the reader's row in progress, and at last all
 * offsets turned into pointers. Returned: false when memory ran out; rows added before stay good. */
bool batch_start(batch *b);
bool batch_add(batch *b, const reader *r);
void batch_settle(batch *b, const reader *r);

#endif
