/* A member at one load factor: its equilibrium, the largest moments, and the utilisation of each limit. */
#ifndef RAILBOW_CHECK_EVALUATE_H
#define RAILBOW_CHECK_EVALUATE_H

#include "check/maximum.h"

typedef enum limit { LIMIT_YIELD, LIMIT_INTERACTION, LIMITS } limit;

typedef struct reached { /* the largest utilisation of a limit, and its station */
    double utilisation;
    double at; /* t */
    int zone;
} reached;

typedef struct evaluation {
    bool stands; /* whether it is below its critical load; if not, the rest has no meaning */
    double factor, axial, torque;
    solution solution;
    peak peaks[ZONES];   /* of the moment m = M L/EI */
    reached limits[LIMITS];
    double stress;       /* psi, equivalent, of the fibre with the largest utilisation */
    peak moment;         /* the largest moment and its station */
} evaluation;

/* Under what acts on the tube, however it depends on the load factor; out->factor stays as it is.
 * Given: p        prepared; its own loads do not count
 *        axial    lbf, compression positive; below the critical load, else out->stands is false
 *        torque   in-lbf
 *        loads    relative
 *        places   as below */
void rbow_evaluate_under(const prepared *p, double axial, double torque, const member_loads *loads, bool places, evaluation *out);

/* Given: p        prepared
 *        factor   load factor
 *        places   whether positions are needed to full accuracy; see maximum.h */
void rbow_evaluate(const prepared *p, double factor, bool places, evaluation *out);

/* The equilibrium alone, at a load factor of any sign below the critical load. */
void rbow_equilibrium_at(const prepared *p, double factor, solution *out);

/* Moments and movements of an equilibrium at places with `at` set, in 0 ... length. */
void rbow_profile_of(const prepared *p, const solution *solved, rbow_profile *places, size_t count);

/* The side of a place, where the shear jumps. SIDE_OF_MORE is the one with the larger shear. */
typedef enum place_side { SIDE_OF_A = -1, SIDE_OF_MORE = 0, SIDE_OF_B = 1 } place_side;

/* Whether the shear jumps at a place in 0 ... length: at a point load or the kink of a bow, to rounding. */
bool rbow_shear_jumps_at(const prepared *p, double at);

/* What acts on the section at a place in 0 ... length, beside what the equilibrium holds. */
rbow_section_forces rbow_forces_of(const prepared *p, const solution *solved, double axial, double torque, double at, place_side side);

#endif
