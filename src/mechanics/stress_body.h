/* Stresses of the outer fibres and their shares of the limits, for one number or several side by side.
 * Source: see railbow/stress.h. */
#ifndef RAILBOW_MECHANICS_STRESS_BODY_H
#define RAILBOW_MECHANICS_STRESS_BODY_H

#include "mechanics/fibre_factors.h"
#include "mechanics/real.h"

typedef struct fibres {
    real bending, direct, shear;                /* psi; shear times sqrt 3 */
    real pressed, pulled;                       /* psi, equivalent stress of either fibre */
    real utilisation_pressed, utilisation_pulled; /* shares of its yield */
    real utilisation_bent;                      /* bending and torque as a share of compression yield */
} fibres;

INLINE real with_shear(real direct, real shear, bool twisted)
{
    return twisted ? root(direct * direct + shear * shear) : direct;
}

/* Given: k       of the section
 *        moment  in the unit of k
 *        axial   lbf, compression positive
 *        torque  size, in-lbf; 0 in all lanes or in none where `twisted` says so */
INLINE fibres fibres_of(const fibre_factors *k, real moment, real axial, real torque, bool twisted)
{
    fibres f;
    f.bending = moment * k->stress_per_moment;
    f.direct = axial * k->stress_per_axial;
    f.shear = torque * k->stress_per_torque;
    f.pressed = with_shear(larger(all(0), f.direct + f.bending), f.shear, twisted);
    f.pulled = with_shear(larger(all(0), f.bending - f.direct), f.shear, twisted);
    f.utilisation_pressed = f.pressed * k->share_pressed;
    f.utilisation_pulled = f.pulled * k->share_pulled;
    f.utilisation_bent = with_shear(f.bending, f.shear, twisted) * k->share_pressed;
    return f;
}

/* Push and bending together: Rc + sqrt(Rb^2 + Rst^2). */
INLINE real interaction_of(real axial, double column_load, real utilisation_bent)
{
    return utilisation_bent + axial / column_load;
}

#endif
