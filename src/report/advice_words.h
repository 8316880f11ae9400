/* What to do about a short case or frame, in a sentence. */
#ifndef RAILBOW_REPORT_ADVICE_WORDS_H
#define RAILBOW_REPORT_ADVICE_WORDS_H

#include "cases/frame_advice_table.h"
#include "table/text.h"
#include "table/unit.h"

/* "To make it hold: pull A to within 0.250 in (1/4), or fit a 0.083 in wall." with what this rests on. others: the other cases
 * that are short, for which nothing was looked for. */
void put_advice(text *out, const advice *a, size_t others, unit_system units);

/* The same of the worst tube of a frame: the tubes to change are named, and the one that is short even then. Nothing where nothing was
 * looked for. */
void put_frame_advice(text *out, const frame_advice *a, unit_system units);

#endif
