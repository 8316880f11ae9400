/* A member, which is one round tube between joint A and joint B under one load case, and its check. */
#ifndef RAILBOW_MEMBER_H
#define RAILBOW_MEMBER_H

#include <railbow/beamcolumn.h>
#include <railbow/material.h>
#include <railbow/tube.h>
#include <railbow/weld_zone.h>

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#define RBOW_ANY_CLOCK (-DBL_MAX) /* an unknown direction: the check takes the worst                 */

/* Run loads grow with the load factor. Bow, misses and gap are built in and do not. Clocks are in rad; those of the
 * eccentricity, the bow and the misses may be RBOW_ANY_CLOCK. */
typedef struct rbow_member {
    double od, wall;     /* in */
    double length;       /* in, joint to joint */
    double end_a, end_b; /* in-lbf/rad, or RBOW_PINNED, RBOW_WELDED, RBOW_FIXED; RBOW_FREE for B */
    int column_curve;    /* rbow_curve */

    double compression;                      /* lbf; + pushes the ends together, - pulls            */
    double eccentricity, eccentricity_clock; /* in, >= 0; distance of the push from the axis        */
    double moment_a, moment_b, moment_clock; /* in-lbf                                              */
    double point_load, point_at, point_clock; /* lbf; in, 0 ... length, RBOW_UNSET = middle         */
    double spread_load, spread_clock;        /* lbf/in                                              */
    double vertical_g, slope;                /* multiple of the own weight, downward; rad from level */
    double torque;                           /* in-lbf                                              */

    double bow, bow_clock; /* in, >= 0                              */
    int bow_shape;         /* rbow_bow_shape                        */
    double bow_at;         /* in, RBOW_UNSET = middle; kink only    */
    double miss_a, miss_a_clock; /* in, >= 0, measured at B         */
    double miss_b, miss_b_clock; /* in, >= 0, measured at A         */
    double gap;            /* in; > 0: too short, was pulled; < 0: was squeezed */
    double gap_stiffness;  /* lbf/in of the surrounding frame, INFINITY = rigid */

    double weld_zone, dressed;   /* in: length from a joint, RBOW_UNSET = 1 or half the length; wall ground off there */
    double factor, factor_yield; /* required load factors; RBOW_UNSET for the second = the first */
} rbow_member;

/* value, name as in files */
#define RBOW_VERDICT_LIST(X) X(RBOW_HOLDS, "holds") X(RBOW_SHORT, "short")
#define RBOW_GOVERNS_LIST(X)                \
    X(RBOW_BY_COLUMN, "column")             \
    X(RBOW_BY_YIELD, "yield")               \
    X(RBOW_BY_INTERACTION, "interaction")   \
    X(RBOW_BY_NONE, "none")

#define RBOW_VALUE_ENUM(value, name) value,
typedef enum rbow_verdict { RBOW_VERDICT_LIST(RBOW_VALUE_ENUM) RBOW_VERDICT_COUNT } rbow_verdict;
typedef enum rbow_governs { RBOW_GOVERNS_LIST(RBOW_VALUE_ENUM) RBOW_GOVERNS_COUNT } rbow_governs;

/* The part of the forced fit that the result assumes: value, name as in files. */
#define RBOW_FIT_LIST(X)                         \
    X(RBOW_FIT_AS_BUILT, "as built")             \
    X(RBOW_FIT_RELAXED, "relaxed")               \
    X(RBOW_FIT_UNFORCED, "unforced")
typedef enum rbow_fit_taken { RBOW_FIT_LIST(RBOW_VALUE_ENUM) RBOW_FIT_COUNT } rbow_fit_taken;
#undef RBOW_VALUE_ENUM
enum { RBOW_FIT_MISS_A = 1, RBOW_FIT_MISS_B = 2, RBOW_FIT_GAP = 4 }; /* bits of the parts of the forced fit */

/* The remarks of rbow_result.remarks, in the order in which they are printed: value, text as in files. */
#define RBOW_REMARK_LIST(X)                                                                                     \
    X(RBOW_REMARK_UNSTABLE, "unstable as loaded") /* no equilibrium as loaded                               */  \
    X(RBOW_REMARK_SET, "built-in state takes a set") /* built-in use of 1 or more                           */  \
    X(RBOW_REMARK_SLENDER, "slender")             /* L'/r above 150                                         */  \
    X(RBOW_REMARK_SHORT_TUBE, "short tube")       /* L/D under 10: shear flexibility left out               */  \
    X(RBOW_REMARK_THIN_WALL, "thin wall")         /* Q below 1, in the tube or a weld zone                  */  \
    X(RBOW_REMARK_STIFF_ENDS, "stiff ends")       /* fixity above 2                                         */  \
    X(RBOW_REMARK_WELD_ZONE_TAKEN, "weld zone taken as 1 in") /* none was given                             */  \
    X(RBOW_REMARK_NO_BOW, "no bow given")         /* the check assumes a straight tube                      */  \
    X(RBOW_REMARK_SIZE, "is the size right?")     /* a wrong unit or decimal point is likely                */  \
    /* values without effect, because of the ends */                                                                        \
    X(RBOW_REMARK_IDLE_ECCENTRICITY, "no effect: eccentricity")                                                 \
    X(RBOW_REMARK_IDLE_MOMENT_A, "no effect: moment_a")                                                         \
    X(RBOW_REMARK_IDLE_MOMENT_B, "no effect: moment_b")                                                         \
    X(RBOW_REMARK_IDLE_POINT_LOAD, "no effect: point_load")                                                     \
    X(RBOW_REMARK_IDLE_GAP_STIFFNESS, "no effect: gap_stiffness") /* there is no gap                        */  \
    X(RBOW_REMARK_IDLE_DRESSED, "no effect: dressed") /* there is no weld zone to dress                     */

