/* Powers of five and ten, for reading and writing numbers: exact, or nearest. */
#ifndef RAILBOW_TABLE_NUMBER_POWERS_H
#define RAILBOW_TABLE_NUMBER_POWERS_H

#include <stdint.h>

__extension__ typedef unsigned __int128 uint128;

enum { FIVES = 27 }; /* 5^27 is the largest power that fits 63 bits */
extern const uint64_t five_to[FIVES + 1];

enum { POWER_LEAST = -27, POWER_MOST = 38, POWER_EXACT = 22 }; /* 10^22 is the last that is a double */
extern const double powers_of_ten[POWER_MOST - POWER_LEAST + 1]; /* the doubles nearest to 10^POWER_LEAST ... */

static inline double power_of_ten(int exponent)
{
    return powers_of_ten[exponent - POWER_LEAST];
}

/* Given: x  not 0 */
static inline int leading_zeros(uint64_t x)
{
    return __builtin_clzll(x);
}

#endif
