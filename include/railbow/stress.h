/* Stresses of a round tube at one cross-section under axial load, bending and torque, and the shares of its limits. */
#ifndef RAILBOW_STRESS_H
#define RAILBOW_STRESS_H

#include <railbow/tube.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_strength { /* of a stretch of tube: plain, or in a weld zone */
    rbow_section section;
    double compression_yield; /* Fc, psi, > 0, wall reduction included                    */
    double yield;             /* Ft, psi, > 0, tension                                    */
    double column_load;       /* Pcol, lbf, > 0: of the whole tube as a straight column   */
} rbow_strength;

typedef struct rbow_actions {
    double axial;  /* P, lbf, compression positive */
    double moment; /* M, in-lbf, size              */
    double torque; /* T, in-lbf, size              */
} rbow_actions;

typedef struct rbow_stress {
    double shear;           /* tau = T (D/2)/J, psi, outer fibre                               */
    double bending;         /* M/S, psi                                                        */
    double pressed, pulled; /* P/A + M/S and M/S - P/A, psi; below 0 the fibre has the other sign */
    double utilisation_pressed, utilisation_pulled; /* sqrt(max(stress, 0)^2 + 3 tau^2) over Fc, over Ft */
    double interaction;     /* P/Pcol + sqrt((M/S)^2 + 3 tau^2)/Fc                             */
} rbow_stress;

/* Stresses and utilisation; 1 is a limit.
 * Given:    strength, actions
 * Returned: stress
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE
 * Source:   von Mises, e.g. Timoshenko, Strength of Materials, part II, 3rd ed. 1956, ch. X (from memory); interaction
 *           Rc + sqrt(Rb^2 + Rst^2) = 1 for round tube: Bruhn, Analysis and Design of Flight Vehicle Structures, 1973,
 *           ch. C4 (from memory) */
RBOW_API rbow_status rbow_stress_of(const rbow_strength *strength, const rbow_actions *actions, rbow_stress *stress);

/* The moment at which the first fibre yields, and the one at which the interaction is 1, in the presence of an axial load and a torque.
 * Given:    strength
 *           actions  their moment is ignored
 * Returned: moment   in-lbf, >= 0; 0 where the others alone reach the limit
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_yield_moment(const rbow_strength *strength, const rbow_actions *actions, double *moment);
RBOW_API rbow_status rbow_interaction_moment(const rbow_strength *strength, const rbow_actions *actions, double *moment);

#ifdef __cplusplus
}
#endif

#endif
