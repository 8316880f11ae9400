/* One tube of the frame: the couples of its joints on it, and its stiffness, under one axial force.
 *
 * In each plane the equation of the beam-column is that of a tube between joints at rest, once the chord is taken off the
 * movement: v = v_A + psi x + w, psi = (v_B - v_A)/L. The springs then meet the slopes
 *     at A  theta_A - psi + miss_a/L        at B  psi - theta_B + miss_b/L
 * and the couples of the joints on the tube are C_A = M(0), C_B = -M(L), each toward a positive slope. */
#ifndef RAILBOW_FRAME_ELEMENT_H
#define RAILBOW_FRAME_ELEMENT_H

#include "frame/solver.h"

typedef struct tube_motion { /* what the motions of its joints do to a tube */
    double elongation, twist;   /* in, rad: B against A along and about the axis */
    double chord[PLANES];       /* psi, rad */
    double slope[ENDS][PLANES]; /* theta - psi, rad */
} tube_motion;

/* Given: motions  six for each joint of the frame */
tube_motion rbow_tube_motion(const frame_tube *tube, double *motions);

/* Axial force, compression positive: what is locked in by the gap, and what the joints press. */
static inline double axial_of(const frame_tube *t, const tube_motion *m)
{
    return -t->stretch * (m->elongation + t->built.gap);
}

tube_state rbow_tube_state(const frame_tube *tube, const tube_motion *motion);

/* What acts on a tube of the frame as on a member of its own, at a load factor. */
void rbow_tube_loads(const frame_tube *tube, const tube_state *state, double factor, tube_loads *out);

/* Given:    loads    below the tube's own critical load
 * Returned: couples  in-lbf, by end and plane */
void rbow_tube_couples(const frame_tube *tube, const tube_loads *loads, double couples[ENDS][PLANES]);

/* Their derivatives by the axial force, while the joints rest. */
void rbow_tube_softening(const frame_tube *tube, const tube_loads *loads, double couples[ENDS][PLANES]);

/* Couples of an end for the slope of an end, in-lbf/rad; the same in both planes, and symmetric. */
typedef struct end_stiffness {
    double aa, ab, bb;
} end_stiffness;

end_stiffness rbow_end_stiffness_of(const frame_tube *tube, double axial);

/* The forces and moments of the joints on a tube, global, six at each end.
 * Given: axial, torque, couples; chord_force[PLANES]  P psi  */
void rbow_tube_forces(const frame_tube *tube, double axial, double torque, double couples[ENDS][PLANES],
                      const double chord_force[PLANES], double forces[ENDS][RBOW_MOTIONS]);

/* The stiffness under an axial force: forces of joint i for motions of joint j. */
typedef double stiffness_block[RBOW_MOTIONS][RBOW_MOTIONS];
void rbow_tube_stiffness(const frame_tube *tube, double axial, stiffness_block blocks[ENDS][ENDS]);

#endif
