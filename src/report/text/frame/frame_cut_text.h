/* How the faces of cuts part, and what was locked in, in words. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_CUT_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_CUT_TEXT_H

#include "cases/frame_cut_table.h"
#include "report/screen.h"
#include "table/text.h"

/* of: the table to show (frame_cut_of) */
void frame_cut_text(text *out, const frame_cut_answer *a, int of, const screen *s);
void frame_cut_locked_text(text *out, const frame_cut_locked_row *r, const screen *s);

#endif
