#include <railbow/stress.h>

#include "mechanics/no_result.h"
#include "mechanics/stress_body.h"

RESULT_OF_DOUBLES(rbow_stress);

static bool is_sound(const rbow_strength *s, const rbow_actions *a)
{
    return s->section.area > 0 && s->section.section_modulus > 0 && s->section.polar_inertia > 0 && s->section.od > 0
        && s->compression_yield > 0 && s->yield > 0 && s->column_load > 0 && isfinite(a->axial) && a->torque >= 0
        && isfinite(a->torque);
}

rbow_status rbow_stress_of(const rbow_strength *s, const rbow_actions *a, rbow_stress *stress)
{
    NO_RESULT(stress);
    if (!is_sound(s, a) || !(a->moment >= 0 && isfinite(a->moment))) return RBOW_OUT_OF_RANGE;
    const fibre_factors k = fibre_factors_of(s, 1);
    const fibres f = fibres_of(&k, a->moment, a->axial, a->torque, a->torque > 0);
    *stress = (rbow_stress){
        .shear = f.shear / sqrt(3.0),
        .bending = f.bending,
        .pressed = f.direct + f.bending,
        .pulled = f.bending - f.direct,
        .utilisation_pressed = f.utilisation_pressed,
        .utilisation_pulled = f.utilisation_pulled,
        .interaction = interaction_of(a->axial, s->column_load, f.utilisation_bent),
    };
    return RBOW_OK;
}

/* What is left of a strength beside the torque's shear. */
static double beside_shear(double limit, double shear)
{
    return limit > shear ? sqrt((limit - shear) * (limit + shear)) : 0;
}

rbow_status rbow_yield_moment(const rbow_strength *s, const rbow_actions *a, double *moment)
{
    *moment = NAN;
    if (!is_sound(s, a)) return RBOW_OUT_OF_RANGE;
    const fibre_factors k = fibre_factors_of(s, 1);
    const double direct = a->axial * k.stress_per_axial, shear = a->torque * k.stress_per_torque;
    const double pressed = beside_shear(s->compression_yield, shear) - direct, pulled = beside_shear(s->yield, shear) + direct;
    *moment = fmax(0, fmin(pressed, pulled)) / k.stress_per_moment;
    return RBOW_OK;
}

rbow_status rbow_interaction_moment(const rbow_strength *s, const rbow_actions *a, double *moment)
{
    *moment = NAN;
    if (!is_sound(s, a)) return RBOW_OUT_OF_RANGE;
    const fibre_factors k = fibre_factors_of(s, 1);
    const double left = fmax(0, 1 - a->axial / s->column_load) * s->compression_yield;
    *moment = beside_shear(left, a->torque * k.stress_per_torque) / k.stress_per_moment;
    return RBOW_OK;
}
