/* What acts on a prepared member at a load factor, and the same for one number or several side by side. */
#ifndef RAILBOW_CHECK_LOADS_BODY_H
#define RAILBOW_CHECK_LOADS_BODY_H

#include "check/prepare.h"
#include "mechanics/beamcolumn_body.h"

#include <string.h>

/* The loads of a member at a load factor. */
static inline void loads_at(const prepared *p, double factor, tube_loads *out)
{
    const member_loads *run = &p->run, *built = &p->built;
    member_loads *planes = &out->planes;
    out->axial = axial_at(p, factor);
    out->torque = factor * p->member.torque;
    for (int i = 0; i < PLANES; i++) {
        planes->moment_a[i] = factor * run->moment_a[i];
        planes->moment_b[i] = factor * run->moment_b[i];
        planes->slope_a[i] = built->slope_a[i];
        planes->slope_b[i] = built->slope_b[i];
        planes->spread[i] = factor * run->spread[i];
        planes->point[i] = factor * run->point[i];
        planes->bow[i] = built->bow[i];
    }
}

/* One number of several loads, side by side. Given: at  LANES loads; offset  of the number in one of them */
INLINE real beside(const tube_loads *at, size_t offset)
{
    double lanes[LANES];
    real all_lanes;
    for (int i = 0; i < LANES; i++) memcpy(&lanes[i], (const char *)&at[i] + offset, sizeof lanes[i]);
    memcpy(&all_lanes, lanes, sizeof all_lanes);
    return all_lanes;
}

#define BESIDE(at, member_) beside(at, offsetof(tube_loads, member_))

INLINE void planes_beside(const tube_loads *at, plane_loads *out)
{
    for (int i = 0; i < PLANES; i++) {
        const size_t plane = (size_t)i * sizeof(double);
        out->moment_a[i] = beside(at, offsetof(tube_loads, planes.moment_a) + plane);
        out->moment_b[i] = beside(at, offsetof(tube_loads, planes.moment_b) + plane);
        out->slope_a[i] = beside(at, offsetof(tube_loads, planes.slope_a) + plane);
        out->slope_b[i] = beside(at, offsetof(tube_loads, planes.slope_b) + plane);
        out->spread[i] = beside(at, offsetof(tube_loads, planes.spread) + plane);
        out->point[i] = beside(at, offsetof(tube_loads, planes.point) + plane);
        out->bow[i] = beside(at, offsetof(tube_loads, planes.bow) + plane);
    }
}

/* z = P L^2/EI */
INLINE real relative_load(const prepared *p, real axial)
{
    return axial * (p->member.length / p->unit);
}

#endif
