/* The limit of a column: the first value at which the margin falls below a target. */
#ifndef RAILBOW_STUDY_LIMIT_H
#define RAILBOW_STUDY_LIMIT_H

#include "cases/limit_table.h"
#include "study/problem.h"

#include <stdbool.h>

enum { LIMIT_STEPS = 400 };

typedef struct limit_question {
    parameter column;
    double from, to; /* in the program's units; to may be below from */
    double margin;   /* target */
} limit_question;

typedef struct limit_pace {
    int steps;   /* even steps of the scan */
    double near; /* how near to the fall the limit is, as a share of its way from `from` */
} limit_pace;

/* Whether an answer and the margin of the case as it is, at `now` in the range, cannot both be right: it is short before its
 * limit, or holds so near behind it that the limit may lie on the other side. NaN for a margin that there is not. */
bool limit_contradicts(const limit_question *q, const limit_answer *a, double now, double margin_now);

/* Looks at LIMIT_STEPS even steps, and between them where the margin dips, so that a dip of 1/200 of the range is
 * found; the fall itself to 1e-7 of the range or better. Where it lies within the first step, it looks again at the way to it
 * in the same way. The first value that the model refuses ends the range.
 * Status: RBOW_OK | the model's refusal of `from` itself | RBOW_NO_MEMORY */
rbow_status limit_find(const problem *p, const limit_question *q, limit_answer *answer);

/* The same with other steps, and a fall that is found less closely. */
rbow_status limit_find_at_pace(const problem *p, const limit_question *q, limit_pace pace, limit_answer *answer);

#endif
