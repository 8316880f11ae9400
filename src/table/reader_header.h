/* The reader's header row: which column of the file holds which field, and in which unit. */
#ifndef RAILBOW_TABLE_READER_HEADER_H
#define RAILBOW_TABLE_READER_HEADER_H

#include "table/reader_core.h"

/* libcsv's callbacks for a cell and the end of the header hand on to these. */
void header_cell(reader *r, const char *cell, size_t n);
void header_end(reader *r);

/* Ends the header where it cannot be read on; `fault` says why, `line` is its place. */
void header_break(reader *r, size_t line, const char *fault);

#endif
