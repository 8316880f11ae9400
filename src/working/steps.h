/* The working of a result: each step from the inputs to the result, as a line that can be repeated by hand. */
#ifndef RAILBOW_WORKING_STEPS_H
#define RAILBOW_WORKING_STEPS_H

#include "table/number.h"
#include "table/text.h"

typedef struct working_row {
    const char *step;         /* the quantity calculated; a row without a formula is a heading */
    const char *formula;      /* "A = π t (D − t)" */
    text numbers;             /* the formula with its numbers: "π × 0.058 × (1.25 − 0.058)" */
    char result[NUMBER_ROOM]; /* ten digits; "" for a heading */
    double value;             /* the result itself */
    const char *unit;         /* "" for a plain number */
    const char *source;       /* source of the formula or the input */
} working_row;

enum { WORKING_ROWS_MOST = 400, WORKING_DIGITS = 10 };

typedef struct working {
    working_row rows[WORKING_ROWS_MOST];
    size_t count;
} working;

/* source: "" for none. */
void working_heading(working *w, const char *step, const char *source);

/* Adds a step. In `numbers` each # stands for the next of `values`; a negative number gets brackets.
 * The texts other than `numbers` must outlive the working. */
void working_step(working *w, const char *step, const char *formula, const char *numbers, const double values[],
                  size_t count, double result, const char *unit, const char *source);
/* Whether memory ran out in one of the steps. */
bool working_failed(const working *w);
void working_free(working *w);

#endif
