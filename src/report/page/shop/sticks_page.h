/* The page of sticks: every stick drawn to scale, and the cutting list. */
#ifndef RAILBOW_REPORT_PAGE_SHOP_STICKS_PAGE_H
#define RAILBOW_REPORT_PAGE_SHOP_STICKS_PAGE_H

#include "cases/shop/sticks_table.h"
#include "report/page/page.h"

void page_sticks(text *out, const page_head *head, const stick_row *rows, size_t count, double kerf);

#endif
