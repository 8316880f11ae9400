/* The page of sight: each line with its readings and fit, and the clock face of its miss. */
#ifndef RAILBOW_REPORT_PAGE_SHOP_SIGHT_PAGE_H
#define RAILBOW_REPORT_PAGE_SHOP_SIGHT_PAGE_H

#include "cases/shop/sight_table.h"
#include "report/page/page.h"

void page_sight(text *out, const page_head *head, const sight_row *rows, size_t count);

#endif
