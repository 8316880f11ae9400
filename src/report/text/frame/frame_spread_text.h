/* The answers of scatter and index on a frame in words. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_SPREAD_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_SPREAD_TEXT_H

#include "cases/frame_spread_table.h"
#include "report/screen.h"
#include "table/text.h"

void frame_scatter_text(text *out, const frame_scatter_shown *a, const screen *s);
void frame_index_text(text *out, const frame_index_shown *a, const screen *s);

#endif
