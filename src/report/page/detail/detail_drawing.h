/* A detail drawn to scale with its sizes: a longitudinal section, or the cross-section of a hole. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_DRAWING_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_DRAWING_H

#include "table/text.h"
#include "table/unit.h"
#include "working/detail_working.h"

enum { DETAIL_WIDTH = 328 }; /* drawing units: as many pixels as a small phone shows, so that its texts keep their 12 px */

/* A figure with its words. */
void page_detail_drawing(text *out, const detail_worked *d, unit_system units);

/* ---- for the drawings themselves ---------------------------------------------------------------------------------- */

/* The drawing of a hole, and of a place: the tube's section there. */
void draw_hole(text *out, const detail_worked *d, unit_system units);

/* The section along a sleeve, a socket or a ring weld, and its weld enlarged. */
void draw_scene(text *out, const detail_worked *d, unit_system units);

/* An SVG that says what it shows. */
void open_detail(text *out, const detail_worked *d, double high, const char *what);

/* "0.5 in": a size that was given; "tube 1.25 × 0.058 in". */
void put_size(text *out, double own, unit_system units);
void put_tube(text *out, const char *name, double od, double wall, unit_system units);

#endif
