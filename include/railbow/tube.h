/* Round tube: section properties and the local-wall rule. */
#ifndef RAILBOW_TUBE_H
#define RAILBOW_TUBE_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_section {
    double od, wall;        /* in                                             */
    double bore;            /* in; 0 for a solid bar                          */
    double area;            /* in^2                                           */
    double inertia;         /* I, in^4                                        */
    double section_modulus; /* S = I/(od/2), in^3                             */
    double plastic_modulus; /* Z, in^3                                        */
    double polar_inertia;   /* J = 2I, in^4                                   */
    double radius;          /* of gyration, in                                */
    double diameter_to_wall;
} rbow_section;

/* Section properties of a round tube.
 * Given:    od    in, > 0
 *           wall  in, > 0 and <= od/2 (equal: a solid bar)
 * Returned: section; relative error below 1e-14 for any wall
 * Status:   RBOW_OK | RBOW_BAD_OD | RBOW_BAD_WALL */
RBOW_API rbow_status rbow_section_of(double od, double wall, rbow_section *section);

/* Bounds of (D/t) Fy/E in the wall rule: up to the first the wall does not buckle before it yields; beyond the second there
 * is no rule. */
#define RBOW_WALL_RATIO_WHOLE 0.11
#define RBOW_WALL_RATIO_MOST 0.45

/* Share of the compression yield that a tube keeps before its wall buckles locally.
 * Given:    diameter_to_wall   D/t, >= 2
 *           elastic_modulus    psi, > 0
 *           compression_yield  psi, > 0
 * Returned: reduction          Q, 0 < Q <= 1
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_WALL_RULE (D/t above 0.45 E/Fy)
 * Source:   ANSI/AISC 360-16, round HSS in uniform compression, table B4.1a and section E7.2; there the same share reduces
 *           the area; in ANSI/AISC 360-10, E7, it reduces the stress, as here (from memory). Handbook practice for aircraft tube
 *           requires no local check up to D/t = 50. */
RBOW_API rbow_status rbow_wall_reduction(double diameter_to_wall, double elastic_modulus,
                                         double compression_yield, double *reduction);

#ifdef __cplusplus
}
#endif

#endif
