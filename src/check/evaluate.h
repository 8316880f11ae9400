/* A member at one load factor: its equilibrium, the largest moments, and how much of each limit is used. */
#ifndef RAILBOW_CHECK_EVALUATE_H
#define RAILBOW_CHECK_EVALUATE_H

#include "check/maximum.h"

typedef enum limit { LIMIT_YIELD, LIMIT_INTERACTION, LIMITS } limit;

typedef struct reached { /* where a utilisation is highest */
    double utilisation;
    double at; /* t */
    int zone;
} reached;

typedef struct evaluation {
    bool stands; /* below its critical load; nothing else holds if not */
    double factor, axial, torque;
    solution solution;
    peak peaks[ZONES];   /* of the moment m = M L/EI */
    reached limits[LIMITS];
    double stress;       /* psi, equivalent, of the fibre that uses most of its yield */
    peak moment;         /* the largest, and where */
} evaluation;

/* Given: p        prepared
 *        factor   load factor
 *        places   whether places are asked to full accuracy, see maximum.h */
void rbow_evaluate(const prepared *p, double factor, bool places, evaluation *out);

#endif
