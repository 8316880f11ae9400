/* The shapes that add up to a beam-column's solution, and their derivatives along the tube.
 * Everything here is in shares of the length: xi = x/L, m = M L/EI, w = v/L. */
#ifndef RAILBOW_ENGINE_SHAPES_H
#define RAILBOW_ENGINE_SHAPES_H

#include "engine/beam.h"

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
    double sine, cosine;             /* of pi xi/2 */
    double whole_sine, whole_cosine; /* of pi xi   */
} spot;

spot spot_at(double xi, double side);

/* Given:    p     prepared
 *           at    where
 * Returned: moment m and movement w */
void shapes_at(const rbow_prepared *p, const spot *at, shapes *m, shapes *w);

/* Nearer to resonance, z = pi^2, than this a half-wave bow has another form: more than three digits of the pinned answer,
 * c sin(pi xi), would cancel against what the ends add. */
#define SHAPES_RESONANCE 0.1

/* Value and four derivatives of a quantity, for the search of its largest size. */
typedef struct jet {
    pair f, d1, d2, d3, d4;
} jet;

/* Given:    shares of a prepared beam's shapes
 * Returned: moment m, or movement w */
jet jet_of_moment(const rbow_prepared *p, const shares *s, const spot *at);
jet jet_of_movement(const rbow_prepared *p, const shares *s, const spot *at);

/* Below this P L^2/EI the hyperbolic functions of the whole length would drown the end of the tube in
 * rounding (cosh 3 = 10 costs one digit), so the form that decays from both ends takes over. */
#define SHAPES_TENSION_FROM (-9.0)

#endif
