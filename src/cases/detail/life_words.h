/* Lives in words: what text and page say alike. No names that a user gave. */
#ifndef RAILBOW_CASES_DETAIL_LIFE_WORDS_H
#define RAILBOW_CASES_DETAIL_LIFE_WORDS_H

#include "cases/detail/life_table.h"
#include "table/text.h"

/* A number that is right to orders of magnitude, to two digits: "3 400", "3.4 million", "no end"; "no number" for NaN. */
void life_put_number(text *out, double number);

/* "about 3 400 runs", "it does not last one run", "no end by this curve" */
void life_put_runs(text *out, double runs);

/* How many times the forced fit shortens the life: "2.3 x", "nothing"; "-" where that does not exist. */
void life_put_cost(text *out, const life_row *r);

/* Whether the forced fit matters there, in one sentence and its reason. */
void life_put_forced(text *out, const life_row *r);

/* What a reader must know of which loads are in the lives, or nothing. */
void life_put_loads(text *out, const life_told *t);

/* "Its curve is W2: weld, over the range of stress." and whether it was chosen by common practice. */
void life_put_curve(text *out, const life_row *r);

#endif
