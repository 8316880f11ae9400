/* The initial bow of a tube: its stress-free shape y0(x) between the joints, and the lateral load that it equals.
 *
 *     sine  y0 = e sin(pi x/L)          arc  y0 = 4 e x (L - x)/L^2          kink  two straight lines, e high at x = c
 *
 * An axial load P on the bowed tube acts like the lateral load -P y0'' on a straight one. */
#ifndef RAILBOW_INITIAL_BOW_H
#define RAILBOW_INITIAL_BOW_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* value, name as in files */
#define RBOW_BOW_SHAPE_LIST(X)                                                     \
    X(RBOW_BOW_SINE, "sine") /* half wave                                        */ \
    X(RBOW_BOW_ARC, "arc")   /* parabola 4 bow x(L-x)/L^2                        */ \
    X(RBOW_BOW_KINK, "kink") /* two straight lines that meet at bow_at           */

#define RBOW_BOW_SHAPE_ENUM(value, name) value,
typedef enum rbow_bow_shape { RBOW_BOW_SHAPE_LIST(RBOW_BOW_SHAPE_ENUM) RBOW_BOW_SHAPE_COUNT } rbow_bow_shape;
#undef RBOW_BOW_SHAPE_ENUM

typedef struct rbow_bow { /* in one plane */
    rbow_bow_shape shape;
    double amplitude; /* e, in                                   */
    double length;    /* L, in, > 0                              */
    double kink_at;   /* c, in, 0 < c < length; a kink uses it   */
} rbow_bow;

typedef struct rbow_bow_place {
    double offset; /* y0, in        */
    double slope;  /* dy0/dx, rad   */
} rbow_bow_place;

typedef struct rbow_bow_load { /* equivalent lateral load; each shape has one of the three, the others are 0 */
    double slope_a, slope_b; /* rad: dy0/dx at A and at B                                */
    double spread;           /* lbf/in, an arc: evenly over the length                   */
    double half_wave;        /* lbf/in, a sine: at mid-length, times sin(pi x/L) elsewhere */
    double force;            /* lbf, a kink: at kink_at                                  */
} rbow_bow_load;

/* Offset and slope of a bow.
 * Given:    bow
 *           x      in from A, 0 ... length
 * Returned: place; at a kink the slope beyond it
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_bow_at(const rbow_bow *bow, double x, rbow_bow_place *place);

/* What a bow does under an axial load.
 * Given:    bow
 *           compression  P, lbf, compression positive
 * Returned: load
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE
 * Source:   Timoshenko & Gere, Theory of Elastic Stability, 2nd ed. 1961, sec. 1.12 (from memory); here -P y0''. */
RBOW_API rbow_status rbow_bow_equivalent(const rbow_bow *bow, double compression, rbow_bow_load *load);

#ifdef __cplusplus
}
#endif

#endif