#define RBOW_REMARK_PLACE(value, text) value##_PLACE,
#define RBOW_REMARK_BIT(value, text) value = 1 << value##_PLACE,
enum { RBOW_REMARK_LIST(RBOW_REMARK_PLACE) RBOW_REMARK_COUNT };
enum { RBOW_REMARK_LIST(RBOW_REMARK_BIT) RBOW_REMARKS_END_ = 0 };
#undef RBOW_REMARK_PLACE
#undef RBOW_REMARK_BIT

/* A value that does not exist is NaN; a load factor without a limit is INFINITY. After a failure every number is NaN,
 * the verdict is RBOW_SHORT and governs is RBOW_BY_NONE, so that a caller who ignores the status never reads that a
 * tube holds. */
typedef struct rbow_result {
    /* all doubles first, then the whole numbers */
    double margin;              /* smallest load factor over factor asked for, less 1      */
    double margin_as_built;     /* the smallest with the whole forced fit                  */
    double margin_unforced;     /* the smallest without the forced fit                     */
    double margin_best;         /* the largest with the whole forced fit, for the best stiffness of the joints */
    double bow_clock_taken, miss_a_clock_taken, miss_b_clock_taken; /* rad; NaN without one */
    double yield_factor, column_factor, interaction_factor;

    rbow_section section;
    double weight;              /* lb, of the tube                                         */
    double wall_reduction;      /* Q of the tube                                           */
    double critical_load;       /* lbf                                                     */
    double effective_length;    /* L', in                                                  */
    double slenderness;         /* L'/r                                                    */
    double column_stress;       /* psi                                                     */
    double column_load;         /* lbf                                                     */

    double fit_axial;           /* lbf, locked in, compression positive                    */
    double fit_moment;          /* in-lbf, largest at load factor 0                        */
    double fit_stress;          /* psi, equivalent, at factor 0, at the largest utilisation */

    double axial;               /* lbf at load factor 1, compression positive              */
    double peak_moment, peak_moment_at; /* in-lbf, in                                      */
    double peak_stress;         /* psi, equivalent, at the largest utilisation             */
    double stress_use;          /* largest utilisation of yield at load factor 1           */
    double deflection;          /* in, largest movement from the stress-free shape         */
    double deflection_clock;    /* rad, 0 ... 2 pi                                         */

    double governs_at;          /* in: where the check that governs is reached, at its own load factor; NaN where the tube
                                   as a whole buckles, or nothing governs */
    double eccentricity_clock_taken; /* rad; NaN without one */
    int verdict;                /* rbow_verdict                                            */
    int governs;                /* rbow_governs                                            */
    unsigned remarks;           /* RBOW_REMARK_... bits                                    */
    int governs_in_weld_zone;   /* governs_at lies in one                                  */
    int runs;                   /* it has a run load */
    int forced;                 /* it has a miss or a gap */
    int joints_taken;           /* rbow_joints of the concrete member that governs */
    int fit_taken;              /* rbow_fit_taken of it */
    unsigned fit_kept;          /* RBOW_FIT_... bits of it */
} rbow_result;

/* A member with every value at its default: no load, no bow, pinned, factor 1.5; od, wall, length NaN. */
RBOW_API rbow_member rbow_member_default(void);

/* A member with every default that depends on other inputs put in: point_at, bow_at, weld_zone, factor_yield, column_curve.
 * Given: member, material; not checked */
RBOW_API rbow_member rbow_member_resolved(const rbow_member *member, const rbow_material *material);

/* Whether the point load acts at a joint that is held sideways and takes it.
 * Given: member, resolved. Returned: 1 or 0 */
RBOW_API int rbow_member_point_is_idle(const rbow_member *member);

/* The bow of a member. Given: member, resolved */
RBOW_API rbow_bow rbow_member_bow(const rbow_member *member);

/* The weld zones of a member. Given: member, resolved */
RBOW_API rbow_weld_zone rbow_member_weld_zone(const rbow_member *member);

