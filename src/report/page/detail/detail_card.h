/* The block of one detail on the page of its case or frame. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_CARD_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_CARD_H

#include "report/page/page.h"
#include "working/detail_working.h"

/* Verdict, margin and mode; the drawing; forces and utilisations; what the remarks mean; and the working, closed.
 * Given: states  as for the working, which give the forces at the load factors and as loaded
 *        w       its working; NULL for none */
void page_detail_card(text *out, const page_head *head, const detail_worked *d, const detail_state states[DETAIL_STATES], const working *w);

#endif
