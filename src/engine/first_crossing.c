#include "engine/first_crossing.h"

#include <math.h>
#include <stddef.h>

/* Utilisation need not grow with the load factor: it can exceed 1 between two samples and come back. How far, is bounded.
 *
 * At any one place the moment M is a vector, and utilisation is |M| and the axial load put together by functions that
 * are convex and no steeper than the stress. So utilisation plus half of max|M''| times the load factor's square is
 * convex, ' being over the load factor: between two samples a step h apart it lies below the straight line between
 * them plus
 *     4 s (1 - s) D,   D = max|M''| h^2/8,   s from 0 to 1 on the way,
 * and so does the largest over all places. Every interval whose bound stays below 1 is done with.
 *
 * max|M''| comes from second differences at all stations. Expanded in the buckling modes of the tube, every share of M
 * is a straight line plus c/(1 - P/P_k) with P_k >= P_cr, since the loads grow in proportion and what is built in does
 * not grow: |M''| of a share rises toward the critical load no faster than (P_cr - P)^-3, and never changes sign. The
 * second difference over three samples is a mean of M'' over them; scaled to the interval by that power it
 * bounds each share's. The sum of shares is bounded by the largest over the stations; `safety` covers what that and the
 * places between the stations leave. */
static const double safety = 2;

/* A hump no higher than this over the limit may be passed; intervals so straight are not divided further. */
static const double negligible = 1e-7;

/* Below this deviation from a straight line the crossing is found point by point; above, by another scan. */
static const double nearly_straight = 2e-3;

/* Nearer to the limit than this, a sample of a scan is evaluated on its own. */
static const double unsure = 1e-6;

static const double width_enough = 1e-8; /* of the bracket, as a share of the load factor */

enum { DIVISIONS_MOST = 40, STEPS_MOST = 200 };

path rbow_path_of(const prepared *p, double tension, const evaluation *at_rest)
{
    path all = {.prepared = p, .tension = tension};
    evaluation e;
    if (at_rest == NULL) rbow_evaluate(p, 0, tension, &e);
    const evaluation *rest = at_rest == NULL ? &e : at_rest;
    for (int i = 0; i < LIMITS; i++) all.at_rest[i] = rest->stands ? rest->limits[i] : (reached){INFINITY, NAN, ZONE_TUBE};
    return all;
}

static const crossing none = {INFINITY, {NAN, NAN, ZONE_TUBE}};

/* ---- samples ------------------------------------------------------------------------------------------ */

static reached evaluate_at(path *p, limit which, double factor)
{
    evaluation e;
    rbow_evaluate(p->prepared, factor, p->tension, &e);
    if (!e.stands) return (reached){INFINITY, NAN, ZONE_TUBE};
    if (isnan(e.limits[which].utilisation)) p->failed = true;
    return e.limits[which];
}

static bool is_scan_of(const scan *s, double from, double to)
{
    return s->factor[0] >= from && s->factor[0] <= from && s->factor[BATCH - 1] >= to && s->factor[BATCH - 1] <= to;
}

static scan *scan_between(path *p, double from, double to)
{
    for (int i = 0; i < p->scan_count && i < SCANS_KEPT; i++)
        if (is_scan_of(&p->kept[i], from, to)) return &p->kept[i];
    scan *s = &p->kept[p->scan_count++ % SCANS_KEPT];
    for (int i = 0; i < BATCH; i++) s->factor[i] = from + (to - from) * i / (BATCH - 1);
    s->factor[BATCH - 1] = to;
    rbow_batch_evaluate(p->prepared, p->tension, s->factor, &s->seen);
    return s;
}

static double level_of(path *p, scan *s, limit which, int i)
{
    double *level = &s->seen.utilisation[which][i];
    if (!s->seen.settled[i] || fabs(*level - 1) < unsure) *level = evaluate_at(p, which, s->factor[i]).utilisation;
    return *level;
}

/* ---- bounds ------------------------------------------------------------------------------------------- */

static double distance_to_buckling(const path *p, double factor)
{
    return p->prepared->critical_load - axial_at(p->prepared, factor, p->tension);
}

/* D of the interval from one sample to the next, by the triple around a sample; INFINITY where there is none. */
static double deviation_by(const path *p, const scan *s, int interval, int middle)
{
    if (middle < 1 || middle > MIDDLES || isnan(s->seen.second_difference[middle - 1])) return INFINITY;
    const double there = distance_to_buckling(p, s->factor[middle]);
    const double least = fmin(distance_to_buckling(p, s->factor[interval]), distance_to_buckling(p, s->factor[interval + 1]));
    const double growth = fmax(there / least, 1);
    return safety * s->seen.second_difference[middle - 1] / 8 * growth * growth * growth;
}

static double deviation_of(const path *p, const scan *s, int interval)
{
    return fmin(deviation_by(p, s, interval, interval), deviation_by(p, s, interval, interval + 1));
}

/* The highest that a level can be between a and b. */
static double highest_between(double a, double b, double deviation)
{
    const double rise = fabs(b - a);
    if (!(rise < 4 * deviation)) return fmax(a, b);
    return (a + b) / 2 + deviation + rise * rise / (16 * deviation);
}

/* ---- from an interval to the crossing ------------------------------------------------------------------- */

