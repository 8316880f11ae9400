#include "engine/stress.h"

#include <math.h>

/* Most tubes are not twisted: a check asks this a hundred times. */
static double with_shear(double direct, double shear)
{
    return shear > 0 ? hypot(direct, shear) : direct;
}

static double larger(double a, double b)
{
    return a < b ? b : a; /* NaN stays */
}

/* Within one zone both fibres' use grows with the moment, so the largest moment decides. */
static stress_peak zone_stress(const frame *f, const state *s, const peak peaks[2], int which)
{
    const zone *z = &f->zones[which];
    const peak p = peaks[which];
    if (p.size < 0) return (stress_peak){.use = -1, .moment = -1};

    const double bending = p.size * z->stress_per_moment, axial = s->axial * z->stress_per_axial;
    const double shear = fabs(s->torque) * z->stress_per_torque;
    const double pressed = with_shear(larger(axial + bending, 0), shear);
    const double pulled = with_shear(larger(bending - axial, 0), shear);
    const double use_pressed = pressed * z->share_pressed, use_pulled = pulled * z->share_pulled;
    return (stress_peak){
        .use = larger(use_pressed, use_pulled),
        .stress = use_pressed >= use_pulled ? pressed : pulled,
        .at = p.at,
        .zone = which,
        .moment = p.size,
        .moment_at = p.at,
    };
}

/* What is not a number wins, so that it is seen. */
static bool first_wins(double a, double a_at, double b, double b_at)
{
    if (fabs(a - b) <= 1e-11 * larger(a, b)) return a_at <= b_at;
    return isnan(a) || a > b;
}

stress_peak stress_of(const frame *f, const state *s, const peak peaks[2])
{
    const stress_peak tube = zone_stress(f, s, peaks, ZONE_TUBE), weld = zone_stress(f, s, peaks, ZONE_WELD);
    stress_peak worst = first_wins(tube.use, tube.at, weld.use, weld.at) ? tube : weld;
    const bool tube_bends_more = first_wins(tube.moment, tube.at, weld.moment, weld.at);
    worst.moment = tube_bends_more ? tube.moment : weld.moment;
    worst.moment_at = tube_bends_more ? tube.moment_at : weld.moment_at;
    return worst;
}

static interaction zone_interaction(const frame *f, const state *s, const peak peaks[2], int which)
{
    const zone *z = &f->zones[which];
    const peak p = peaks[which];
    if (p.size < 0) return (interaction){.value = -1};
    const double bending = p.size * z->stress_per_moment, shear = fabs(s->torque) * z->stress_per_torque;
    return (interaction){
        .value = with_shear(bending, shear) * z->share_pressed,
        .at = p.at,
        .zone = which,
    };
}

interaction interaction_of(const frame *f, const state *s, const peak peaks[2])
{
    const interaction tube = zone_interaction(f, s, peaks, ZONE_TUBE), weld = zone_interaction(f, s, peaks, ZONE_WELD);
    interaction worst = first_wins(tube.value, tube.at, weld.value, weld.at) ? tube : weld;
    worst.value += s->axial / f->column_load;
    return worst;
}
