/* The page of scatter: a sentence, distributions and drivers, and the table. Rows in the order of the file, at least
 * one. */
#ifndef RAILBOW_REPORT_PAGE_SCATTER_PAGE_H
#define RAILBOW_REPORT_PAGE_SCATTER_PAGE_H

#include "cases/scatter_table.h"
#include "report/page/page.h"

/* The figure of one row: its distribution, and its drivers. least, most: margins of the axis, which has 0, too. */
void page_scatter_figure(text *out, const scatter_row *r, double least, double most);

void page_scatter(text *out, const page_head *head, const scatter_row *rows, size_t count);

#endif