typedef struct bracket {
    double low, at_low;   /* level below 1, and below 1 all the way there */
    double high, at_high; /* level 1 or more */
    double deviation;     /* D between */
    reached reached;      /* at high; not yet evaluated where NaN */
} bracket;

static double middle_of(const bracket *b)
{
    return b->low + (b->high - b->low) / 2;
}

/* Where the bound first reaches 1. */
static double certain_step(const bracket *b)
{
    const double rise = b->at_high - b->at_low, sum = 4 * b->deviation + rise, missing = 1 - b->at_low;
    if (!isfinite(sum * sum)) return middle_of(b);
    const double share = 2 * missing / (sum + sqrt(fmax(sum * sum - 16 * b->deviation * missing, 0)));
    return b->low + share * (b->high - b->low);
}

/* The straight line's crossing, a little beyond it as seen from the nearer end, so that both ends close in. */
static double straight_step(const bracket *b)
{
    const double width = b->high - b->low, share = (1 - b->at_low) / (b->at_high - b->at_low);
    const double beyond = fmax(0.01 * fmin(share, 1 - share), 0.2 * width_enough * b->high / width);
    return b->low + (share < 0.5 ? share + beyond : share - beyond) * width;
}

/* Returned: whether the place narrows the bracket: it is beyond the limit, or nothing before it can be. */
static bool narrow(path *p, limit which, bracket *b, double at)
{
    const reached r = evaluate_at(p, which, at);
    const double share = (at - b->low) / (b->high - b->low), before = b->deviation * share * share;
    if (r.utilisation >= 1) {
        b->high = at;
        b->at_high = r.utilisation;
        b->reached = r;
        b->deviation = before;
        return true;
    }
    if (before > negligible && highest_between(b->at_low, r.utilisation, before) >= 1) return false;
    b->low = at;
    b->at_low = r.utilisation;
    b->deviation *= (1 - share) * (1 - share);
    return true;
}

static crossing crossing_in(path *p, limit which, bracket b, double guess)
{
    b.reached.utilisation = NAN;
    for (int i = 0; i < STEPS_MOST && !p->failed && b.high - b.low > width_enough * b.high; i++) {
        const double width = b.high - b.low, at = i == 0 ? guess : straight_step(&b);
        const bool inside = at > b.low && at < b.high;
        if (inside && !narrow(p, which, &b, at)) narrow(p, which, &b, certain_step(&b));
        if (i > 0 && b.high - b.low > 0.5 * width) narrow(p, which, &b, middle_of(&b));
    }
    if (isnan(b.reached.utilisation)) b.reached = evaluate_at(p, which, b.high);
    const double rise = b.at_high - b.at_low, share = rise < 2 ? (1 - b.at_low) / rise : 1;
    return (crossing){b.low + share * (b.high - b.low), b.reached};
}

/* By the cubic through four samples around the interval, of the load factor over the level. */
static double guess_of(path *p, scan *s, limit which, int interval)
{
    const int first = interval < 1 ? 0 : interval > BATCH - 3 ? BATCH - 4 : interval - 1;
    double factor[4], level[4];
    for (int i = 0; i < 4; i++) {
        factor[i] = s->factor[first + i];
        level[i] = level_of(p, s, which, first + i) - 1;
        level[i] = isinf(level[i]) ? 1 : level[i] / (level[i] + 2); /* nearly straight where the tube nears buckling */
    }
    for (int j = 1; j < 4; j++)
        for (int i = 3; i >= j; i--) factor[i] = (factor[i] - factor[i - 1]) / (level[i] - level[i - j]);
    return factor[0] - level[0] * (factor[1] - level[1] * (factor[2] - level[2] * factor[3]));
}

static bool is_done(const path *p, const crossing *c)
{
    return p->failed || isfinite(c->factor);
}

static crossing first_in(path *p, limit which, double from, double to, int divisions)
{
    for (int i = 0; i < BATCH - 1; i++) {
        scan *s = scan_between(p, from, to); /* a deeper scan may have taken its room */
        const double low = level_of(p, s, which, i), high = level_of(p, s, which, i + 1);
        const double deviation = deviation_of(p, s, i);
        if (low >= 1) return (crossing){s->factor[i], evaluate_at(p, which, s->factor[i])};
        const bool crosses = high >= 1;
        if (!crosses && (highest_between(low, high, deviation) < 1 || deviation <= negligible)) continue;
        const bracket b = {s->factor[i], low, s->factor[i + 1], high, deviation, {NAN, NAN, ZONE_TUBE}};
        if (b.high - b.low <= width_enough * b.high || divisions == 0 || (crosses && deviation <= nearly_straight)) {
            if (crosses) return crossing_in(p, which, b, guess_of(p, s, which, i));
            continue;
        }
        const crossing c = first_in(p, which, b.low, b.high, divisions - 1);
        if (is_done(p, &c)) return c;
    }
    return none;
}

crossing rbow_first_crossing(path *p, limit which, double from, double to)
{
    const reached start = from > 0 ? evaluate_at(p, which, from) : p->at_rest[which];
    if (isnan(start.utilisation)) p->failed = true;
    if (start.utilisation >= 1) return (crossing){from, start};
    return from < to ? first_in(p, which, from, to, DIVISIONS_MOST) : none;
}
