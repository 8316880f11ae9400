/* One tube of the frame: the forces of its joints on it, and its stiffness, under one axial force.
 *
 * In each plane the equation of the beam-column is that of a tube between joints at rest, once the chord is taken off the
 * movement: v = v_A + psi x + w, psi = (v_B - v_A)/L. The springs then meet the slopes
 *     at A  theta_A - psi + miss_a/L        at B  psi - theta_B + miss_b/L
 * and the couples of the joints on the tube are C_A = M(0), C_B = -M(L), each toward a positive slope. */
#ifndef RAILBOW_FRAME_ELEMENT_H
#define RAILBOW_FRAME_ELEMENT_H

#include "frame/solver.h"

typedef struct element {
    double axial;                /* P, lbf */
    double couple[ENDS][ENDS];   /* in-lbf/rad: of an end, for the slope theta - psi of an end; the same in both planes */
    double fixed[PLANES][ENDS];  /* in-lbf: couples of loads, bow and misses at joints that do not move */
} element;

/* Given:    s, tube  with a run
 *           axial    lbf, compression positive, below the tube's own critical load
 *           factor   load factor
 * Returned: out; the tube keeps its couples, which depend on the axial force alone */
void rbow_element_of(const rbow_frame_solver *s, frame_tube *tube, double axial, double factor, element *out);

/* The same without the fixed couples, which the stiffness does not need. */
void rbow_element_couples(frame_tube *tube, double axial, element *out);

typedef struct element_ends { /* in one plane, toward its direction */
    double moved[ENDS]; /* in  */
    double slope[ENDS]; /* rad */
} element_ends;

/* The movement of a tube's ends in a plane. Given: unknowns  of the frame */
element_ends rbow_element_ends(const rbow_frame_solver *s, const frame_tube *tube, const double *unknowns, int plane);

/* Axial force of a tube, lbf, compression positive. */
double rbow_element_axial(const rbow_frame_solver *s, const frame_tube *tube, const double *unknowns);

/* Torque in a tube, in-lbf: B turned against A about the tube's axis. */
double rbow_element_torque(const rbow_frame_solver *s, const frame_tube *tube, const double *unknowns);

/* Forces and moments of the joints on the tube. Given: axial  the tension that acts along it is -axial */
void rbow_element_forces(const rbow_frame_solver *s, const frame_tube *tube, const element *e, const double *unknowns, double factor,
                         double forces[ELEMENT]);

/* Their derivatives: by the motions at a fixed axial force, a symmetric matrix; and by the axial force, through the bending. */
void rbow_element_stiffness(const frame_tube *tube, const element *e, double stiffness[ELEMENT][ELEMENT]);
void rbow_element_by_axial(const rbow_frame_solver *s, frame_tube *tube, double axial, double factor, const double *unknowns,
                           double forces[ELEMENT]);

/* The derivative of the axial force by the motions. */
void rbow_element_axial_rate(const frame_tube *tube, double rate[ELEMENT]);

/* What acts on a tube of the frame as on a member in check: its loads, with the slopes of the joints in those of the misses. */
member_loads rbow_element_loads(const rbow_frame_solver *s, const frame_tube *tube, const element_ends ends[PLANES], double factor);

#endif
