/* The cross-section of the tube, to scale. */
#ifndef RAILBOW_REPORT_PAGE_SECTION_DRAWING_H
#define RAILBOW_REPORT_PAGE_SECTION_DRAWING_H

#include "cases/check_table.h"
#include "table/text.h"
#include "working/picture.h"

void page_section_drawing(text *out, const check_row *r, const picture *p, unit_system units);

#endif
