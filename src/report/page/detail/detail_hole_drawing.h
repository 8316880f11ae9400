/* The drawing of a hole, and of a place: the section of the tube there. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_HOLE_DRAWING_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_HOLE_DRAWING_H

#include "table/text.h"
#include "table/unit.h"
#include "working/detail_working.h"

void draw_hole(text *out, const detail_worked *d, unit_system units);

#endif
