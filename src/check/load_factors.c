#include "check/load_factors.h"

#include <math.h>
#include <stdbool.h>

/* A straight slender tube buckles at the critical load without bending. At this share of it its utilisation is finite. */
static const double next_to_buckling = 1 - 1e-10;

static double larger_of_zones(const prepared *p, double (*of)(const zone *))
{
    return fmax(of(&p->zones[ZONE_TUBE]), of(&p->zones[ZONE_WELD]));
}

static double squash_load(const zone *z)
{
    return z->strength.compression_yield * z->strength.section.area;
}

static double pull_load(const zone *z)
{
    return z->strength.yield * z->strength.section.area;
}

/* The load factor at which the axial load alone brings the tube to yield (0 if the gap does so). The 1e-12 keeps the
 * crossing inside the range in spite of rounding. */
static double axial_yield(const prepared *p)
{
    const double push = p->member.compression;
    const double factor = push > 0 ? (larger_of_zones(p, squash_load) + p->tension) / push
                                   : (larger_of_zones(p, pull_load) - p->tension) / -push;
    return fmax(0, factor * (1 + 1e-12));
}

static double column_factor(const prepared *p)
{
    const double push = p->member.compression;
    if (push > 0) return fmax(0, (p->column_load + p->tension) / push);
    return -p->tension >= p->column_load ? 0 : INFINITY;
}

static limit_factor never(void)
{
    return (limit_factor){INFINITY, false};
}

static limit_factor first_in(path *p, limit which, double from, double to)
{
    const double factor = rbow_first_crossing(p, which, from, to);
    return (limit_factor){factor, isfinite(factor)};
}

static limit_factor first_from_rest(path *p, limit which, double end)
{
    const double factor = rbow_first_crossing_from_rest(p, which, end);
    return (limit_factor){factor, isfinite(factor)};
}

/* The end of the scan of both limits under a push: beyond it the axial load alone exceeds them. */
static double end_under_push(const prepared *p)
{
    const double beyond = fmax(axial_yield(p), column_factor(p));
    return fmin(critical_factor(p) * next_to_buckling, beyond);
}

/* Under a push the range ends at the elastic critical load factor, which a straight slender tube reaches first. */
static limit_factor yield_factor(path *along, double end)
{
    const prepared *p = along->prepared;
    const double push = p->member.compression;
    if (!rbow_has_run_load(p)) return first_in(along, LIMIT_YIELD, 0, 0);
    if (!(push > 0 || push < 0)) return first_from_rest(along, LIMIT_YIELD, end);
    const double yield = axial_yield(p), most = fmin(critical_factor(p), yield);
    const limit_factor k = first_in(along, LIMIT_YIELD, 0, fmin(push > 0 ? end_under_push(p) : yield, end));
    return k.factor <= most || end < most ? k : (limit_factor){most, false};
}

/* Interaction counts only in compression. Its range begins at the load factor that cancels a locked-in tension, and ends at
 * the column factor, which it never exceeds. Without a push only a squeezed tube is in compression, up to the load factor
 * that cancels the compression. */
static limit_factor interaction_factor(path *along, double end)
{
    const prepared *p = along->prepared;
    const double push = p->member.compression, tension = p->tension;
    if (push > 0) {
        const double column = column_factor(p), from = fmin(fmax(0, tension / push), column);
        const limit_factor k = first_in(along, LIMIT_INTERACTION, from, fmax(from, fmin(end_under_push(p), end)));
        return k.factor <= column || end < column ? k : (limit_factor){column, false};
    }
    if (!(tension < 0)) return never();
    if (push < 0) return first_in(along, LIMIT_INTERACTION, 0, fmin(tension / push, end));
    return rbow_has_run_load(p) ? first_from_rest(along, LIMIT_INTERACTION, end) : first_in(along, LIMIT_INTERACTION, 0, 0);
}

static bool buckles_at_rest(const prepared *p)
{
    return -p->tension >= p->critical_load;
}

rbow_status rbow_load_factors(const prepared *p, load_factors *out)
{
    *out = (load_factors){0, {{0, false}, {0, false}}};
    if (buckles_at_rest(p)) return RBOW_OK; /* all three are 0 */
    path along = rbow_path_of(p);
    out->column = column_factor(p);
    out->limits[LIMIT_YIELD] = yield_factor(&along, INFINITY);
    out->limits[LIMIT_INTERACTION] = interaction_factor(&along, INFINITY);
    return along.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}

/* Each limit is followed only as far as it can decide. */
rbow_status rbow_least_ratio(const prepared *p, double most, double *ratio)
{
    const rbow_member *m = &p->member;
    path along = rbow_path_of(p);
    *ratio = 0;
    if (buckles_at_rest(p)) return RBOW_OK;
    double least = fmin(most, column_factor(p) / m->factor);
    least = fmin(least, interaction_factor(&along, least * m->factor).factor / m->factor);
    least = fmin(least, yield_factor(&along, least * m->factor_yield).factor / m->factor_yield);
    *ratio = least;
    return along.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}
