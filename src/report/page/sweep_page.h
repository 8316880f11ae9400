/* The page of sweep: a sentence, margins over the varied columns, and the table. Rows in the order of the file, at least
 * one. */
#ifndef RAILBOW_REPORT_PAGE_SWEEP_PAGE_H
#define RAILBOW_REPORT_PAGE_SWEEP_PAGE_H

#include "cases/sweep_table.h"
#include "report/page/page.h"

void page_sweep(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked);

#endif
