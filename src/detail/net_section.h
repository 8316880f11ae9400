/* Stresses of the section that a cross hole leaves. */
#ifndef RAILBOW_DETAIL_NET_SECTION_H
#define RAILBOW_DETAIL_NET_SECTION_H

#include <railbow/detail.h>

#include <stdbool.h>

typedef struct net_stress { /* psi, tension positive: the extremes of the section */
    double most, least;
} net_stress;

/* Given:  clock  rad, of the hole's axis; RBOW_ANY_CLOCK: the worst for each extreme */
net_stress rbow_net_stress(const rbow_net_section *n, const rbow_section_forces *f, double clock);

typedef struct net_point { /* in, from the axis of the tube: along the hole's axis and across it */
    double along, across;
} net_point;

/* Stress of a point of the section. Given: toward  of the hole's axis, rad */
double rbow_net_stress_at(const rbow_net_section *n, const rbow_section_forces *f, double toward, net_point at);

/* The largest stress that a moment of 1 puts anywhere, whatever its direction. */
double rbow_net_stress_per_moment(const rbow_net_section *n);

/* Shear of a torque of 1 at the outside. */
double rbow_net_shear_per_torque(const rbow_net_section *n);

/* Whether the hole leaves the far wall whole. */
bool rbow_net_is_one_wall(const rbow_net_section *n);

#endif
