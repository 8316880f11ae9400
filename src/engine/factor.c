#include "engine/factor.h"

#include "engine/climb.h"

#include <math.h>

void sight_at(const frame *f, double factor, double tension, sight *out)
{
    out->stands = frame_state(f, factor, tension, &out->state) == RBOW_OK;
    if (!out->stands) return;
    peak_moments(f, &out->state, out->peaks);
    out->stress = stress_of(f, &out->state, out->peaks);
    out->together = interaction_of(f, &out->state, out->peaks);
}

rbow_status factors_ready(const rbow_member *member, const rbow_material *material, frame *f, sight *fit, sight *loaded)
{
    rbow_status status;
    if (frame_faults(member, material, &status, 1) > 0) return status;
    status = frame_build(member, material, f);
    if (status != RBOW_OK) return status;
    sight_at(f, 0, f->tension, fit);
    sight_at(f, 1, f->tension, loaded);
    return RBOW_OK;
}

static double larger(const frame *f, double (*of)(const zone *))
{
    return fmax(of(&f->zones[ZONE_TUBE]), of(&f->zones[ZONE_WELD]));
}

static double squash_load(const zone *z)
{
    return z->compression_yield * z->section.area;
}

static double pull_load(const zone *z)
{
    return z->yield * z->section.area;
}

/* The factor at which the axial load alone must have brought the tube to yield (0 where the gap does so); +1e-12 so
 * that rounding cannot leave the crossing outside. */
static double axial_yield(const frame *f, double tension)
{
    const double push = f->member.compression;
    const double factor =
        push > 0 ? (larger(f, squash_load) + tension) / push : (larger(f, pull_load) - tension) / -push;
    return fmax(0, factor * (1 + 1e-12));
}

/* With a push it stops at the elastic critical factor: a straight slender tube gets there first. */
static rbow_status yield_factor(const frame *f, double tension, const mark *rest, memory *m, reach *out)
{
    climb c = climb_of(f, tension, LEVEL_USE, m);
    const double push = f->member.compression;
    if (!frame_runs(f)) return climb_to_limit(&c, rest, 0, out);
    if (!(push > 0 || push < 0)) return climb_to_limit(&c, rest, FOR_EVER, out);

    const double yield = axial_yield(f, tension), most = fmin(c.critical, yield);
    const rbow_status status = climb_to_limit(&c, rest, fmin(c.critical * (1 - 1e-10), yield), out);
    if (status == RBOW_OK && !(out->factor <= most)) *out = (reach){most, tension, NAN, ZONE_TUBE};
    return status;
}

static double column_factor(const frame *f, double tension)
{
    const double push = f->member.compression;
    if (push > 0) return fmax(0, (f->column_load + tension) / push);
    return -tension >= f->column_load ? 0 : INFINITY;
}

/* A level that counts only in compression, under a push: from the factor that uses up a locked-in tension, to the column
 * factor, which it never exceeds. */
static rbow_status reach_under_push(const frame *f, double tension, level which, const mark *rest, memory *m, reach *out)
{
    climb c = climb_of(f, tension, which, m);
    const double column = column_factor(f, tension);
    const double low = fmin(fmax(0, tension / f->member.compression), column);
    const mark from = low > 0 ? climb_look(&c, low) : *rest;
    const rbow_status status = climb_to_limit(&c, &from, fmin(column, c.critical * (1 - 1e-10)), out);
    if (status == RBOW_OK && !(out->factor <= column)) *out = (reach){column, tension, NAN, ZONE_TUBE};
    return status;
}

/* Without a push only a squeezed tube is in compression: up to the factor that pulls it free. */
static rbow_status interaction_factor(const frame *f, double tension, const mark *rest, memory *m, reach *out)
{
    const double push = f->member.compression;
    if (push > 0) return reach_under_push(f, tension, LEVEL_INTERACTION, rest, m, out);
    climb c = climb_of(f, tension, LEVEL_INTERACTION, m);
    *out = climb_never(&c);
    if (!(tension < 0)) return RBOW_OK;
    if (push < 0) return climb_to_limit(&c, rest, tension / push, out);
    return climb_to_limit(&c, rest, frame_runs(f) ? FOR_EVER : 0, out);
}

/* Given: fit, loaded  seen with this tension */
static rbow_status factors_with(const frame *f, double tension, const sight *fit, const sight *loaded, factors *out)
{
    *out = (factors){0, {0, tension, NAN, ZONE_TUBE}, {0, tension, NAN, ZONE_TUBE}};
    if (-tension >= f->critical_load) return RBOW_OK; /* it buckles where it stands: all three 0 */
    memory m;
    memory_clear(&m);
    if (loaded->stands) m.loaded = memory_keep(&m, 1, loaded);
    const mark rest = memory_keep(&m, 0, fit);
    out->column = column_factor(f, tension);
    const rbow_status status = yield_factor(f, tension, &rest, &m, &out->yield);
    if (status != RBOW_OK) return status;
    return interaction_factor(f, tension, &rest, &m, &out->interaction);
}

static bool is_number(const sight *s)
{
    return !s->stands || (isfinite(s->stress.use) && isfinite(s->together.value));
}

/* Locked-in tension may have relaxed, so its help is not counted: not under a push, and not where it would only
 * stiffen the tube against what bends it. */
rbow_status factors_of(const frame *f, const sight *fit, const sight *loaded, factors *out)
{
    if (!is_number(fit) || !is_number(loaded)) return RBOW_STRESS_OVERFLOW;
    rbow_status status = factors_with(f, f->tension, fit, loaded, out);
    if (status != RBOW_OK || !(f->tension > 0)) return status;

    factors relaxed;
    sight slack, run;
    sight_at(f, 0, 0, &slack);
    sight_at(f, 1, 0, &run);
    status = factors_with(f, 0, &slack, &run, &relaxed);
    if (relaxed.yield.factor < out->yield.factor) out->yield = relaxed.yield;
    if (relaxed.interaction.factor < out->interaction.factor) out->interaction = relaxed.interaction;
    out->column = fmin(out->column, relaxed.column);
    return status;
}

/* Nothing is locked in: at rest the tube is free of moments. */
static mark at_rest(void)
{
    return (mark){.closely = false};
}

/* Under a push both limits, as far as the column load, are one climb where they are asked for with the same factor. */
rbow_status least_ratio_of(const frame *unforced, double near, double *ratio)
{
    const frame *f = unforced;
    const rbow_member *m = &f->member;
    const mark rest = at_rest();
    reach together, yield;
    memory met;
    memory_clear(&met);
    met.end = near;
    rbow_status status;
    if (m->compression > 0 && end_is(m->factor, m->factor_yield)) {
        status = reach_under_push(f, 0, LEVEL_EITHER, &rest, &met, &together);
        *ratio = together.factor / m->factor;
        return status;
    }
    status = interaction_factor(f, 0, &rest, &met, &together);
    if (status == RBOW_OK) status = yield_factor(f, 0, &rest, &met, &yield);
    if (status != RBOW_OK) return status;
    *ratio = fmin(fmin(column_factor(f, 0), together.factor) / m->factor, yield.factor / m->factor_yield);
    return RBOW_OK;
}
