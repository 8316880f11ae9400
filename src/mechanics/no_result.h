/* A result without an answer: every double is NaN, whatever fields the structure has. */
#ifndef RAILBOW_MECHANICS_NO_RESULT_H
#define RAILBOW_MECHANICS_NO_RESULT_H

#include <math.h>
#include <stddef.h>
#include <string.h>

/* A result structure holds its doubles first, then its whole numbers; both macros hold its layout to that. A double that is
 * added among the doubles is NaN by itself; one added elsewhere, or a whole number that is not counted, does not compile.
 *     RESULT_OF_DOUBLES(type)                  it has doubles alone
 *     RESULT_WITH_WHOLE(type, first, count)    `count` ints or unsigneds, from the member `first` to the end */
#define RESULT_OF_DOUBLES(type)                                                                                \
    _Static_assert(sizeof(type) % sizeof(double) == 0, #type " holds doubles alone")
#define RESULT_WITH_WHOLE(type, first, count)                                                                  \
    _Static_assert(offsetof(type, first) % sizeof(double) == 0                                                 \
                   && sizeof(type) == offsetof(type, first) + ((count) + 1) / 2 * 2 * sizeof(int),             \
                   #type " holds its doubles first, then its whole numbers")

/* NaN in the first `doubles` bytes, 0 in the rest. */
static inline void fill_no_result(void *result, size_t doubles, size_t size)
{
    const double nothing = NAN;
    memset(result, 0, size);
    for (size_t i = 0; i < doubles; i += sizeof nothing) memcpy((char *)result + i, &nothing, sizeof nothing);
}

#define NO_RESULT(result) fill_no_result(result, sizeof *(result), sizeof *(result))
#define NO_RESULT_BEFORE(type, result, first) fill_no_result(result, offsetof(type, first), sizeof(type))

#endif
