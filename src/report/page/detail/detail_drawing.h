/* A detail drawn to scale with its sizes: a longitudinal section, or the cross-section of a hole. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_DRAWING_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_DRAWING_H

#include "table/text.h"
#include "table/unit.h"
#include "working/detail_working.h"

/* A figure with its words. */
void page_detail_drawing(text *out, const detail_worked *d, unit_system units);

#endif
