/* Where to weld the joints of a frame, in its text. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_ARCH_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_ARCH_TEXT_H

#include "cases/frame_results.h"
#include "report/screen.h"
#include "table/text.h"

/* Given: a with an arch. The largest correction, and the joints that are not welded where they are drawn. */
void frame_arch_text(text *out, const frame_answers *a, const screen *s);

#endif
