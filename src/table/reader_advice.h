/* What to type in place of the common things that stand where a number should: what a spreadsheet made of it, and the words
 * of the shop. */
#ifndef RAILBOW_TABLE_READER_ADVICE_H
#define RAILBOW_TABLE_READER_ADVICE_H

#include "table/reader_core.h"

/* Returned: true after a complaint; false when the cell is none of these. */
bool reader_advise(reader *r, const file_column *c, const char *cell, size_t n);

#endif
