/* Miner's sum over the rows of a run. */
#ifndef RAILBOW_DETAIL_DAMAGE_H
#define RAILBOW_DETAIL_DAMAGE_H

#include "detail/cycle.h"

#include <math.h>

typedef struct damage {
    double sum;        /* of cycles/N; INFINITY where there is no number */
    double equivalent; /* the largest of all rows: ranks what does no damage */
    unsigned remarks;
} damage;

static inline bool is_worse(const damage *a, const damage *b)
{
    if (a->sum > b->sum || a->sum < b->sum) return a->sum > b->sum;
    return a->equivalent > b->equivalent;
}

static inline rbow_life_cycle no_cycle(unsigned remark)
{
    return (rbow_life_cycle){.range = NAN, .stress_max = NAN, .ratio = NAN, .equivalent = INFINITY, .cycles = NAN, .remarks = remark};
}

/* Given: cycles  in one run */
static inline double damage_of(double cycles, const rbow_life_cycle *c)
{
    return isnan(c->cycles) ? (double)INFINITY : cycles / c->cycles;
}

static inline void add_damage(damage *sum, double cycles, const rbow_life_cycle *c)
{
    sum->sum += damage_of(cycles, c);
    sum->equivalent = fmax(sum->equivalent, c->equivalent);
    sum->remarks |= c->remarks;
}

static inline double runs_of(const damage *d)
{
    return isinf(d->sum) ? (double)NAN : 1 / d->sum;
}

static inline void tell_cycle(size_t row, const rbow_life_cycle *c, rbow_life_result *r)
{
    r->range = c->range;
    r->stress_max = c->stress_max;
    r->ratio = c->ratio;
    r->equivalent = c->equivalent;
    r->cycles_to_crack = c->cycles;
    r->row = (int)row;
}

static inline void tell_runs(const damage *built, const damage *unforced, rbow_life_result *r)
{
    r->runs = runs_of(built);
    r->runs_unforced = runs_of(unforced);
    r->forced_costs = isinf(r->runs) && isinf(r->runs_unforced) ? (double)NAN : r->runs_unforced / r->runs;
    r->remarks = built->remarks;
}

static inline rbow_status swing_fault(double cycles, double low, double high)
{
    if (!(cycles > 0 && isfinite(cycles))) return RBOW_BAD_CYCLES;
    if (!isfinite(low)) return RBOW_BAD_CYCLE_LOW;
    return isfinite(high) && high > low ? RBOW_OK : RBOW_BAD_CYCLE_HIGH;
}

#endif
