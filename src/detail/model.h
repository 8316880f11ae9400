/* A detail made ready: defaults put in, and the strengths that it uses. */
#ifndef RAILBOW_DETAIL_MODEL_H
#define RAILBOW_DETAIL_MODEL_H

#include "check/evaluate.h"

#include <railbow/detail.h>

typedef struct detail_model {
    rbow_detail detail;    /* defaults resolved */
    rbow_strength metal;   /* of the tube there, with its zone's yield, wall and reduction */
    rbow_strength welded;  /* the same size with the weld yield */
    rbow_strength other;   /* of the sleeve or stub, with the weld yield */
    rbow_net_section net;  /* of a hole */
    double ring_od, throat; /* in, of a ring weld */
    double rupture;        /* psi, 0.6 F_EXX */
    double ultimate;       /* psi; NaN where it is not known */
    double length;         /* in, of the tube */
    double elastic_modulus, weld_yield; /* psi */
    bool in_weld_zone;
} detail_model;

/* Whether a mode is held against factor_yield. */
static inline bool is_yield_mode(int mode)
{
    return mode == RBOW_DETAIL_BY_YIELD;
}

/* Whether a ring weld carries: of a sleeve's butt, one that is thinner than the wall. */
bool rbow_detail_has_ring(const detail_model *m);

bool rbow_detail_has_rosettes(const detail_model *m); /* that carry */

/* Stresses of the ring's throat, psi: the direct one where axial force and moment add up, each with its sign (the largest for their
 * sizes); the shear for the sizes of torque and shear. */
double rbow_ring_direct(const detail_model *m, double axial, double moment);
double rbow_ring_shear(const detail_model *m, double torque, double shear);

/* Force on each rosette, lbf, and its area. */
double rbow_rosette_force(const detail_model *m, double axial, double torque);
double rbow_rosette_area(const detail_model *m);

/* Given: a detail that need not be without faults; the prepared tube, resolved. Status: RBOW_OK | a wall rule's */
rbow_status rbow_detail_model_of(const rbow_detail *detail, const prepared *p, const rbow_material *material, detail_model *m);

/* Whether a detail has the metal of a weld zone. The border of a zone belongs to it, since the weaker metal begins there. Given: member  resolved */
bool rbow_detail_in_weld_zone(const rbow_member *member, double at);

/* As rbow_detail_faults. Given: p  prepared of the member */
size_t rbow_detail_faults_of(const rbow_detail *detail, const prepared *p, const rbow_material *material, rbow_status *faults,
                             size_t most);

/* A member without faults, prepared with its first corner. */
rbow_status rbow_detail_prepare(const rbow_member *member, const rbow_material *material, prepared *p);

typedef struct detail_uses { /* utilisation of each mode; below 0 where the kind does not have it, NaN for an overflow */
    double of[RBOW_DETAIL_MODES];
} detail_uses;

detail_uses rbow_detail_uses_of(const detail_model *m, const rbow_section_forces *f);

typedef struct detail_slopes { /* by how much a utilisation rises at most, per in-lbf of moment and per lbf of shear */
    double moment, shear;
} detail_slopes;

detail_slopes rbow_detail_slopes_of(const detail_model *m);

/* clearance, play and prying of a result, in the same units; NaN where the kind has none. */
double rbow_detail_clearance(const detail_model *m);
double rbow_detail_play(const detail_model *m);
double rbow_detail_prying(const detail_model *m, double moment);

/* RBOW_DETAIL_... bits that the sizes give. Given: given  the detail as it was given */
unsigned rbow_detail_size_remarks(const rbow_detail *given, const detail_model *m);

/* Forces at a place of a prepared member; where the shear jumps, on the side with more of it, or on a given side.
 * Status: RBOW_OK | RBOW_UNSTABLE | RBOW_STRESS_OVERFLOW */
rbow_status rbow_forces_at(const prepared *p, double factor, double at, rbow_section_forces *f);
rbow_status rbow_forces_beside(const prepared *p, double factor, double at, place_side side, rbow_section_forces *f);

#endif
