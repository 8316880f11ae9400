/* Evenly spaced values, both ends included, without accumulated rounding. */
#ifndef RAILBOW_STUDY_RANGE_H
#define RAILBOW_STUDY_RANGE_H

#include <stddef.h>

typedef struct range {
    double from, to, step; /* step has the sign of to - from, and is not 0 unless they are equal */
} range;

enum { RANGE_MOST = 1000000000 };

/* The number of values, at most RANGE_MOST: 0:1:0.1 has eleven. 0 if the step leads away from `to` or is not a number. */
size_t range_count(const range *r);

/* The i-th value. */
double range_at(const range *r, size_t i);

#endif
