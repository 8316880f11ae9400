/* Which word an end's number stands for (they are sentinels, compared exactly). */
#ifndef RAILBOW_ENGINE_ENDS_H
#define RAILBOW_ENGINE_ENDS_H

#include <railbow/column.h>

#include <stdbool.h>

static inline bool end_is(double end, double word)
{
    return end <= word && end >= word;
}

#endif
