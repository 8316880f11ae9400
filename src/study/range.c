#include "study/range.h"

#include <math.h>
#include <stdbool.h>

/* Tolerance for steps in decimals, whose end differs from `to` by a few rounding errors. */
static const double forgiven = 1e-9;

size_t range_count(const range *r)
{
    const double steps = r->to - r->from > 0 || r->to - r->from < 0 ? (r->to - r->from) / r->step : 0;
    if (fabs(r->to - r->from) > 0 && !(fabs(r->step) > 0)) return 0;
    return steps >= 0 ? (size_t)floor(fmin(steps, RANGE_MOST - 1) + forgiven) + 1 : 0;
}

/* If a step meets `to`, the values are interpolated: 0.3 of 0:1:0.1 is 0.3 to the last bit. */
double range_at(const range *r, size_t i)
{
    const double done = (double)i, steps = round((r->to - r->from) / r->step);
    const bool reaches = steps >= 1 && fabs(r->from + steps * r->step - r->to) <= forgiven * fabs(r->step);
    if (i == 0 || !reaches) return r->from + done * r->step;
    return done < steps ? ((steps - done) * r->from + done * r->to) / steps : r->to;
}
