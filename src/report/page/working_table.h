/* The working of a case as a table of the page. */
#ifndef RAILBOW_REPORT_PAGE_WORKING_TABLE_H
#define RAILBOW_REPORT_PAGE_WORKING_TABLE_H

#include "table/text.h"
#include "working/steps.h"

#include <stdbool.h>

/* open: it stands open, and is printed; else a reader opens it, and paper has none of it. */
void page_working(text *out, const working *w, bool open);

#endif
