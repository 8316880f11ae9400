/* The pages of compare, sweep and limit on a frame: a sentence, a chart, the table. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_STUDY_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_STUDY_PAGE_H

#include "cases/frame_study_table.h"
#include "report/page/page.h"

void page_frame_compare(text *out, const page_head *head, const frame_comparison *c);
void page_frame_sweep(text *out, const page_head *head, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked);
void page_frame_limit(text *out, const page_head *head, const frame_limit_row *r, const frame_limit_asked *asked);

#endif
