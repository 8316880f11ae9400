/* The check of a frame as a text: the verdict, a row a run, a row a tube. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_TEXT_H

#include "cases/frame_results.h"
#include "report/screen.h"
#include "table/text.h"

/* of: OF_JOINTS and OF_RUNS have no table of the tubes; OF_JOINTS has the joints instead of the runs, OF_ARCH
 *     neither.
 * every: list every tube, where a long frame lists the short ones and the closest. */
void frame_text(text *out, const frame_answers *a, int of, bool every, const screen *s);

/* What a text of a frame begins with: the count of the tubes that hold, the worst of them, and what to do about it. Some run has an answer. */
void frame_verdict_text(text *out, const frame_answers *a, const screen *s);

#endif
