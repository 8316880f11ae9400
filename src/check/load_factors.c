#include "check/load_factors.h"

#include <math.h>
#include <stddef.h>

/* A straight slender tube buckles at the critical load without bending. At this share of it its utilisation is finite. */
static const double next_to_buckling = 1 - 1e-10;

static double larger_of_zones(const prepared *p, double (*of)(const zone *))
{
    return fmax(of(&p->zones[ZONE_TUBE]), of(&p->zones[ZONE_WELD]));
}

static double squash_load(const zone *z)
{
    return z->compression_yield * z->section.area;
}

static double pull_load(const zone *z)
{
    return z->yield * z->section.area;
}

/* The load factor at which the axial load alone brings the tube to yield (0 if the gap does so). The 1e-12 keeps the
 * crossing inside the range in spite of rounding. */
static double axial_yield(const prepared *p, double tension)
{
    const double push = p->member.compression;
    const double factor = push > 0 ? (larger_of_zones(p, squash_load) + tension) / push
                                   : (larger_of_zones(p, pull_load) - tension) / -push;
    return fmax(0, factor * (1 + 1e-12));
}

static double column_factor(const prepared *p, double tension)
{
    const double push = p->member.compression;
    if (push > 0) return fmax(0, (p->column_load + tension) / push);
    return -tension >= p->column_load ? 0 : INFINITY;
}

static limit_factor never(double tension)
{
    return (limit_factor){INFINITY, tension, false};
}

static limit_factor first_in(path *p, limit which, double from, double to)
{
    const double factor = rbow_first_crossing(p, which, from, to);
    return (limit_factor){factor, p->tension, isfinite(factor)};
}

/* If the axial load does not change, every moment is a straight line over the load factor, and utilisation is convex: once
 * it grows, it continues to grow. The load factor is doubled until the limit is exceeded. */
static limit_factor first_in_endless_range(path *p, limit which)
{
    const double far = 1e100;
    for (double to = 1; to < far; to *= 64) {
        const limit_factor k = first_in(p, which, 0, to);
        if (p->failed || isfinite(k.factor)) return k;
    }
    return never(p->tension);
}

/* The end of the scan of both limits under a push: beyond it the axial load alone exceeds them. */
static double end_under_push(const prepared *p, double tension)
{
    const double beyond = fmax(axial_yield(p, tension), column_factor(p, tension));
    return fmin(critical_factor(p, tension) * next_to_buckling, beyond);
}

/* Under a push the range ends at the elastic critical load factor, which a straight slender tube reaches first. */
static limit_factor yield_factor(path *along, double end)
{
    const prepared *p = along->prepared;
    const double push = p->member.compression, tension = along->tension;
    if (!rbow_has_run_load(p)) return first_in(along, LIMIT_YIELD, 0, 0);
    if (!(push > 0 || push < 0)) return first_in_endless_range(along, LIMIT_YIELD);
    const double yield = axial_yield(p, tension), most = fmin(critical_factor(p, tension), yield);
    const limit_factor k = first_in(along, LIMIT_YIELD, 0, fmin(push > 0 ? end_under_push(p, tension) : yield, end));
    return k.factor <= most || end < most ? k : (limit_factor){most, tension, false};
}

/* Interaction counts only in compression. Its range begins at the load factor that cancels a locked-in tension, and ends at
 * the column factor, which it never exceeds. Without a push only a squeezed tube is in compression, up to the load factor
 * that cancels the compression. */
static limit_factor interaction_factor(path *along, double end)
{
    const prepared *p = along->prepared;
    const double push = p->member.compression, tension = along->tension;
    if (push > 0) {
        const double column = column_factor(p, tension), from = fmin(fmax(0, tension / push), column);
        const limit_factor k = first_in(along, LIMIT_INTERACTION, from, fmax(from, fmin(end_under_push(p, tension), end)));
        return k.factor <= column || end < column ? k : (limit_factor){column, tension, false};
    }
    if (!(tension < 0)) return never(tension);
    if (push < 0) return first_in(along, LIMIT_INTERACTION, 0, fmin(tension / push, end));
    return rbow_has_run_load(p) ? first_in_endless_range(along, LIMIT_INTERACTION) : first_in(along, LIMIT_INTERACTION, 0, 0);
}

/* A load factor that is likely to lie beyond both limits: from the utilisation at load factors 0 and 1, as if it grew like
 * a/(1 - P/P_cr), plus a fifth. Only the time taken depends on it. */
static double likely_end(const prepared *p, const evaluation *at_rest, const evaluation *loaded)
{
    const double critical = critical_factor(p, p->tension);
    double end = 0;
    if (!at_rest->stands || !loaded->stands) return 0;
    for (int i = 0; i < LIMITS; i++) {
        const double rest = at_rest->limits[i].utilisation, growth = loaded->limits[i].utilisation - rest;
        const double missing = 1 - rest, slope = growth * (1 - 1 / critical) + missing / critical;
        if (missing > 0 && growth > 0 && slope > 0) end = fmax(end, 1.2 * missing / slope);
    }
    return end;
}

static rbow_status factors_with(const prepared *p, double tension, const evaluation *at_rest, double likely, load_factors *out)
{
    *out = (load_factors){0, {{0, tension, false}, {0, tension, false}}};
    if (-tension >= p->critical_load) return RBOW_OK; /* it buckles without run load: all three are 0 */
    path along = rbow_path_of(p, tension, at_rest);
    along.likely = likely;
    out->column = column_factor(p, tension);
    out->limits[LIMIT_YIELD] = yield_factor(&along, INFINITY);
    out->limits[LIMIT_INTERACTION] = interaction_factor(&along, INFINITY);
    return along.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}

/* Locked-in tension may have relaxed, so its help does not count, neither under a push nor where it would only stiffen the
 * tube against bending. */
rbow_status rbow_load_factors(const prepared *p, const evaluation *at_rest, const evaluation *loaded, load_factors *out)
{
    rbow_status status = factors_with(p, p->tension, at_rest, likely_end(p, at_rest, loaded), out);
    if (status != RBOW_OK || !(p->tension > 0)) return status;
    load_factors relaxed;
    status = factors_with(p, 0, NULL, 0, &relaxed);
    for (int i = 0; i < LIMITS; i++)
        if (relaxed.limits[i].factor < out->limits[i].factor) out->limits[i] = relaxed.limits[i];
    out->column = fmin(out->column, relaxed.column);
    return status;
}

/* The limit that is likely to govern. The search for the other limit then ends where it can no longer govern. */
rbow_status rbow_least_ratio(const prepared *without_fit, double likely, limit first, double *ratio)
{
    const rbow_member *m = &without_fit->member;
    path along = rbow_path_of(without_fit, 0, NULL);
    along.likely = likely;
    double least = column_factor(without_fit, 0) / m->factor;
    if (first == LIMIT_YIELD) least = fmin(least, yield_factor(&along, INFINITY).factor / m->factor_yield);
    least = fmin(least, interaction_factor(&along, least * m->factor).factor / m->factor);
    if (first != LIMIT_YIELD) least = fmin(least, yield_factor(&along, least * m->factor_yield).factor / m->factor_yield);
    *ratio = least;
    return along.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}
