#include "study/range.h"

#include <math.h>

/* Steps written in decimals miss their end by a few roundings; that much is forgiven. */
static const double forgiven = 1e-9;

size_t range_count(const range *r)
{
    const double steps = r->to - r->from > 0 || r->to - r->from < 0 ? (r->to - r->from) / r->step : 0;
    if (!(steps >= 0 && steps < 1e9)) return 0;
    return (size_t)floor(steps + forgiven) + 1;
}

double range_at(const range *r, size_t i)
{
    const double value = r->from + (double)i * r->step;
    return fabs(value - r->to) <= forgiven * fabs(r->step) ? r->to : value;
}
