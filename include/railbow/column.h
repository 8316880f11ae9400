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

/* value, formula, name as in files, imperfection factor (EN 1993-1-1:2005 table 6.1; 0 where the formula has none), source.
 * The formula is the name of a function wherever each curve needs one: its stress in the library, its steps in the hand
 * calculation. */
#define RBOW_CURVE_LIST(X)                                                                                            \
    X(RBOW_CURVE_JOHNSON, johnson, "johnson", 0,                                                                      \
      "Johnson parabola: Shigley & Mischke, Mechanical Engineering Design, 5th ed. 1989, sec. 3-12 (from memory)")    \
    X(RBOW_CURVE_THREE_HALVES, three_halves, "three-halves", 0,                                                       \
      "ANC-5, Strength of Metal Aircraft Elements, rev. June 1951 (from memory)")                                     \
    X(RBOW_CURVE_EULER, euler, "euler", 0,                                                                            \
      "Timoshenko & Gere, Theory of Elastic Stability, 2nd ed. 1961, sec. 2.1 (from memory)")                         \
    X(RBOW_CURVE_AISC, aisc, "aisc", 0,                                                                               \
      "ANSI/AISC 360-16, E3, eqs. E3-2 to E3-4, nominal (from memory)")                                               \
    X(RBOW_CURVE_EN_A0, european, "en-a0", 0.13,                                                                      \
      "EN 1993-1-1:2005, 6.3.1.2, eq. 6.49, table 6.1")                                                               \
    X(RBOW_CURVE_EN_A, european, "en-a", 0.21,                                                                        \
      "EN 1993-1-1:2005, 6.3.1.2, eq. 6.49, table 6.1")                                                               \
    X(RBOW_CURVE_EN_B, european, "en-b", 0.34,                                                                        \
      "EN 1993-1-1:2005, 6.3.1.2, eq. 6.49, table 6.1")                                                               \
    X(RBOW_CURVE_EN_C, european, "en-c", 0.49,                                                                        \
      "EN 1993-1-1:2005, 6.3.1.2, eq. 6.49, table 6.1")                                                               \
    X(RBOW_CURVE_EN_D, european, "en-d", 0.76,                                                                        \
      "EN 1993-1-1:2005, 6.3.1.2, eq. 6.49, table 6.1")

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
 * Source:   Timoshenko & Gere, Theory of Elastic Stability, 2nd ed. 1961, ch. 2 (bars with elastic restraint), the
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

/* Which part of a curve gives the stress. */
typedef enum rbow_column_range {
    RBOW_COLUMN_YIELD,     /* the full compression yield: too short to buckle (en)           */
    RBOW_COLUMN_INELASTIC, /* the curve's own formula                                        */
    RBOW_COLUMN_ELASTIC    /* Euler's, or a share of it                                      */
} rbow_column_range;

typedef struct rbow_column_terms { /* what the formulas go through; NaN: the curve has no such term */
    double full;       /* Q x compression yield, psi: no curve is above it                             */
    double euler;      /* pi^2 E/s^2, psi                                                              */
    double transition; /* slenderness above which the curve is Euler's; INFINITY: never */
    double intercept;  /* psi, three-halves: Q x column intercept                                      */
    double relative_slenderness, phi; /* en: sqrt(full/euler), and the auxiliary value                      */
    double stress;     /* the allowable stress, psi                                                    */
    int range;         /* rbow_column_range                                                            */
} rbow_column_terms;

/* Allowable stress of a column, and the terms of its formula.
 * Given:    column
 * Returned: terms; stress  psi; never above Q x compression yield
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE
 * Source:   RBOW_CURVE_LIST */
RBOW_API rbow_status rbow_column_terms_of(const rbow_column *column, rbow_column_terms *terms);
RBOW_API rbow_status rbow_column_stress(const rbow_column *column, double *stress);

/* Length between pins with the same critical load: L' = pi sqrt(EI/P_cr).
 * Given:    bending_stiffness  EI, lbf-in^2
 *           critical_load      lbf
 * Returned: in; NaN where either is not above 0 */
RBOW_API double rbow_effective_length(double bending_stiffness, double critical_load);

/* Where a curve meets Euler's.
 * Given:    column       its slenderness is not used, but must be above 0
 * Returned: slenderness  the smallest above which the curve is Euler's; INFINITY where it never does on
 *                        its own (aisc and en)
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_column_transition(const rbow_column *column, double *slenderness);

/* The name of a curve, as in files: "johnson", and its source; NULL for RBOW_CURVE_OF_MATERIAL and beyond the list. */
RBOW_API const char *rbow_curve_name(rbow_curve curve);
RBOW_API const char *rbow_curve_source(rbow_curve curve);

#ifdef __cplusplus
}
#endif

#endif
