/* What a tube meets over a part of the load factor, as Chebyshev series through the states at NODES load factors. */
#ifndef RAILBOW_FRAME_PANEL_H
#define RAILBOW_FRAME_PANEL_H

#include "frame/path.h"

enum { COURSE_AXIAL, COURSE_TORQUE, COURSE_SLOPES, COURSES = COURSE_SLOPES + ENDS * PLANES };

typedef struct panel {
    double low, high; /* load factors */
} panel;

typedef struct course { /* of one tube over a panel */
    const frame_tube *tube;
    double middle, half;
    double term[NODES][COURSES];
} course;

/* The states at the nodes. Given: s, p. Returned: s->nodes; false where a state was not found */
bool rbow_panel_fill(rbow_frame_solver *s, const panel *p);

course rbow_course_of(const rbow_frame_solver *s, const panel *p, size_t tube);

/* Whether the series is so short that what it leaves out does not show in the limits of the tube to 1e-9. */
bool rbow_course_is_known(const course *c);

double rbow_course_axial(const course *c, double factor);

/* What acts on the tube at a load factor; `context` is a course. */
void rbow_course_loads(const void *context, double factor, tube_loads *out);

/* The first load factor in a range at which sign * axial force reaches a value; INFINITY for none. */
double rbow_course_first(const course *c, double sign, double value, double from, double to);

#endif
