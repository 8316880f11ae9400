/* The pages of inspect, release and pull: a sentence, a drawing of each row, the table. At least one row. */
#ifndef RAILBOW_REPORT_PAGE_SHOP_SHOP_PAGES_H
#define RAILBOW_REPORT_PAGE_SHOP_SHOP_PAGES_H

#include "cases/inspect_table.h"
#include "cases/pull_table.h"
#include "cases/release_table.h"
#include "report/page/page.h"

/* with_cases: the rows have the margins of load cases, too */
void page_inspect(text *out, const page_head *head, const inspect_row *rows, size_t count, bool with_cases);
void page_release(text *out, const page_head *head, const release_row *rows, size_t count);
void page_pull(text *out, const page_head *head, const pulled_row *rows, size_t count);

#endif
