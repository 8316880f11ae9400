/* What the drawings of details have in common: their sheet, and sizes in words. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SHEET_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SHEET_H

#include "table/text.h"
#include "table/unit.h"
#include "working/detail_working.h"

enum { DETAIL_WIDTH = 328 }; /* drawing units: as many pixels as a small phone shows, so that its texts keep their 12 px */

/* An SVG that says what it shows. */
void open_detail(text *out, const detail_worked *d, double high, const char *what);

/* "0.5 in": a size that was given; "tube 1.25 × 0.058 in". */
void put_size(text *out, double own, unit_system units);
void put_tube(text *out, const char *name, double od, double wall, unit_system units);

#endif
