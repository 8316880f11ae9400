/* The limit of a column: the first value at which the margin falls below a target. */
#ifndef RAILBOW_STUDY_LIMIT_H
#define RAILBOW_STUDY_LIMIT_H

#include "cases/limit_table.h"
#include "study/problem.h"

typedef struct limit_question {
    parameter column;
    double from, to; /* in the program's units; to may be below from */
    double margin;   /* target */
} limit_question;

/* Scans 400 even steps, and searches between them for the minimum where the margin has one. It finds every dip as wide as
 * 1/200 of the range, and the limit to 1e-7 of the range or better. The first value that the model refuses ends the range.
 * Status: RBOW_OK | the model's refusal of `from` itself | RBOW_NO_CONVERGENCE (no memory) */
rbow_status limit_find(const problem *p, const limit_question *q, limit_answer *answer);

#endif
