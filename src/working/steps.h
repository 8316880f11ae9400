/* The working of an answer: each step from the inputs to the result as a line that can be done again by hand. */
#ifndef RAILBOW_WORKING_STEPS_H
#define RAILBOW_WORKING_STEPS_H

#include "table/number.h"
#include "table/text.h"

typedef struct working_row {
    const char *step;         /* what is worked out; a row without a formula is a heading */
    const char *formula;      /* "A = π t (D − t)" */
    text numbers;             /* the same with its numbers: "π × 0.058 × (1.25 − 0.058)" */
    char result[NUMBER_ROOM]; /* ten digits; "" for a heading */
    double value;             /* the result itself */
    const char *unit;         /* "" for a plain number */
    const char *source;       /* where formula or input comes from */
} working_row;

enum { WORKING_ROWS_MOST = 120, WORKING_DIGITS = 10 };

typedef struct working {
    working_row rows[WORKING_ROWS_MOST];
    size_t count;
} working;

/* source: "" for none. */
void working_heading(working *w, const char *step, const char *source);

/* A step. In `numbers` each # stands for the next of `values`; a number below 0 gets brackets there.
 * The texts other than `numbers` must outlive the working. */
void working_step(working *w, const char *step, const char *formula, const char *numbers, const double values[],
                  size_t count, double result, const char *unit, const char *source);
/* Whether memory ran out in one of its steps. */
bool working_failed(const working *w);
void working_free(working *w);

#endif
