/* What to do about a short case, in a sentence. */
#ifndef RAILBOW_REPORT_ADVICE_WORDS_H
#define RAILBOW_REPORT_ADVICE_WORDS_H

#include "cases/check_table.h"
#include "table/text.h"
#include "table/unit.h"

/* "To make it hold: pull A to within 0.250 in (1/4), or fit a 0.083 in wall." with what this rests on. others: the other cases
 * that are short, for which nothing was looked for. */
void put_advice(text *out, const advice *a, size_t others, unit_system units);

#endif
