#include <railbow/member.h>

#include "engine/factor.h"
#include "engine/stress.h"

static void forget(rbow_profile *stations, size_t count)
{
    for (size_t i = 0; i < count; i++)
        stations[i] = (rbow_profile){.at = stations[i].at, .moment_up = NAN, .moment_right = NAN,
                                     .deflection_up = NAN, .deflection_right = NAN};
}

static bool are_inside(const rbow_profile *stations, size_t count, double length)
{
    for (size_t i = 0; i < count; i++)
        if (!(stations[i].at >= 0 && stations[i].at <= length)) return false;
    return true;
}

static void station_at(const state *s, rbow_profile *p)
{
    rbow_station up, right;
    rbow_beam_at(&s->prepared, &s->planes[UP], p->at, &up);
    rbow_beam_at(&s->prepared, &s->planes[RIGHT], p->at, &right);
    p->moment_up = up.moment;
    p->moment_right = right.moment;
    p->deflection_up = up.deflection;
    p->deflection_right = right.deflection;
}

rbow_status rbow_member_profile(const rbow_member *member, const rbow_material *material, double factor,
                                double tension, rbow_profile *stations, size_t count)
{
    rbow_status status;
    frame f;
    state s;
    forget(stations, count);
    if (frame_faults(member, material, &status, 1) > 0) return status;
    if (!(factor >= 0 && isfinite(factor) && isfinite(tension)) || !are_inside(stations, count, member->length))
        return RBOW_OUT_OF_RANGE;
    status = frame_build(member, material, &f);
    if (status == RBOW_OK) status = frame_state(&f, factor, tension, &s);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; i < count; i++) station_at(&s, &stations[i]);
    return RBOW_OK;
}

static const rbow_limit nothing = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, 0};

static void tell_place(const frame *f, int check, rbow_limit *l)
{
    state s;
    peak peaks[2];
    if (frame_state(f, l->factor, l->tension, &s) != RBOW_OK) return;
    peak_moments(f, &s, peaks);
    const stress_peak y = stress_of(f, &s, peaks);
    const interaction i = interaction_of(f, &s, peaks);
    const bool yield = check == RBOW_BY_YIELD;
    l->level = yield ? y.use : i.value;
    l->in_weld_zone = (yield ? y.zone : i.zone) == ZONE_WELD;
    rbow_profile p = {.at = (yield ? y.at : i.at) * f->member.length};
    station_at(&s, &p);
    l->at = p.at;
    l->moment_up = p.moment_up;
    l->moment_right = p.moment_right;
}

/* The column's limit, too, counts no help from locked-in tension. */
static double column_tension(const frame *f)
{
    return fmin(f->tension, 0);
}

rbow_status rbow_member_limit(const rbow_member *member, const rbow_material *material, int check, rbow_limit *limit)
{
    rbow_status status;
    frame f;
    factors k;
    *limit = nothing;
    if (!(check >= RBOW_BY_COLUMN && check <= RBOW_BY_INTERACTION)) return RBOW_OUT_OF_RANGE;
    if (frame_faults(member, material, &status, 1) > 0) return status;
    status = frame_build(member, material, &f);
    if (status == RBOW_OK) status = factors_of(&f, &k);
    if (status != RBOW_OK) return status;
    rbow_limit l = nothing;
    l.factor = check == RBOW_BY_COLUMN ? k.column : check == RBOW_BY_YIELD ? k.yield : k.interaction;
    l.tension = check == RBOW_BY_COLUMN ? column_tension(&f)
        : check == RBOW_BY_YIELD        ? k.yield_tension
                                        : k.interaction_tension;
    if (isfinite(l.factor)) {
        l.axial = frame_axial(&f, l.factor, l.tension);
        l.torque = l.factor * member->torque;
        if (check != RBOW_BY_COLUMN) tell_place(&f, check, &l);
    }
    *limit = l;
    return RBOW_OK;
}
