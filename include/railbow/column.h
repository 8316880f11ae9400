/* Straight columns: end restraint, elastic critical load, and the allowable stress of the column curves. */
#ifndef RAILBOW_COLUMN_H
#define RAILBOW_COLUMN_H

#include <railbow/status.h>

#include <float.h>
#include <math.h>

#ifdef __cplusplus
extern "C" {
#endif

/* How a joint holds the tube's end against turning: a rotational stiffness in in-lbf/rad, >= 0, or one
 * of these. They are kept far from any stiffness, so that a slip of sign is an error, not another end. */
#define RBOW_PINNED 0.0
#define RBOW_FIXED INFINITY
#define RBOW_WELDED (-DBL_MAX)     /* the trade's fixity c = 2 when both ends have it           */
#define RBOW_FREE (-DBL_MAX / 2.0) /* at B only: the end moves sideways and turns freely         */

typedef enum rbow_curve {
    RBOW_CURVE_OF_MATERIAL, /* for a member: the one that its material names */
    RBOW_CURVE_JOHNSON,
    RBOW_CURVE_THREE_HALVES,
    RBOW_CURVE_EULER,
    RBOW_CURVE_AISC,
    RBOW_CURVE_EN_A0,
    RBOW_CURVE_EN_A,
    RBOW_CURVE_EN_B,
    RBOW_CURVE_EN_C,
    RBOW_CURVE_EN_D,
    RBOW_CURVE_COUNT
} rbow_curve;

/* Stiffness in numbers of an end given as a word.
 * Given:    end                a stiffness or one of the words above except RBOW_FREE
 *           bending_stiffness  EI, lbf-in^2, > 0
 *           length             in, > 0
 * Returned: stiffness          in-lbf/rad, >= 0, INFINITY = fixed
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_end_stiffness(double end, double bending_stiffness, double length,
                                        double *stiffness);

/* Smallest load at which an end-sprung straight column can bow with no disturbance.
 * Given:    bending_stiffness  EI, lbf-in^2, > 0
 *           length             in, > 0
 *           stiffness_a        in-lbf/rad, >= 0 (> 0 if b is free), INFINITY = fixed
 *           stiffness_b        the same, or RBOW_FREE
 * Returned: critical_load      lbf; relative error below 1e-12
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_NO_CONVERGENCE
 * Source:   Timoshenko & Gere, Theory of Elastic Stability, ch. 2 (bars with elastic restraint), the
 *           characteristic equation in the form that is smooth from pinned to fixed. */
RBOW_API rbow_status rbow_critical_load(double bending_stiffness, double length, double stiffness_a,
                                        double stiffness_b, double *critical_load);

typedef struct rbow_column {
    rbow_curve curve; /* not RBOW_CURVE_OF_MATERIAL */
    double elastic_modulus, compression_yield; /* psi, > 0 */
    double column_intercept; /* psi, > 0; the three-halves curve alone uses it */
    double wall_reduction; /* Q, 0 < Q <= 1 */
    double slenderness;    /* L'/r, > 0 */
} rbow_column;

/* Allowable stress of a column.
 * Given:    column
 * Returned: stress  psi; never above Q x compression yield
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE
 * Source:   johnson, euler  any machine-design text; three-halves  aircraft tubing handbooks (ANC-5);
 *           aisc  AISC 360 E3, nominal; en-*  EN 1993-1-1 6.3.1.2 */
RBOW_API rbow_status rbow_column_stress(const rbow_column *column, double *stress);

/* Where a curve meets Euler's.
 * Given:    column       its slenderness has no part in the answer, but must be above 0
 * Returned: slenderness  the smallest at which the Euler stress stands in the curve; INFINITY where it never does on
 *                        its own (aisc and en)
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_column_transition(const rbow_column *column, double *slenderness);

/* The name of a curve, as in files: "johnson"; NULL for RBOW_CURVE_OF_MATERIAL and beyond the list. */
RBOW_API const char *rbow_curve_name(rbow_curve curve);

#ifdef __cplusplus
}
#endif

#endif
