/* The page of compare: a sentence, margin over weight, and the table. Rows in the order of the file, at least one. */
#ifndef RAILBOW_REPORT_PAGE_COMPARE_PAGE_H
#define RAILBOW_REPORT_PAGE_COMPARE_PAGE_H

#include "cases/compare_table.h"
#include "report/page/page.h"

/* own_od: no diameters were named, each case keeps its own. */
void page_compare(text *out, const page_head *head, const compare_row *rows, size_t count, bool own_od);

#endif
