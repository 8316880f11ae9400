/* Stress per load of a section, and share of its yields per stress. */
#ifndef RAILBOW_MECHANICS_FIBRE_FACTORS_H
#define RAILBOW_MECHANICS_FIBRE_FACTORS_H

#include <railbow/stress.h>

#include <math.h>

typedef struct fibre_factors {
    double stress_per_moment, stress_per_axial, stress_per_torque; /* psi per `unit` in-lbf, per lbf, per in-lbf (times sqrt 3) */
    double share_pressed, share_pulled;                            /* of yield, per psi */
} fibre_factors;

static inline fibre_factors fibre_factors_of(const rbow_strength *s, double unit)
{
    return (fibre_factors){
        .stress_per_moment = unit / s->section.section_modulus,
        .stress_per_axial = 1 / s->section.area,
        .stress_per_torque = sqrt(3.0) * (s->section.od / 2) / s->section.polar_inertia,
        .share_pressed = 1 / s->compression_yield,
        .share_pulled = 1 / s->yield,
    };
}

#endif
