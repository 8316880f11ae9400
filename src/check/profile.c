#include <railbow/member.h>

#include "mechanics/beamcolumn_body.h"
#include "check/load_factors.h"
#include "mechanics/no_result.h"
#include "mechanics/restraint.h"

static void forget(rbow_profile *places, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const double at = places[i].at;
        NO_RESULT(&places[i]);
        places[i].at = at;
    }
}

static bool are_inside(const rbow_profile *places, size_t count, double length)
{
    for (size_t i = 0; i < count; i++)
        if (!(places[i].at >= 0 && places[i].at <= length)) return false;
    return true;
}

static void moments_and_movements(const prepared *p, const solution *s, rbow_profile *out)
{
    const double t = out->at / p->member.length - 0.5;
    const station there = station_at(&p->beam, t, t < 0.5 ? nextafter(t, 1) : t);
    const location at = location_of(&there);
    const equilibrium e = equilibrium_from(&p->beam, s);
    moments m;
    double w[PLANES], dw[PLANES];
    moments_at(&e, &at, &m);
    movements_at(&e, &at, w, dw);
    out->moment_up = m.m[UP] * p->unit;
    out->moment_right = m.m[RIGHT] * p->unit;
    out->shear_up = m.dm[UP] * p->unit / p->member.length;
    out->shear_right = m.dm[RIGHT] * p->unit / p->member.length;
    out->deflection_up = w[UP] * p->member.length;
    out->deflection_right = w[RIGHT] * p->member.length;
}

void rbow_profile_of(const prepared *p, const solution *s, rbow_profile *places, size_t count)
{
    for (size_t i = 0; i < count; i++) moments_and_movements(p, s, &places[i]);
}

/* ---- forces on a section ----------------------------------------------------------------------------------- */

static const double rounding = 1e-12; /* of the length: a place that is converted from another unit may be off by less */

static bool is_at(bool there, double where, double t)
{
    return there && fabs(where - t) <= rounding;
}

bool rbow_shear_jumps_at(const prepared *p, double at)
{
    const double t = at / p->member.length - 0.5;
    return is_at(p->beam.has_point, p->beam.point_at, t) || is_at(p->beam.has_kink, p->beam.kink_at, t);
}

static rbow_section_forces forces_there(const prepared *p, const solution *s, double axial, double torque, double at)
{
    rbow_profile there = {.at = fmin(fmax(at, 0), p->member.length)};
    rbow_profile_of(p, s, &there, 1);
    return (rbow_section_forces){axial, there.moment_up, there.moment_right, torque, there.shear_up, there.shear_right};
}

rbow_section_forces rbow_forces_of(const prepared *p, const solution *s, double axial, double torque, double at, place_side side)
{
    if (!rbow_shear_jumps_at(p, at)) return forces_there(p, s, axial, torque, at);
    const double beside = 4 * rounding * p->member.length;
    const rbow_section_forces a = forces_there(p, s, axial, torque, at - beside), b = forces_there(p, s, axial, torque, at + beside);
    if (side == SIDE_OF_MORE) return hypot(a.shear_up, a.shear_right) > hypot(b.shear_up, b.shear_right) ? a : b;
    return side == SIDE_OF_A ? a : b;
}

static bool is_forced(const rbow_member *m)
{
    return m->miss_a > 0 || m->miss_b > 0 || fabs(m->gap) > 0;
}

/* The concrete member that governs, made ready.
 * Given:  keeps  what is locked in is kept where all else is known
 * Status: as rbow_member_check */
static rbow_status prepare_concrete(const rbow_member *member, const rbow_material *material, bool keeps, prepared *p)
{
    const double clocks[] = {member->bow_clock, member->miss_a_clock, member->miss_b_clock, member->eccentricity_clock};
    bool known = !end_is(member->end_a, RBOW_WELDED) && !end_is(member->end_b, RBOW_WELDED);
    for (int i = 0; i < 4; i++) known = known && !end_is(clocks[i], RBOW_ANY_CLOCK);
    known = known && (keeps || !is_forced(member));
    rbow_status status;
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    if (known) return rbow_prepare(member, material, p);
    rbow_result r;
    status = rbow_member_check(member, material, &r);
    if (status != RBOW_OK) return status;
    const rbow_member taken = rbow_member_taken(member, &r);
    return rbow_prepare(&taken, material, p);
}

rbow_status rbow_member_profile(const rbow_member *member, const rbow_material *material, double factor,
                                double tension, rbow_profile *places, size_t count)
{
    prepared p;
    evaluation e;
    forget(places, count);
    const rbow_status status = prepare_concrete(member, material, true, &p);
    if (status != RBOW_OK) return status;
    if (!(factor >= 0 && isfinite(factor) && isfinite(tension)) || !are_inside(places, count, member->length))
        return RBOW_OUT_OF_RANGE;
    p.tension = tension;
    rbow_evaluate(&p, factor, false, &e);
    if (!e.stands) return RBOW_UNSTABLE;
    rbow_profile_of(&p, &e.solution, places, count);
    return RBOW_OK;
}

RESULT_OF_DOUBLES(rbow_profile);
RESULT_WITH_WHOLE(rbow_limit, in_weld_zone, 1);

static void tell_place(const prepared *p, const limit_factor *to, limit which, rbow_limit *l)
{
    evaluation e;
    if (!to->at_a_place) return;
    rbow_evaluate(p, to->factor, true, &e);
    if (!e.stands) return;
    const reached *there = &e.limits[which];
    rbow_profile place = {.at = fmin(fmax((there->at + 0.5) * p->member.length, 0), p->member.length)};
    moments_and_movements(p, &e.solution, &place);
    l->level = there->utilisation;
    l->in_weld_zone = there->zone == ZONE_WELD;
    l->at = place.at;
    l->moment_up = place.moment_up;
    l->moment_right = place.moment_right;
}

rbow_status rbow_member_limit(const rbow_member *member, const rbow_material *material, int check, rbow_limit *out)
{
    prepared p;
    load_factors k;
    NO_RESULT_BEFORE(rbow_limit, out, in_weld_zone);
    if (!(check >= RBOW_BY_COLUMN && check <= RBOW_BY_INTERACTION)) return RBOW_OUT_OF_RANGE;
    rbow_status status = prepare_concrete(member, material, false, &p);
    if (status != RBOW_OK) return status;
    status = rbow_load_factors(&p, &k);
    if (status != RBOW_OK) return status;
    const limit_factor column = {k.column, false};
    const limit which = check == RBOW_BY_YIELD ? LIMIT_YIELD : LIMIT_INTERACTION;
    const limit_factor *to = check == RBOW_BY_COLUMN ? &column : &k.limits[which];
    rbow_limit l = *out;
    l.factor = to->factor;
    l.tension = p.tension;
    if (isfinite(l.factor)) {
        l.axial = axial_at(&p, l.factor);
        l.torque = l.factor * member->torque;
        tell_place(&p, to, which, &l);
    }
    *out = l;
    return RBOW_OK;
}
