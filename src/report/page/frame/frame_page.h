/* The page of a frame: its drawings, its runs, its tubes, and the moments along the worst of them. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_PAGE_H

#include "report/page/page.h"
#include "working/frame_picture.h"

/* What stands between page_open and page_close. At least one run has an answer. */
void frame_page(text *out, const page_head *head, const frame_answers *a, const frame_picture *p);

/* A part of it: the moments along one tube. largest: in-lbf, where the axis ends; that of all cards beside it. many: stops at many
 * stations, not at the notable ones alone */
void frame_page_card(text *out, const frame_card *card, size_t number, double largest, bool many, unit_system units);
double frame_largest_moment(const frame_card *cards, size_t count);

#endif
