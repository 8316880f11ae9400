/* Utilisation of the limits of a zone, from the largest moment in it; for one number or for several at once.
 * Yield: equivalent stress by von Mises with the shear of the torque, for both fibres. Interaction: Rc + sqrt(Rb^2 + Rst^2)
 * = 1 for round tube, of the aircraft handbooks. */
#ifndef RAILBOW_CHECK_UTILISATION_BODY_H
#define RAILBOW_CHECK_UTILISATION_BODY_H

#include "mechanics/beamcolumn_body.h"
#include "check/prepare.h"

typedef struct fibres {
    real pressed, pulled;         /* psi, equivalent stress of each fibre */
    real use_pressed, use_pulled; /* utilisation of the yield of each */
    real bending;                 /* bending and twist as a share of compression yield */
} fibres;

INLINE real with_shear(real direct, real shear, bool twisted)
{
    return twisted ? root(direct * direct + shear * shear) : direct;
}

/* Given: z       the zone
 *        moment  largest m = M L/EI in it
 *        axial   lbf, compression positive
 *        torque  magnitude, in-lbf; `twisted` says whether it is 0 in all lanes */
INLINE fibres fibres_of(const zone *z, real moment, real axial, real torque, bool twisted)
{
    const real bending = moment * z->stress_per_moment, direct = axial * z->stress_per_axial;
    const real shear = torque * z->stress_per_torque;
    fibres f;
    f.pressed = with_shear(larger(all(0), direct + bending), shear, twisted);
    f.pulled = with_shear(larger(all(0), bending - direct), shear, twisted);
    f.use_pressed = f.pressed * z->share_pressed;
    f.use_pulled = f.pulled * z->share_pulled;
    f.bending = with_shear(bending, shear, twisted) * z->share_pressed;
    return f;
}

/* The loads at a load factor. */
INLINE void loads_at(const prepared *p, real factor, plane_loads *out)
{
    const member_loads *run = &p->run, *built = &p->built;
    for (int i = 0; i < PLANES; i++) {
        out->moment_a[i] = factor * run->moment_a[i];
        out->moment_b[i] = factor * run->moment_b[i];
        out->slope_a[i] = all(built->slope_a[i]);
        out->slope_b[i] = all(built->slope_b[i]);
        out->spread[i] = factor * run->spread[i];
        out->point[i] = factor * run->point[i];
        out->bow[i] = all(built->bow[i]);
    }
}

/* z = P L^2/EI */
INLINE real relative_load(const prepared *p, real axial)
{
    return axial * (p->member.length / p->unit);
}

#endif