/* All that is wrong with a member, in the order of its fields.
 * Given:    member, material; room for `most` statuses (faults may be NULL where most is 0)
 * Returned: how many there are (0: rbow_member_check will give a result, except where the stress
 *           overflows); the first `most` of them in faults */
RBOW_API size_t rbow_member_faults(const rbow_member *member, const rbow_material *material,
                                   rbow_status *faults, size_t most);

/* The check: the margin of one member under one load case. Every unknown (the stiffness of a welded joint, a clock of
 * RBOW_ANY_CLOCK, whether the forced fit has relaxed) takes its worst value: the result is that of the concrete member with
 * the smallest margin. Columns of the column alone are those of soft welded ends; fit_... are those as built with the
 * largest fit_stress.
 * Given:    member, material
 * Returned: result; closed-form values to 1e-9 relative, load factors to 1e-7
 * Status:   RBOW_OK | the first of rbow_member_faults | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW
 * Validity: elastic; small slopes (misses and bow up to 10 deg); no shear flexibility; no fatigue, cracks,
 *           dents, impact, weld defects, or residual stress other than the forced fit. */
RBOW_API rbow_status rbow_member_check(const rbow_member *member, const rbow_material *material,
                                       rbow_result *result);

/* The concrete member that governs. All its numbers are known, and its own check gives the same factors.
 * Given: member; result, of its check. */
RBOW_API rbow_member rbow_member_taken(const rbow_member *member, const rbow_result *result);

typedef struct rbow_margin {
    double margin;
    double yield_factor, column_factor, interaction_factor;
    int governs;  /* rbow_governs */
    int unstable; /* no equilibrium as loaded */
} rbow_margin;

/* The margin alone, for studies that need it many times: the same as that of rbow_member_check, in less than half the time.
 * Given:    member, material
 * Returned: margin
 * Status:   as rbow_member_check */
RBOW_API rbow_status rbow_member_margin(const rbow_member *member, const rbow_material *material,
                                        rbow_margin *margin);

typedef struct rbow_profile { /* one station along the tube, both planes; deflection from the stress-free shape */
    double at;                              /* in from A, 0 ... length: set by the caller */
    double moment_up, moment_right;         /* in-lbf */
    double deflection_up, deflection_right; /* in     */
    double shear_up, shear_right;           /* lbf: the derivative of the moment along the tube; at a point load, on its B side */
} rbow_profile;

/* What acts on the cross-section of a tube at one place and load factor. */
typedef struct rbow_section_forces {
    double axial;                    /* lbf, compression positive */
    double moment_up, moment_right;  /* in-lbf, positive where the convex side faces that way */
    double torque;                   /* in-lbf */
    double shear_up, shear_right;    /* lbf: the derivative of the moments along the tube */
} rbow_section_forces;

/* Moments and movements along a member at one load factor.
 * Given:    member, material
 *           factor    load factor, >= 0
 *           tension   locked-in tension to count, lbf: -fit_axial of the result, or 0 if it has relaxed
 *           stations  `count` stations with `at` set
 * Returned: the other values of each station; NaN after a failure
 * Status:   RBOW_OK | as rbow_member_check | RBOW_OUT_OF_RANGE (a station outside the tube, a factor below 0)
 *           | RBOW_UNSTABLE (no equilibrium at this factor) */
RBOW_API rbow_status rbow_member_profile(const rbow_member *member, const rbow_material *material, double factor,
                                         double tension, rbow_profile *stations, size_t count);

typedef struct rbow_limit { /* NaN: does not exist */
    double factor;        /* load factor of that check, as in the result; INFINITY: no limit           */
    double tension;       /* locked-in tension counted, lbf: that of the gap, or 0 if it does not count */
    double axial, torque; /* lbf, in-lbf at that factor                                                */
    double at;            /* in from A: station of the limit; NaN for RBOW_BY_COLUMN                   */
    double moment_up, moment_right; /* in-lbf, there                                                   */
    double level;         /* utilisation of yield or interaction there: 1 at a limit, less if a straight
                             tube buckles first, more if factor is 0                                       */
    int in_weld_zone;
} rbow_limit;

/* The state of the member when one check reaches its limit: what a calculation by hand needs.
 * Given:    member, material
 *           check     RBOW_BY_COLUMN, RBOW_BY_YIELD or RBOW_BY_INTERACTION
 * Returned: limit     `at` and the values after it are NaN if factor is INFINITY or there is no equilibrium at it
 * Status:   RBOW_OK | as rbow_member_check | RBOW_OUT_OF_RANGE (another check) */
RBOW_API rbow_status rbow_member_limit(const rbow_member *member, const rbow_material *material, int check,
                                       rbow_limit *limit);

/* The text of one remark bit (1 << 0 ... 1 << (RBOW_REMARK_COUNT - 1)), as in files: "slender"; NULL for any other
 * value. */
RBOW_API const char *rbow_remark_text(unsigned bit);

#ifdef __cplusplus
}
#endif

#endif
