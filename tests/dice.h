/* Numbers from a fixed seed, the same on every machine. */
#ifndef TESTS_ENGINE_DICE_H
#define TESTS_ENGINE_DICE_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>

typedef struct dice {
    uint64_t state; /* not 0 */
} dice;

static inline uint64_t dice_bits(dice *d) /* Marsaglia's xorshift64 */
{
    d->state ^= d->state << 13;
    d->state ^= d->state >> 7;
    d->state ^= d->state << 17;
    return d->state;
}

static inline double dice_between(dice *d, double low, double high)
{
    return low + (high - low) * ((double)(dice_bits(d) >> 11) * 0x1p-53);
}

/* Evenly in the logarithm. */
static inline double dice_size(dice *d, double low, double high)
{
    return low * pow(high / low, dice_between(d, 0, 1));
}

static inline bool dice_chance(dice *d, double share)
{
    return dice_between(d, 0, 1) < share;
}

static inline int dice_below(dice *d, int count)
{
    return (int)(dice_bits(d) % (uint64_t)count);
}

#endif
