/* The working of a case as a table of the page. */
#ifndef RAILBOW_REPORT_PAGE_WORKING_TABLE_H
#define RAILBOW_REPORT_PAGE_WORKING_TABLE_H

#include "table/text.h"
#include "working/steps.h"

void page_working(text *out, const working *w);

/* The same, closed. */
void page_working_closed(text *out, const working *w, const char *summary);

#endif
