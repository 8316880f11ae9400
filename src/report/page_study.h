/* The pages of the studies: a sentence, one chart, and the table of the answer.
 * Each: rows in the order of the file. */
#ifndef RAILBOW_REPORT_PAGE_STUDY_H
#define RAILBOW_REPORT_PAGE_STUDY_H

#include "report/page.h"
#include "report/study_table.h"

void page_compare(text *out, const page_head *head, const compare_row *rows, size_t count);
void page_sweep(text *out, const page_head *head, const sweep_row *rows, size_t count, const field *const varied[],
                size_t columns, const field_list *list);
void page_limit(text *out, const page_head *head, const limit_row *rows, size_t count, const field *column,
                const field_list *list);
void page_index(text *out, const page_head *head, const index_row *rows, size_t count);
void page_scatter(text *out, const page_head *head, const scatter_row *rows, size_t count, const field_list *list);

/* Any table of answers, every column with its unit. */
void page_table(text *out, const field_list *list, const void *records, size_t count, unit_system units,
                const char *caption_words);

/* How many rows are missing, if any. */
void page_refused(text *out, const page_head *head);

#endif
