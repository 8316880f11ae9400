/* The page of one tube of a frame: where it stands, its moments and its working. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_EXPLAIN_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_EXPLAIN_PAGE_H

#include "report/page/frame/frame_page.h"
#include "working/steps.h"

/* What stands between page_open and page_close. Given: a, p  of one run and one tube, which has a card */
void frame_explain_page(text *out, const page_head *head, const frame_answers *a, const frame_picture *p, const working *w);

#endif
