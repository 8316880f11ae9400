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
    double axial, torque;
    solution solution;
    peak peaks[ZONES];   /* of the moment m = M L/EI */
    reached limits[LIMITS];
    double stress;       /* psi, equivalent, of the fibre with the largest utilisation */
    peak moment;         /* the largest moment and its station */
} evaluation;

/* Given: p        prepared
 *        factor   load factor
 *        places   whether positions are needed to full accuracy; see maximum.h */
void rbow_evaluate(const prepared *p, double factor, bool places, evaluation *out);

/* The same under loads that are given: those of a tube of a frame, whose ends move. */
void rbow_evaluate_loads(const prepared *p, const tube_loads *loads, bool places, evaluation *out);

#endif
