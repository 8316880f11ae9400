/* The check's contract on top of the plain check, for a member whose clocks are known: each welded end soft and stiff,
 * and every combination of what is locked in kept or gone. */
#ifndef TESTS_REFERENCE_PLAIN_MARGIN_H
#define TESTS_REFERENCE_PLAIN_MARGIN_H

#include "plain.h"

enum { PLAIN_CORNERS = 4, PLAIN_FITS = 8 };

typedef struct plain_margins {
    double margin, as_built, unforced, best;
    bool on_edge; /* with no run load the use is 1 to the last digits: rounding decides between 0 and no limit */
} plain_margins;

static inline double plain_ratio(const rbow_member *m, plain_factors f)
{
    const double asked = m->factor_yield > 0 ? m->factor_yield : m->factor;
    return fmin(f.yield / asked, fmin(f.column, f.interaction) / m->factor) - 1;
}

/* Soft, soft/stiff, stiff/soft, stiff; fewer where fewer ends are welded. */
static inline int plain_corners(const rbow_member *m, rbow_member corners[PLAIN_CORNERS])
{
    const bool a = m->end_a <= RBOW_WELDED, b = m->end_b <= RBOW_WELDED;
    int count = 0;
    for (int i = 0; i < PLAIN_CORNERS; i++) {
        if ((i >= 2 && !a) || (i % 2 == 1 && !b)) continue;
        corners[count] = *m;
        if (m->weld_zone < 0) corners[count].weld_zone = fmin(1, m->length / 2); /* none is given */
        if (a) corners[count].end_a = i >= 2 ? RBOW_STIFF_WELD : RBOW_SOFT_WELD;
        if (b) corners[count].end_b = i % 2 == 1 ? RBOW_STIFF_WELD : RBOW_SOFT_WELD;
        count++;
    }
    return count;
}

static inline rbow_member plain_kept(rbow_member m, unsigned kept)
{
    if ((kept & RBOW_FIT_MISS_A) == 0) m.miss_a = 0;
    if ((kept & RBOW_FIT_MISS_B) == 0) m.miss_b = 0;
    if ((kept & RBOW_FIT_GAP) == 0) m.gap = 0;
    return m;
}

static inline unsigned plain_fit(const rbow_member *m)
{
    return (m->miss_a > 0 ? RBOW_FIT_MISS_A : 0U) | (m->miss_b > 0 ? RBOW_FIT_MISS_B : 0U) | (fabs(m->gap) > 0 ? RBOW_FIT_GAP : 0U);
}

static inline bool plain_runs(const rbow_member *m)
{
    const double loads[] = {m->compression, m->moment_a, m->moment_b, m->point_load, m->spread_load, m->vertical_g, m->torque};
    for (size_t i = 0; i < sizeof loads / sizeof *loads; i++)
        if (fabs(loads[i]) > 0) return true;
    return false;
}

static inline bool plain_on_edge(const plain_tube *t)
{
    return !plain_runs(&t->m) && fabs(plain_state_at(t, 0).use - 1) < 1e-12;
}

static inline plain_margins plain_margins_of(const rbow_member *m, const rbow_material *k)
{
    rbow_member corners[PLAIN_CORNERS];
    const unsigned fit = plain_fit(m);
    const int count = plain_corners(m, corners);
    plain_margins p = {INFINITY, INFINITY, INFINITY, -INFINITY, false};
    for (int i = 0; i < count; i++) {
        for (unsigned kept = 0; kept < PLAIN_FITS; kept++) {
            if ((kept & ~fit) != 0) continue;
            const rbow_member one = plain_kept(corners[i], kept);
            const plain_tube t = plain_tube_of(&one, k);
            const double margin = plain_ratio(&one, plain_factors_of(&t));
            p.on_edge = p.on_edge || plain_on_edge(&t);
            p.margin = fmin(p.margin, margin);
            if (kept == 0) p.unforced = fmin(p.unforced, margin);
            if (kept == fit) p.as_built = fmin(p.as_built, margin), p.best = fmax(p.best, margin);
        }
    }
    return p;
}

/* As built, the corner with the largest stress at load factor 0; one that buckles if any does. */
static inline plain_tube plain_as_built(const rbow_member *m, const rbow_material *k)
{
    rbow_member corners[PLAIN_CORNERS];
    const int count = plain_corners(m, corners);
    plain_tube most = plain_tube_of(&corners[0], k);
    for (int i = 1; i < count; i++) {
        const plain_tube next = plain_tube_of(&corners[i], k);
        if (!(plain_state_at(&next, 0).stress <= plain_state_at(&most, 0).stress)) most = next;
    }
    return most;
}

#endif
