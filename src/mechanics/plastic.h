/* Elastic, perfectly plastic bending of a symmetric section, and of a cantilever pulled at its end. */
#ifndef RAILBOW_MECHANICS_PLASTIC_H
#define RAILBOW_MECHANICS_PLASTIC_H

#include <railbow/status.h>

/* A section bent until only a core of given half-height is still elastic. */
typedef struct plastic_shape {
    double half_height; /* in */
    double corner;      /* a core at which the slope of the moment jumps (the bore); 0 for none */
    /* moment over yield stress, in^3, for an elastic core of 0 ... half_height */
    double (*modulus)(const struct plastic_shape *shape, double core);
    double outer, inner; /* dimensions for `modulus` */
} plastic_shape;

plastic_shape rbow_plastic_tube(double od, double bore);

/* The elastic core that a moment leaves.
 * Given:    modulus  moment over yield stress; between those of first yield and of the limit
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_NO_CONVERGENCE */
rbow_status rbow_plastic_core(const plastic_shape *shape, double modulus, double *core);

/* The movement at the end of a cantilever, as a share of yield_strain length^2/half_height, if the pull at its end leaves
 * this core at the root.
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE */
rbow_status rbow_plastic_travel(const plastic_shape *shape, double core, double *travel);

#endif
