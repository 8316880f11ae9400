/* The working of a tube of a frame for a terminal. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_EXPLAIN_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_EXPLAIN_TEXT_H

#include "cases/frame_results.h"
#include "report/screen.h"
#include "working/steps.h"

/* Given: a  of one run and one tube; details  the text of its details, which follows the working */
void frame_explain_text(text *out, const frame_answers *a, const char *folder, const working *w, const text *details, const screen *s);

#endif
