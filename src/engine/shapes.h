/* The shapes that add up to a beam-column's solution, and their derivatives along the tube.
 * Everything here is in shares of the length: xi = x/L, m = M L/EI, w = v/L. */
#ifndef RAILBOW_ENGINE_SHAPES_H
#define RAILBOW_ENGINE_SHAPES_H

#include <railbow/beamcolumn.h>

#include <stdbool.h>

enum shape {
    SHAPE_MOMENT_A, /* m at A                                                                */
    SHAPE_SECOND,   /* m' at A; under tension: m at B                                        */
    SHAPE_TURN,     /* w' at A; under tension: w at B (the chord's turn)                     */
    SHAPE_SPREAD,   /* q L^3/EI                                                              */
    SHAPE_POINT,    /* F L^2/EI at point_at                                                  */
    SHAPE_KINK,     /* the same at bow_at: what a kinked bow does under load                 */
    SHAPE_SINE,     /* bow/L of a half-wave bow                                              */
    SHAPE_COUNT,
    SHAPE_UNKNOWNS = SHAPE_SPREAD /* the first three follow from the end rules */
};

/* One quantity and its slope, every shape; those that the prepared beam has not are 0. */
typedef struct shapes {
    double value[SHAPE_COUNT], slope[SHAPE_COUNT];
} shapes;

/* A place along the tube, with what of it does not depend on the load: the same places are asked at every load
 * factor. */
typedef struct spot {
    double xi;           /* 0 ... 1 */
    double side;         /* a place inside the piece that is meant, where xi is the place of a load: the slope of the
                            moment jumps there */
    double sine, cosine; /* of pi xi/2 */
} spot;

spot spot_at(double xi, double side);

/* Given:    p     prepared
 *           at    where
 * Returned: moment m and movement w */
void shapes_of_moment(const rbow_prepared *p, const spot *at, shapes *m);
void shapes_of_movement(const rbow_prepared *p, const spot *at, shapes *w);

/* Value and two derivatives of a quantity in the two planes, for the search of its largest size. */
typedef struct jet {
    double f[2], d1[2], d2[2];
} jet;

/* Given:    solutions (up, right) of one prepared beam; of the first `planes` of them, the other being nothing
 * Returned: moment m, or movement w */
void jet_of_moment(const rbow_prepared *p, const rbow_solution two[2], int planes, const spot *at, jet *out);
void jet_of_movement(const rbow_prepared *p, const rbow_solution two[2], int planes, const spot *at, jet *out);

/* The moment on one piece as a sum of three waves and the half-wave bow's, loads before the piece taken in. Where it
 * serves, jets cost a fifth of those above, and equally spaced ones need no sine at all. */
typedef struct wave_field {
    const rbow_prepared *p;
    int planes;
    double constant[2], second[2], spread[2], bow[2]; /* of cos(u xi), sin(u xi)/u, -(1 - cos(u xi))/z, the bow's */
} wave_field;

typedef struct half_wave { /* of u x/2; hyperbolic under tension */
    double sine, cosine;
} half_wave;

bool field_serves(const rbow_prepared *p);
wave_field field_of(const rbow_prepared *p, const rbow_solution two[2], int planes, double side);
half_wave half_wave_at(const rbow_prepared *p, double x);
/* The half wave of x + y from those of x and y. */
half_wave half_wave_on(const rbow_prepared *p, half_wave x, half_wave y);
void jet_of_field(const wave_field *f, const half_wave *h, const spot *at, jet *out);

/* Below this P L^2/EI the hyperbolic functions of the whole length would drown the end of the tube in
 * rounding (cosh 3 = 10 costs one digit), so the form that decays from both ends takes over. */
#define SHAPES_TENSION_FROM (-9.0)

#endif
