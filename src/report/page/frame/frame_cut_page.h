/* The page of cut: the faces of every cut, drawn, and the tables. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_CUT_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_CUT_PAGE_H

#include "cases/frame_cut_table.h"
#include "report/page/page.h"

void frame_cut_page(text *out, const page_head *head, const frame_cut_answer *a);
void frame_cut_locked_page(text *out, const page_head *head, const frame_cut_locked_row *r);

#endif
