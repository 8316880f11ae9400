/* The data of a hand calculation: the case in the units shown, and the results of the steps so far. */
#ifndef RAILBOW_WORKING_CALCULATION_H
#define RAILBOW_WORKING_CALCULATION_H

#include "table/unit.h"
#include "working/steps.h"

#include <railbow/clock.h>
#include <railbow/member.h>
#include <railbow/stress.h>

#include <math.h>
#include <stdbool.h>

static const double pi = 3.14159265358979323846;

typedef struct across { /* on a tube of a frame, in the units shown; 0 up, 1 right */
    double spread[2], point[2];     /* at load factor 1 */
    double slope_a[2], slope_b[2];  /* of its sockets against the chord of its ends, as the frame moves, misses included */
} across;

typedef struct calculation { /* all in the units shown, which are coherent */
    working *w;
    unit_system units;
    rbow_member m; /* defaults resolved */
    rbow_material k;
    const rbow_member *own_member; /* the same in the program's units, for the library */
    const rbow_material *own_material;
    const rbow_result *own_result;
    const char *length, *force, *stress, *moment, *area, *inertia, *modulus, *stiffness, *spread;
    const char *given;    /* where the inputs stand */
    const across *across; /* of a tube of a frame; NULL for a load case, whose member says it */
    bool free_b;
    bool place_given;     /* the place of the moment is that of a detail, not searched for */
    rbow_strength tube, weld; /* plain, and in the weld zone */
    double bending_stiffness, stiffness_a, stiffness_b;
    double column_load, critical_load, tension; /* tension: locked in */
    double weight_load; /* of the own weight across the tube, force per length, at load factor 1 */
} calculation;

/* Adds one step; the numbers follow the source. */
#define STEP(calculation_, step_, formula_, numbers_, result_, unit_, source_, ...)                             \
    working_step((calculation_)->w, step_, formula_, numbers_, (const double[]){__VA_ARGS__},                  \
                 sizeof((const double[]){__VA_ARGS__}) / sizeof(double), result_, unit_, source_)

/* A value of the program in the units shown. */
double shown_value(const calculation *c, dimension dim, double own);

/* Given:    member, material, result  a case and its result by rbow_member_check; they must outlive the calculation
 * Returned: the same in the units shown, defaults resolved; no section or column yet */
calculation calculation_of(working *w, const rbow_member *m, const rbow_material *k, const rbow_result *r,
                           unit_system units);

#endif
