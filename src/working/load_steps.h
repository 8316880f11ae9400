/* The loads on the tube at one load factor, step by step: loads, bow and misses in each of two planes. */
#ifndef RAILBOW_WORKING_LOAD_STEPS_H
#define RAILBOW_WORKING_LOAD_STEPS_H

#include "working/calculation.h"

enum { PUSHED, PULLED, NEITHER };

typedef struct loaded_tube { /* the values that both planes share */
    const calculation *c;
    const rbow_limit *at;
    int way; /* one of these */
    double factor, axial, station, length, stiffness; /* station: x; stiffness: EI */
    double flexibility_a, flexibility_b;
    double u, own, far, elastic; /* u = L √(|P|/EI); flexibilities of an end by its own moment and the far one; Pe */
} loaded_tube;

typedef struct plane { /* what acts in one plane at the load factor */
    int component; /* 0 up, 1 right */
    rbow_bow_load bow_load; /* of the initial bow in this plane, under the axial load */
    double spread, point, kink, bow;
    double moment_a, moment_b, slope_a, slope_b; /* applied moments, misses over length */
    double rotation_a, rotation_b;               /* rotations of pinned ends by the loads, outward */
    double end_a, end_b;                         /* the joints' moments */
} plane;

typedef struct formula_words { /* formula and numbers, by way */
    const char *formula, *numbers;
} formula_words;

#define OF_PLANE(l, up, right) ((l)->component == 0 ? (up) : (right))

static inline bool acts(double value)
{
    return fabs(value) > 0;
}

/* sin under a push, sinh under a pull. */
static inline double wave(const loaded_tube *b, double angle)
{
    return b->way == PUSHED ? sin(angle) : sinh(angle);
}

/* The component of a magnitude that lies in the plane. */
double component_of(const plane *l, double size, double clock);

/* The loads, misses and bow at the load factor, step by step. Returned: whether anything acts in the plane. */
bool load_steps(const loaded_tube *b, plane *l);

#endif
