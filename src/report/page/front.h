/* The front of the page of check: the verdict in a sentence and the table of cases. */
#ifndef RAILBOW_REPORT_PAGE_FRONT_H
#define RAILBOW_REPORT_PAGE_FRONT_H

#include "cases/check_table.h"
#include "report/page/page.h"
#include "report/page/sheets.h"

/* rows: in the order of the file; s: their order on the page. a: what to do about the worst of them. */
void page_front(text *out, const page_head *head, const check_row *rows, const sheets *s, const advice *a);

#endif
