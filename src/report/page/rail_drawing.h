/* The rail with its loads, bow and misses, from the side and from below. */
#ifndef RAILBOW_REPORT_PAGE_RAIL_DRAWING_H
#define RAILBOW_REPORT_PAGE_RAIL_DRAWING_H

#include "table/text.h"
#include "table/unit.h"
#include "working/picture.h"

/* od: in, of the tube */
void page_rail_drawing(text *out, const picture *p, double od, unit_system units);

#endif
