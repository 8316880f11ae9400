/* The page of index: a sentence, the margin round the clock of each bow, and the table. Rows of the parts, then of the cases,
 * in the order of the file; at least one of each. */
#ifndef RAILBOW_REPORT_PAGE_ORIENTATION_PAGE_H
#define RAILBOW_REPORT_PAGE_ORIENTATION_PAGE_H

#include "cases/orientation_table.h"
#include "report/page/page.h"

void page_orientation(text *out, const page_head *head, const orientation_row *rows, size_t count);

#endif
