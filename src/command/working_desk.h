/* What the parts of a working share; for working*.c only. */
#ifndef RAILBOW_COMMAND_WORKING_DESK_H
#define RAILBOW_COMMAND_WORKING_DESK_H

#include "command/working.h"

#include <math.h>

static const double work_pi = 3.14159265358979323846;

typedef struct work_section { /* a tube, whole or dressed */
    double od, wall, area, inertia, modulus, strength; /* strength: wall reduction times compression yield */
    double yield;
} work_section;

typedef struct desk { /* all in the units shown, which are coherent */
    working *w;
    unit_system units;
    rbow_member m; /* defaults resolved */
    rbow_material k;
    const rbow_member *own_member; /* the same in the program's units, for the engine */
    const rbow_material *own_material;
    const rbow_result *own_result;
    const char *length, *force, *stress, *moment, *area, *inertia, *modulus, *stiffness, *spread;
    bool free_b;
    work_section tube, weld;
    double bending_stiffness, stiffness_a, stiffness_b;
    double column_load, column_stress, critical_load, tension; /* tension: locked in */
    double weight_load; /* of the own weight across the tube, force per length, at load factor 1 */
} desk;

/* One step; the numbers follow the source. */
#define STEP(desk_, step_, formula_, numbers_, result_, unit_, source_, ...)                                   \
    working_step((desk_)->w, step_, formula_, numbers_, (const double[]){__VA_ARGS__},                         \
                 sizeof((const double[]){__VA_ARGS__}) / sizeof(double), result_, unit_, source_)

/* A value of the program in the units shown. */
double work_shown(const desk *d, dimension dim, double own);

/* working_column.c: the tube, its ends and what it carries as a column. */
void work_tube(desk *d);
void work_column(desk *d);

/* working_moment.c: the moment at a place at a load factor, step by step. */
double work_moment(const desk *d, const rbow_limit *limit);

#endif
