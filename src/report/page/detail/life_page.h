/* The page of life. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_LIFE_PAGE_H
#define RAILBOW_REPORT_PAGE_DETAIL_LIFE_PAGE_H

#include "cases/detail/life_table.h"
#include "report/page/page.h"

/* What the record of the page says of its numbers. */
extern const char life_accuracy[];

void page_life(text *out, const page_head *head, const life_told *t);

#endif
