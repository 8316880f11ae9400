/* The tables in the text of a frame. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_TABLE_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_TABLE_TEXT_H

#include "cases/frame_results.h"
#include "report/screen.h"
#include "table/text.h"

void frame_runs_text(text *out, const frame_answers *a, const screen *s);

/* forced: something is locked in. */
void frame_tubes_text(text *out, const frame_answers *a, bool every, bool forced, const screen *s);

#endif
