/* What the moment's working shares: the tube at one load factor, and what acts on it in one plane. For
 * working_load.c and working_moment.c only. */
#ifndef RAILBOW_COMMAND_WORKING_BENT_H
#define RAILBOW_COMMAND_WORKING_BENT_H

#include "command/working_desk.h"

enum { PUSHED, PULLED, NEITHER };

typedef struct bent { /* what both planes share */
    const desk *d;
    const rbow_limit *at;
    int way;
    double factor, axial, place, length, stiffness; /* stiffness: EI */
    double give_a, give_b;
    double u, own, far, elastic; /* u = L √(|P|/EI); flexibilities of an end by its own moment and the far one; Pe */
} bent;

typedef struct lateral { /* what acts in one plane at the load factor */
    double (*share)(double clock);
    const char *degrees; /* "cos" or "sin" of the clock */
    double spread, point, kink, bow;
    double moment_a, moment_b, slope_a, slope_b; /* given moments, misses over length */
    double turn_a, turn_b;                       /* what the loads turn pinned ends by, outward */
    double end_a, end_b;                         /* the joints' moments */
} lateral;

#define OF_PLANE(l, up, right) ((l)->degrees[0] == 'c' ? (up) : (right))

static inline bool work_acts(double value)
{
    return fabs(value) > 0;
}

/* The share of a size that lies in the plane. */
double work_part(const lateral *l, double size, double clock);

/* The loads, misses and bow at the load factor, step by step. Returned: whether anything acts in the plane. */
bool work_loads(const bent *b, lateral *l);

#endif
