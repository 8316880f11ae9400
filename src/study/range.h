/* Evenly spaced values, both ends included, without rounding drift. */
#ifndef RAILBOW_STUDY_RANGE_H
#define RAILBOW_STUDY_RANGE_H

#include <stddef.h>

typedef struct range {
    double from, to, step; /* step of the sign of to - from, not 0 unless they are equal */
} range;

enum { RANGE_MOST = 1000000000 };

/* How many values, RANGE_MOST for more: 0:1:0.1 has eleven. 0 where the step leads away or is not a number. */
size_t range_count(const range *r);

/* The i-th. */
double range_at(const range *r, size_t i);

#endif
