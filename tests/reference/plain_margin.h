/* The check's contract on top of the plain check: locked-in tension counts where it hurts, and the margins. */
#ifndef TESTS_REFERENCE_PLAIN_MARGIN_H
#define TESTS_REFERENCE_PLAIN_MARGIN_H

#include "plain.h"

typedef struct plain_margins {
    plain_factors factors; /* each the lower of those with the locked-in tension and without it */
    double margin, margin_unforced;
} plain_margins;

static inline double plain_ratio(const rbow_member *m, plain_factors f)
{
    const double asked = m->factor_yield > 0 ? m->factor_yield : m->factor;
    return fmin(f.yield / asked, fmin(f.column, f.interaction) / m->factor) - 1;
}

static inline plain_margins plain_margins_of(const rbow_member *m, const rbow_material *k)
{
    const double tension = plain_tension(m, k);
    plain_margins p = {.factors = plain_factors_of(m, k, tension)};
    if (tension > 0) {
        const plain_factors f = plain_factors_of(m, k, 0);
        p.factors.yield = fmin(p.factors.yield, f.yield);
        p.factors.column = fmin(p.factors.column, f.column);
        p.factors.interaction = fmin(p.factors.interaction, f.interaction);
    }
    p.margin = p.margin_unforced = plain_ratio(m, p.factors);
    rbow_member unforced = *m;
    unforced.miss_a = unforced.miss_b = unforced.gap = 0;
    if (m->miss_a > 0 || m->miss_b > 0 || m->gap > 0 || m->gap < 0)
        p.margin_unforced = plain_ratio(m, plain_factors_of(&unforced, k, 0));
    return p;
}

#endif
