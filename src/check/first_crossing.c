#include "check/first_crossing.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* Utilisation need not grow with the load factor: it can exceed 1 between two sampled load factors. This file bounds by how
 * much.
 *
 * At each station the moment M is a vector. Utilisation combines |M| and the axial load by functions that are convex and no
 * steeper than the stress. Let ' be the derivative over the load factor. Then utilisation plus half of max|M''| times the
 * square of the load factor is convex. Between two samples a step h apart, utilisation therefore lies below the straight
 * line between them plus
 *     4 s (1 - s) D,   D = max|M''| h^2/8,   s from 0 to 1 between the samples,
 * and so does the largest utilisation of all stations. An interval whose bound stays below 1 is finished.
 *
 * max|M''| comes from second differences at all stations. In the buckling modes of the tube every share of M is a straight
 * line plus c/(1 - P/P_k) with P_k >= P_cr, because the run loads grow in proportion and the built-in loads do not grow. So
 * |M''| of a share rises toward the critical load no faster than (P_cr - P)^-3, and M'' never changes sign. The second
 * difference of three samples is a mean of M'' over them. Those around both ends of an interval bound each share in it; at the
 * end of a scan, where there is one alone, it is scaled to the interval by that power. The largest value of all stations
 * estimates the bound of the sum; `safety` covers the error of this estimate and the positions between the stations. */
static const double safety = 2;

/* The search may miss a hump that exceeds the limit by less than this. It does not divide an interval this straight. */
static const double negligible = 1e-7;

/* Below this deviation from a straight line single points refine the crossing; above it another scan does. */
static const double nearly_straight = 0.1;

/* A sample that is closer to the limit than this is evaluated again on its own. */
static const double unsure = 1e-6;

static const double width_enough = 1e-8; /* of the bracket, as a share of the load factor */

enum { DIVISIONS_MOST = 40, ROUNDS_MOST = 60 };

/* About 110 is the most that any member is known to need. Where the utilisation is nothing but rounding, intervals would be
 * divided without end: there is no answer then. */
enum { SCANS_MOST = 4000 };

static void eight_of_tube(const void *of, const prepared *p, const double factor[BATCH], bool even, batch *out)
{
    (void)of;
    rbow_batch_evaluate(p, factor, even, out);
}

static double one_of_tube(const void *of, const prepared *p, limit which, double factor)
{
    evaluation e;
    (void)of;
    rbow_evaluate(p, factor, false, &e);
    return e.stands ? e.limits[which].utilisation : (double)INFINITY;
}

static const gauge of_tube = {eight_of_tube, one_of_tube};

path rbow_path_by(const prepared *p, const gauge *by, const void *of)
{
    path along;
    along.prepared = p;
    along.gauge = by;
    along.of = of;
    along.scan_count = 0;
    along.failed = false;
    return along;
}

path rbow_path_of(const prepared *p)
{
    return rbow_path_by(p, &of_tube, NULL);
}

/* ---- samples ------------------------------------------------------------------------------------------ */

static double evaluate_at(path *p, limit which, double factor)
{
    const double level = p->gauge->one(p->of, p->prepared, which, factor);
    if (isnan(level)) p->failed = true;
    return level;
}

static bool is_scan_of(const scan *s, double from, double to)
{
    return s->factor[0] >= from && s->factor[0] <= from && s->factor[BATCH - 1] >= to && s->factor[BATCH - 1] <= to;
}

static scan *scan_between(path *p, double from, double to)
{
    for (int i = 0; i < p->scan_count && i < SCANS_KEPT; i++)
        if (is_scan_of(&p->kept[i], from, to)) return &p->kept[i];
    if (p->scan_count >= SCANS_MOST) p->failed = true;
    scan *s = &p->kept[p->scan_count++ % SCANS_KEPT];
    for (int i = 0; i < BATCH; i++) s->factor[i] = from + (to - from) * i / (BATCH - 1);
    s->factor[BATCH - 1] = to;
    p->gauge->eight(p->of, p->prepared, s->factor, true, &s->seen);
    return s;
}

static double level_of(path *p, scan *s, limit which, int i)
{
    double *level = &s->seen.utilisation[which][i];
    if (!s->seen.settled[i] || fabs(*level - 1) < unsure) *level = evaluate_at(p, which, s->factor[i]);
    return *level;
}

/* ---- bounds ------------------------------------------------------------------------------------------- */

