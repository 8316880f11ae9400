/* The clock face of one case: where what has a direction points, with the values as they were given. */
#ifndef RAILBOW_REPORT_PAGE_CLOCK_DRAWING_H
#define RAILBOW_REPORT_PAGE_CLOCK_DRAWING_H

#include "cases/check_table.h"
#include "table/text.h"

/* Nothing where nothing of the case has a direction. */
void page_clock_drawing(text *out, const check_row *r, unit_system units);

#endif
