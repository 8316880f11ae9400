/* Tests for the special values of an end; they are sentinels, compared exactly. */
#ifndef RAILBOW_MECHANICS_RESTRAINT_H
#define RAILBOW_MECHANICS_RESTRAINT_H

#include <railbow/column.h>

#include <stdbool.h>

static inline bool end_is(double end, double word)
{
    return end <= word && end >= word;
}

/* An end that is welded to its joint, whether its stiffness is taken or not. */
static inline bool is_welded(double end)
{
    return end_is(end, RBOW_WELDED) || end_is(end, RBOW_SOFT_WELD) || end_is(end, RBOW_STIFF_WELD);
}

/* The coefficients of a spring's rule m + r w' = ..., divided by 1 + r, so that they are finite from pinned to fixed.
 * Given: relative  r = k L/EI. */
typedef struct spring {
    double moment, slope;
} spring;

static inline spring spring_of(double relative)
{
    if (isinf(relative)) return (spring){0, 1};
    return (spring){1 / (1 + relative), relative / (1 + relative)};
}

#endif
