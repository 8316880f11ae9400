/* The pages of the studies: a sentence, drawings, and the table of the answer.
 * Each: rows in the order of the file, at least one. */
#ifndef RAILBOW_REPORT_PAGE_STUDY_H
#define RAILBOW_REPORT_PAGE_STUDY_H

#include "report/page.h"
#include "report/study_table.h"
#include "report/study_text.h"

/* own_od: no diameters were named, each case keeps its own. */
void page_compare(text *out, const page_head *head, const compare_row *rows, size_t count, bool own_od);

typedef struct sweep_asked {
    const field *column[SWEEP_COLUMNS_MOST]; /* what was varied */
    size_t columns;
    size_t values[SWEEP_COLUMNS_MOST]; /* how many of each */
    double (*value)(const void *context, size_t column, size_t i); /* the i-th of a column; ascending or descending */
    const void *context;
    const field_list *list;
} sweep_asked;

void page_sweep(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked);

void page_limit(text *out, const page_head *head, const limit_row *rows, size_t count, const limit_asked *asked,
                const field_list *list);
void page_index(text *out, const page_head *head, const index_row *rows, size_t count);
void page_scatter(text *out, const page_head *head, const scatter_row *rows, size_t count, const field_list *list);

/* ---- between the files of the page ---- */

/* The map of one case over two columns that have two values each at least. rows: those of the case. */
void page_sweep_map(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked);

#endif
