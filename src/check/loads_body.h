/* What acts on a prepared member at a load factor; for one number or several side by side. */
#ifndef RAILBOW_CHECK_LOADS_BODY_H
#define RAILBOW_CHECK_LOADS_BODY_H

#include "check/prepare.h"
#include "mechanics/beamcolumn_body.h"

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
