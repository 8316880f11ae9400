/* A member of the plain check: section, column, and the loads and ends of its beam-column without dimensions. */
#ifndef TESTS_REFERENCE_PLAIN_TUBE_H
#define TESTS_REFERENCE_PLAIN_TUBE_H

#include "plain_beam.h"

#include <railbow/member.h>

typedef struct plain_zone { /* in^2, in^3, psi; arm: shear stress per torque; squash: Q times compression yield */
    double area, modulus, arm, squash, yield, q;
} plain_zone;

typedef struct plain_tube {
    const rbow_member *m;
    double inertia, radius, rigidity, critical, column_critical, slenderness, column_stress, column_load;
    plain_zone zones[2]; /* tube, weld */
    plain_ends ends;
    plain_loads run, built; /* what grows with the load factor, and what does not */
    double border[6];       /* between them nothing acts; as shares of the length */
} plain_tube;

plain_zone plain_zone_of(const rbow_member *member, const rbow_material *material);
plain_tube plain_tube_of(const rbow_member *member, const rbow_material *material);

#endif
