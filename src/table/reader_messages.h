/* What is wrong with a cell: messages that name the file, the line, the column and what is allowed. */
#ifndef RAILBOW_TABLE_READER_MESSAGES_H
#define RAILBOW_TABLE_READER_MESSAGES_H

#include "table/reader_core.h"

/* Complaints (as reader_refuse) on a cell of the row in progress. Numbers: `cell` is one that number_read refused. */
void reader_refuse_number(reader *r, const file_column *c, const char *cell, size_t n);
void reader_refuse_bounds(reader *r, const file_column *c, const char *cell, size_t n);
void reader_refuse_word(reader *r, const file_column *c, const char *cell, size_t n);
/* One of several words. */
void reader_refuse_words(reader *r, const file_column *c, const char *word, size_t n);

#endif
