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
    const rbow_solution in_up = solution_in(&s->shares, UP), in_right = solution_in(&s->shares, RIGHT);
    rbow_beam_at(&s->prepared, &in_up, p->at, &up);
    rbow_beam_at(&s->prepared, &in_right, p->at, &right);
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

static void tell_place(const frame *f, const reach *to, int check, rbow_limit *l)
{
    sight s;
    if (isnan(to->at)) return;
    sight_at(f, to->factor, to->tension, &s);
    if (!s.stands) return;
    rbow_profile p = {.at = to->at * f->member.length};
    station_at(&s.state, &p);
    l->level = check == RBOW_BY_YIELD ? s.stress.use : s.together.value;
    l->in_weld_zone = to->zone == ZONE_WELD;
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
    frame f;
    sight fit, loaded;
    factors k;
    *limit = nothing;
    if (!(check >= RBOW_BY_COLUMN && check <= RBOW_BY_INTERACTION)) return RBOW_OUT_OF_RANGE;
    rbow_status status = factors_ready(member, material, &f, &fit, &loaded);
    if (status == RBOW_OK) status = factors_of(&f, &fit, &loaded, &k);
    if (status != RBOW_OK) return status;
    const reach column = {k.column, column_tension(&f), NAN, ZONE_TUBE};
    const reach *to = check == RBOW_BY_COLUMN ? &column : check == RBOW_BY_YIELD ? &k.yield : &k.interaction;
    rbow_limit l = nothing;
    l.factor = to->factor;
    l.tension = to->tension;
    if (isfinite(l.factor)) {
        l.axial = frame_axial(&f, l.factor, l.tension);
        l.torque = l.factor * member->torque;
        tell_place(&f, to, check, &l);
    }
    *limit = l;
    return RBOW_OK;
}