static double distance_to_buckling(const path *p, double factor)
{
    return p->prepared->critical_load - axial_at(p->prepared, factor);
}

/* The second difference of the three samples around a sample; NaN if there are none. */
static double difference_at(const scan *s, int middle)
{
    return middle < 1 || middle > MIDDLES ? (double)NAN : s->seen.second_difference[middle - 1];
}

/* How much larger M'' of a share can be in the interval than at the sample `middle`. */
static double growth_from(const path *p, const scan *s, int interval, int middle)
{
    const double there = distance_to_buckling(p, s->factor[middle]);
    const double least = fmin(distance_to_buckling(p, s->factor[interval]), distance_to_buckling(p, s->factor[interval + 1]));
    const double growth = fmax(there / least, 1);
    return growth * growth * growth;
}

/* D of the interval from one sample to the next; INFINITY if it is not known. With samples on both sides the larger second
 * difference counts, since shares that cancel each other can make the other one as small as they like. */
static double deviation_of(const path *p, const scan *s, int interval)
{
    const double before = difference_at(s, interval), behind = difference_at(s, interval + 1);
    if (isnan(before) && isnan(behind)) return INFINITY;
    if (isnan(behind)) return safety / 8 * before * growth_from(p, s, interval, interval);
    if (isnan(before)) return safety / 8 * behind * growth_from(p, s, interval, interval + 1);
    return safety / 8 * fmax(before, behind);
}

/* The largest utilisation that is possible between a and b. */
static double highest_between(double a, double b, double deviation)
{
    const double rise = fabs(b - a);
    if (!(rise < 4 * deviation)) return fmax(a, b);
    return (a + b) / 2 + deviation + rise * rise / (16 * deviation);
}

/* ---- from an interval to the crossing ------------------------------------------------------------------- */

typedef struct point {
    double factor, level;
} point;

typedef struct bracket {
    point low, high;  /* low: below the limit, like all load factors before it; high: at the limit or beyond */
    double deviation; /* D between them */
} bracket;

static double first_in(path *p, limit which, double from, double to, int divisions);

/* Nearly straight near buckling. */
static double height_of(double level)
{
    return isinf(level) ? 1 : (level - 1) / (level + 1);
}

/* The load factor at which the level is 1, by a polynomial through the points: the factor as a function of the level. */
static double interpolate(const point *at, int count)
{
    double factor[4], height[4];
    for (int i = 0; i < count; i++) {
        factor[i] = at[i].factor;
        height[i] = height_of(at[i].level);
    }
    for (int j = 1; j < count; j++)
        for (int i = count - 1; i >= j; i--) factor[i] = (factor[i] - factor[i - 1]) / (height[i] - height[i - j]);
    double sum = factor[count - 1];
    for (int i = count - 2; i >= 0; i--) sum = factor[i] - height[i] * sum;
    return sum;
}

/* Given: guess  if it lies outside the bracket, the middle of the bracket replaces it
 *        reach  distance of the outermost samples from it; each inner sample is `closer` times as near */
static void place_samples(const bracket *b, double guess, double reach, double factor[BATCH])
{
    static const double closer = 8;
    const double low = b->low.factor, high = b->high.factor, floor = 1e-9 * high;
    const double middle = guess > low && guess < high ? guess : low + (high - low) / 2;
    for (int i = BATCH / 2 - 1; i >= 0; i--) {
        const double way = fmax(reach * pow(closer, i - (BATCH / 2 - 1)), (i + 1) * floor);
        factor[BATCH / 2 - 1 - i] = fmax(middle - way, low + (middle - low) * (0.1 + 0.2 * (BATCH / 2 - 1 - i)));
        factor[BATCH / 2 + i] = fmin(middle + way, high - (high - middle) * (0.1 + 0.2 * (BATCH / 2 - 1 - i)));
    }
}

/* Moves the low end over samples that are below the limit, as long as utilisation cannot exceed the limit between them.
 * Returned: the first load factor found at the limit, or INFINITY. */
static double go_on_to(path *p, limit which, bracket *b, point next)
{
    const double width = b->high.factor - b->low.factor, share = (next.factor - b->low.factor) / width;
    const double between = b->deviation * share * share;
    if (next.level >= 1) {
        b->high = next;
        b->deviation = between;
        return INFINITY;
    }
    if (between > negligible && highest_between(b->low.level, next.level, between) >= 1) {
        const double hump = first_in(p, which, b->low.factor, next.factor, DIVISIONS_MOST);
        if (isfinite(hump)) return hump;
    }
    b->low = next;
    b->deviation *= (1 - share) * (1 - share);
    return INFINITY;
}

