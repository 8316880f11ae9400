/* Straight columns: end restraint, elastic critical load, and the allowable stress of the column curves. */
#ifndef RAILBOW_COLUMN_H
#define RAILBOW_COLUMN_H

#include <railbow/status.h>

#include <float.h>
#include <math.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Rotational restraint of the tube's end by a joint: a stiffness in in-lbf/rad, >= 0, or one of these values. They
 * are far from any stiffness, so that a wrong sign is an error and not another end. */
#define RBOW_UNSET (-DBL_MAX) /* where a contract names a default that depends on other inputs */

#define RBOW_PINNED 0.0
#define RBOW_FIXED INFINITY
#define RBOW_WELDED (-DBL_MAX)     /* of unknown stiffness, between the soft and the stiff weld; the check takes the worse */
#define RBOW_SOFT_WELD (-DBL_MAX / 4.0)  /* the spring that gives fixity c = 2 if both ends have it              */
#define RBOW_STIFF_WELD (-DBL_MAX / 8.0) /* as RBOW_FIXED, but the column load stays that of the soft weld       */
#define RBOW_FREE (-DBL_MAX / 2.0) /* at B only: the end moves laterally and rotates freely      */

/* value, name as in files; RBOW_FREE is for end B alone */
#define RBOW_END_LIST(X)      \
    X(RBOW_PINNED, "pinned")  \
    X(RBOW_WELDED, "welded")  \
    X(RBOW_FIXED, "fixed")
#define RBOW_END_B_LIST(X) RBOW_END_LIST(X) X(RBOW_FREE, "free")

/* value, formula, name as in files, imperfection factor (EN 1993-1-1 table 6.1; 0 if the formula has none), source.
 * `formula` names a function in each file that needs one for every curve. */
#define RBOW_CURVE_LIST(X)                                                                                     \
    X(RBOW_CURVE_JOHNSON, johnson, "johnson", 0, "Johnson's parabola, any machine-design text")                \
    X(RBOW_CURVE_THREE_HALVES, three_halves, "three-halves", 0, "aircraft tubing handbooks (ANC-5)")           \
    X(RBOW_CURVE_EULER, euler, "euler", 0, "Euler")                                                            \
    X(RBOW_CURVE_AISC, aisc, "aisc", 0, "AISC 360 E3, nominal")                                                \
    X(RBOW_CURVE_EN_A0, european, "en-a0", 0.13, "EN 1993-1-1 6.3.1.2, table 6.1")                             \
    X(RBOW_CURVE_EN_A, european, "en-a", 0.21, "EN 1993-1-1 6.3.1.2, table 6.1")                               \
    X(RBOW_CURVE_EN_B, european, "en-b", 0.34, "EN 1993-1-1 6.3.1.2, table 6.1")                               \
    X(RBOW_CURVE_EN_C, european, "en-c", 0.49, "EN 1993-1-1 6.3.1.2, table 6.1")                               \
    X(RBOW_CURVE_EN_D, european, "en-d", 0.76, "EN 1993-1-1 6.3.1.2, table 6.1")

#define RBOW_CURVE_ENUM(value, formula, name, imperfection, source) value,
typedef enum rbow_curve {
    RBOW_CURVE_OF_MATERIAL, /* for a member: the curve that its material names */
    RBOW_CURVE_LIST(RBOW_CURVE_ENUM) RBOW_CURVE_COUNT
} rbow_curve;
#undef RBOW_CURVE_ENUM

/* The stiffness that the result assumes for welded joints, A/B: value, name as in files. */
#define RBOW_JOINTS_LIST(X)                      \
    X(RBOW_JOINTS_NONE, "")                      \
    X(RBOW_JOINTS_SOFT, "soft")                  \
    X(RBOW_JOINTS_SOFT_STIFF, "soft/stiff")      \
    X(RBOW_JOINTS_STIFF_SOFT, "stiff/soft")      \
    X(RBOW_JOINTS_STIFF, "stiff")
#define RBOW_JOINTS_ENUM(value, name) value,
typedef enum rbow_joints { RBOW_JOINTS_LIST(RBOW_JOINTS_ENUM) RBOW_JOINTS_COUNT } rbow_joints;
#undef RBOW_JOINTS_ENUM

/* The stiffness of an end that is given as one of the words above, or as a stiffness.
 * Given:    end                a stiffness or one of the words above except RBOW_FREE; RBOW_WELDED counts as soft
 *           bending_stiffness  EI, lbf-in^2, > 0
 *           length             in, > 0
 * Returned: stiffness          in-lbf/rad, >= 0, INFINITY = fixed
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_end_stiffness(double end, double bending_stiffness, double length,
                                        double *stiffness);

/* Elastic critical load of a straight column with rotational springs at its ends.
 * Given:    bending_stiffness  EI, lbf-in^2, > 0
 *           length             in, > 0
 *           stiffness_a        in-lbf/rad, >= 0 (> 0 if b is free), INFINITY = fixed
 *           stiffness_b        the same, or RBOW_FREE
 * Returned: critical_load      lbf; relative error below 1e-12
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_NO_CONVERGENCE
 * Source:   Timoshenko & Gere, Theory of Elastic Stability, ch. 2 (bars with elastic restraint), the
 *           characteristic equation in a form that is continuous from pinned to fixed. */
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

/* The slenderness at which a curve changes to Euler's.
 * Given:    column       its slenderness must be above 0 but does not affect the result
 * Returned: slenderness  the smallest at which the curve is the Euler stress; INFINITY if it never is (aisc and en)
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_column_transition(const rbow_column *column, double *slenderness);

/* The name of a curve as in files, such as "johnson"; NULL for RBOW_CURVE_OF_MATERIAL and any value outside the list. */
RBOW_API const char *rbow_curve_name(rbow_curve curve);

#ifdef __cplusplus
}
#endif

#endif
