/* The page of limit: a sentence, present values and limits, and the table. Rows in the order of the file, at least one. */
#ifndef RAILBOW_REPORT_PAGE_LIMIT_PAGE_H
#define RAILBOW_REPORT_PAGE_LIMIT_PAGE_H

#include "cases/limit_table.h"
#include "report/page/page.h"

void page_limit(text *out, const page_head *head, const limit_row *rows, size_t count, const limit_asked *asked,
                const field_list *list);

#endif
