/* The answers of compare, sweep and limit on a frame in words and tables. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_STUDY_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_STUDY_TEXT_H

#include "cases/frame_study_table.h"
#include "report/screen.h"
#include "table/text.h"

void frame_compare_text(text *out, const frame_comparison *c, const screen *s);
void frame_sweep_text(text *out, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked, const screen *s);
void frame_limit_text(text *out, const frame_limit_row *r, const frame_limit_asked *asked, const screen *s);

#endif
