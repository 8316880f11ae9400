/* The pin at the place that governs, on the drawing of a tube. */
#ifndef RAILBOW_REPORT_PAGE_PIN_H
#define RAILBOW_REPORT_PAGE_PIN_H

#include "table/text.h"
#include "table/unit.h"

enum { PIN_DEEP = 14 }; /* from its tip to the middle of its head */

/* A pin whose tip is at a place of the drawing. way: -1 with its head above the tip, 1 below */
void page_pin(text *out, double x, double y, int way);

/* "governs: yield at 12.3 in", "governs: yield at A".
 * Given: governs  name of the check or detail; at  in from A, NaN where the tube or the frame gives way as a whole: "governs: column, at no single place" */
void page_pin_words(text *out, const char *governs, double at, double length, unit_system units);

#endif