static bool is_same(double a, double b)
{
    return fabs(a - b) <= width_enough * b;
}

/* If the curve from below and the curve from beyond meet the limit at the same load factor, it is the crossing: a kink
 * between the samples would separate the two, and D bounds any other deviation. At a kink the curve through both sides is
 * no guide, so it must meet the limit there too. */
static bool is_met(const point at[BATCH], int beyond, double *factor)
{
    if (beyond < 3 || beyond > BATCH - 3) return false;
    const double before = interpolate(&at[beyond - 3], 3), behind = interpolate(&at[beyond], 3);
    *factor = interpolate(&at[beyond - 2], 4);
    return is_same(before, behind) && is_same(*factor, behind) && *factor >= at[beyond - 1].factor && *factor <= at[beyond].factor;
}

static double crossing_in(path *p, limit which, bracket b, double guess)
{
    double reach = 0.12 * (b.high.factor - b.low.factor);
    for (int round = 0; round < ROUNDS_MOST && !p->failed; round++) {
        scan s;
        point at[BATCH];
        int beyond = 0;
        if (b.high.factor - b.low.factor <= width_enough * b.high.factor) return b.high.factor;
        place_samples(&b, guess, reach, s.factor);
        p->gauge->eight(p->of, p->prepared, s.factor, false, &s.seen);
        for (int i = 0; i < BATCH; i++) at[i] = (point){s.factor[i], level_of(p, &s, which, i)};
        while (beyond < BATCH && at[beyond].level < 1) {
            const double hump = go_on_to(p, which, &b, at[beyond++]);
            if (isfinite(hump)) return hump;
        }
        if (beyond < BATCH) go_on_to(p, which, &b, at[beyond]);
        if (b.deviation <= negligible && is_met(at, beyond, &guess)) return guess;
        const int first = beyond < 2 ? 0 : beyond > BATCH - 2 ? BATCH - 4 : beyond - 2;
        guess = interpolate(&at[first], 4);
        reach = 0.3 * (b.high.factor - b.low.factor);
    }
    p->failed = true; /* no answer rather than a wrong one */
    return INFINITY;
}

static double guess_of(path *p, scan *s, limit which, int interval)
{
    const int first = interval < 1 ? 0 : interval > BATCH - 3 ? BATCH - 4 : interval - 1;
    point at[4];
    for (int i = 0; i < 4; i++) at[i] = (point){s->factor[first + i], level_of(p, s, which, first + i)};
    return interpolate(at, 4);
}

static double first_in(path *p, limit which, double from, double to, int divisions)
{
    for (int i = 0; i < BATCH - 1 && !p->failed; i++) {
        scan *s = scan_between(p, from, to); /* a later scan may have replaced it */
        const point low = {s->factor[i], level_of(p, s, which, i)}, high = {s->factor[i + 1], level_of(p, s, which, i + 1)};
        const double deviation = deviation_of(p, s, i);
        if (low.level >= 1) return low.factor;
        const bool crosses = high.level >= 1;
        if (!crosses && (highest_between(low.level, high.level, deviation) < 1 || deviation <= negligible)) continue;
        if (high.factor - low.factor <= width_enough * high.factor || divisions == 0 || (crosses && deviation <= nearly_straight)) {
            if (crosses) return crossing_in(p, which, (bracket){low, high, deviation}, guess_of(p, s, which, i));
            if (divisions == 0) p->failed = true;
            continue;
        }
        const double found = first_in(p, which, low.factor, high.factor, divisions - 1);
        if (isfinite(found)) return found;
    }
    return INFINITY;
}

double rbow_first_crossing(path *p, limit which, double from, double to)
{
    if (!(from < to)) return evaluate_at(p, which, from) >= 1 ? from : (double)INFINITY;
    return first_in(p, which, from, to, DIVISIONS_MOST);
}

/* Without a change of the axial load every moment is a straight line over the load factor, and utilisation is convex:
 * once it grows it grows for ever. So a range without an end is widened until the limit is beyond it. */
double rbow_first_crossing_from_rest(path *p, limit which, double end)
{
    const double far = 1e100;
    for (double to = 1; to < far && !p->failed; to *= 64) {
        const double factor = rbow_first_crossing(p, which, 0, fmin(to, end));
        if (isfinite(factor) || to >= end) return factor;
    }
    return INFINITY;
}
