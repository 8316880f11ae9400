/* The card of one case: what it says, its drawings and charts, and its working. */
#ifndef RAILBOW_REPORT_PAGE_CARD_H
#define RAILBOW_REPORT_PAGE_CARD_H

#include "cases/check_table.h"
#include "report/page/page.h"
#include "working/picture.h"
#include "working/steps.h"

/* number: from 1. w: NULL where a step of it did not converge: the card says so. */
void page_card(text *out, const page_head *head, const check_row *r, size_t number, const picture *p, const working *w);

#endif
