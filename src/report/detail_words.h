/* What a detail says of its limit, for texts and pages. */
#ifndef RAILBOW_REPORT_DETAIL_WORDS_H
#define RAILBOW_REPORT_DETAIL_WORDS_H

#include "cases/governing_detail.h"
#include "table/text.h"

/* "its weld tears at 1.91 times the run load; 1.50 is required: margin +27.7 %." */
void put_detail_limit(text *out, const governing_detail *d, double margin);

#endif
