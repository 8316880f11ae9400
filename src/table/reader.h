/* Reads a CSV table into records, as described by a field list.
 *
 * UTF-8 with or without a byte-order mark, or UTF-16 with one; LF, CRLF or CR; cells separated by commas, semicolons or
 * tabs, as the header row tells or a first line "sep=;"; quoting after RFC 4180; a header row first; lines that start with '#'
 * before the header are comments. Columns in any order; names without regard to case or surrounding blanks, with their unit in
 * brackets. Rows of nothing but separators and columns without a header are passed over. Each row stands alone: a bad one is
 * handed over with its complaints, the others are read on. All bad cells of a row are named.
 *
 * Numbers: written_number.h. With semicolons or tabs a comma may be the decimal comma; 1,250 is never guessed.
 *
 * An empty cell means the default. Words are taken without regard to case. An angle without a bracket is in
 * degrees; a column that takes words too needs its bracket only if a number stands in it.
 *
 * Broken quoting or a cell without end costs the row it begins in; reading goes on with the next line, and the
 * message says which lines were lost.
 *
 * The reader is fed parts of the file and hands back one batch of rows a part, so that memory does not
 * grow with the file. It opens no files.
 *
 * Messages: "FILE:LINE: COLUMN: what is wrong and what is allowed", one a line, each ended by '\n'. */
#ifndef RAILBOW_TABLE_READER_H
#define RAILBOW_TABLE_READER_H

#include "table/field.h"
#include "table/row_batch.h"

typedef struct reader reader;

/* Given:    list      what the columns are; it and the prototype must outlive the reader
 *           file      name for messages ("-" for standard input)
 *           prototype a record with the defaults of this run (from field_defaults, then changed)
 * Returned: NULL when memory ran out. */
reader *reader_new(const field_list *list, const char *file, const void *prototype);

typedef enum reader_state {
    READER_GOING,  /* feed on                                                                      */
    READER_STOPPED /* nothing more can be read (no usable header, memory): reader_trouble says why */
} reader_state;

/* Reads one part; n = 0 says that the file has ended. The batch holds the rows finished by this part and
 * stays valid until it is fed again; give every call the same batch, or alternate between several. */
reader_state reader_feed(reader *r, const char *bytes, size_t n, row_batch *out);

/* Finished messages on the file as a whole ("" if none): header faults, no header, no row, memory. */
const char *reader_trouble(const reader *r);

/* Whether it is memory that ran out: rows may be missing. */
bool reader_is_short_of_memory(const reader *r);

/* The unit of a column's numbers once rows came: the header's, or its default. NULL for a column that the file does not
 * have, or one without a unit. */
const unit *reader_unit(const reader *r, const field *f);

void reader_free(reader *r);

#endif
