/* The details of tubes in words. */
#ifndef RAILBOW_REPORT_TEXT_DETAIL_TEXT_H
#define RAILBOW_REPORT_TEXT_DETAIL_TEXT_H

#include "cases/detail/detail_results.h"
#include "report/screen.h"
#include "table/text.h"

/* The table of details, the weakest first, and what their remarks mean; nothing where there is none.
 * every: all of them, where a long table lists the weakest. */
void details_text(text *out, const detail_answer *details, size_t count, bool every, const screen *s);

/* "its hole 'line hole' gives way: its section yields at 1.21 times the run load; 1.50 is required: margin -19.3 %." */
void put_detail_factors(text *out, const char *name, const governing_detail *d, double margin);

/* "What governs: hole 'line hole': its section yields" */
void put_detail_governs(text *out, const char *name, const governing_detail *d);

#endif
