/* The reader's other rows: each becomes a record, or complaints. */
#ifndef RAILBOW_TABLE_READER_ROW_H
#define RAILBOW_TABLE_READER_ROW_H

#include "table/reader_core.h"

/* libcsv's callbacks for a cell and the end of a row hand on to these. */
void row_cell(reader *r, const char *cell, size_t n);
void row_end(reader *r);

/* Ends the row in progress where it cannot be read on; `fault` says why, `line` is its place. */
void row_break(reader *r, size_t line, const char *fault);

#endif
