/* Numbered marks along a tube that is drawn as a line: where its details sit. */
#ifndef RAILBOW_REPORT_CHART_MARKS_H
#define RAILBOW_REPORT_CHART_MARKS_H

#include "table/text.h"

#include <stdbool.h>

typedef struct chart_mark {
    double at;        /* along the tube, from its left end */
    const char *name;
    bool holds;       /* a mark that does not is drawn as a limit */
} chart_mark;

enum { CHART_MARKS_MOST = 40 }; /* that have room; what is beyond is counted in the list */

/* A diamond at each place, and its number over it, moved aside where others stand close.
 * Given: left, width  of the tube on the drawing; length: of the tube, in the unit of `at`; y: of its axis */
void chart_marks(text *out, const chart_mark marks[], size_t count, double left, double width, double length, double y);

/* "Details: 1 line hole, 2 splice (short)."; nothing where there is none. */
void chart_mark_list(text *out, const chart_mark marks[], size_t count);

#endif
