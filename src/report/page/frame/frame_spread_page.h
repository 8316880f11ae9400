/* The pages of scatter and index on a frame. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_SPREAD_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_SPREAD_PAGE_H

#include "cases/frame_spread_table.h"
#include "report/page/page.h"

void page_frame_scatter(text *out, const page_head *head, const frame_scatter_shown *a);
void page_frame_index(text *out, const page_head *head, const frame_index_shown *a);

#endif
