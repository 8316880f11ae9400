/* The charts of one case: moment along it, its column curve, its load factors. */
#ifndef RAILBOW_REPORT_PAGE_CASE_CHARTS_H
#define RAILBOW_REPORT_PAGE_CASE_CHARTS_H

#include "cases/check_table.h"
#include "table/text.h"
#include "working/picture.h"

/* many: stops at many stations, not at the notable ones alone */
void page_moment_chart(text *out, const check_row *r, const picture *p, unit_system units, bool many);
void page_column_chart(text *out, const check_row *r, const picture *p, unit_system units);
void page_factor_chart(text *out, const check_row *r);

#endif
