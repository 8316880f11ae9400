#include "check/evaluate.h"

#include "check/loads_body.h"
#include "mechanics/stress_body.h"

#include <math.h>

/* Keeps the larger utilisation; within rounding, the one at the smaller t. NaN replaces any number, so that it shows. */
static bool first_counts(double a, double a_at, double b, double b_at)
{
    if (fabs(a - b) <= 1e-11 * fmax(a, b)) return a_at <= b_at;
    return isnan(a) || a > b;
}

typedef struct zone_state {
    reached limits[LIMITS];
    double stress;
} zone_state;

static zone_state zone_state_of(const prepared *p, const evaluation *e, int which)
{
    const peak k = e->peaks[which];
    if (k.size < 0) return (zone_state){{{-1, 0, which}, {-1, 0, which}}, 0};
    const double torque = fabs(e->torque);
    const fibres f = fibres_of(&p->zones[which].factors, k.size, e->axial, torque, torque > 0);
    const bool pressed = f.utilisation_pressed >= f.utilisation_pulled;
    return (zone_state){
        .limits = {[LIMIT_YIELD] = {pressed ? f.utilisation_pressed : f.utilisation_pulled, k.at, which},
                   [LIMIT_INTERACTION] = {f.utilisation_bent, k.at, which}},
        .stress = pressed ? f.pressed : f.pulled,
    };
}

static plane_loads plane_loads_of(const member_loads *l)
{
    plane_loads out;
    for (int i = 0; i < PLANES; i++) {
        out.moment_a[i] = l->moment_a[i];
        out.moment_b[i] = l->moment_b[i];
        out.slope_a[i] = l->slope_a[i];
        out.slope_b[i] = l->slope_b[i];
        out.spread[i] = l->spread[i];
        out.point[i] = l->point[i];
        out.bow[i] = l->bow[i];
    }
    return out;
}

static void evaluate(const prepared *p, const plane_loads *loads, bool places, evaluation *e)
{
    e->stands = e->axial < p->critical_load;
    if (!e->stands) return;
    equilibrium solved;
    equilibrium_of(&p->beam, relative_load(p, e->axial), loads, &solved);
    e->solution = solution_of(&solved);
    rbow_largest_moments(p, &e->solution, places, e->peaks);

    const zone_state tube = zone_state_of(p, e, ZONE_TUBE), weld = zone_state_of(p, e, ZONE_WELD);
    for (int i = 0; i < LIMITS; i++) {
        const reached a = tube.limits[i], b = weld.limits[i];
        e->limits[i] = first_counts(a.utilisation, a.at, b.utilisation, b.at) ? a : b;
    }
    e->stress = e->limits[LIMIT_YIELD].zone == ZONE_TUBE ? tube.stress : weld.stress;
    reached *interaction = &e->limits[LIMIT_INTERACTION];
    interaction->utilisation = interaction_of(e->axial, p->column_load, interaction->utilisation);
    const peak *k = e->peaks;
    e->moment = first_counts(k[ZONE_TUBE].size, k[ZONE_TUBE].at, k[ZONE_WELD].size, k[ZONE_WELD].at) ? k[ZONE_TUBE] : k[ZONE_WELD];
}

void rbow_evaluate_under(const prepared *p, double axial, double torque, const member_loads *loads, bool places, evaluation *e)
{
    const plane_loads acting = plane_loads_of(loads);
    e->axial = axial;
    e->torque = torque;
    evaluate(p, &acting, places, e);
}

void rbow_evaluate(const prepared *p, double factor, bool places, evaluation *e)
{
    plane_loads loads;
    e->factor = factor;
    e->axial = axial_at(p, factor);
    e->torque = factor * p->member.torque;
    loads_at(p, factor, &loads);
    evaluate(p, &loads, places, e);
}

void rbow_equilibrium_at(const prepared *p, double factor, solution *out)
{
    plane_loads loads;
    equilibrium solved;
    loads_at(p, factor, &loads);
    equilibrium_of(&p->beam, relative_load(p, axial_at(p, factor)), &loads, &solved);
    *out = solution_of(&solved);
}
