/* How long a detail lasts: cycles to a crack from S-N curves, and runs by Miner's rule.
 *
 * An estimate, right to orders of magnitude and no substitute for inspection; welds are taken as free of cracks. Design curves of
 * welds are the mean less two standard deviations. A range beyond the yield of the place has no number: the curves do not cover
 * it. */
#ifndef RAILBOW_LIFE_H
#define RAILBOW_LIFE_H

#include <railbow/detail.h>

#ifdef __cplusplus
extern "C" {
#endif

/* value, name as in files */
#define RBOW_SN_KIND_LIST(X) X(RBOW_SN_WELD, "weld") X(RBOW_SN_METAL, "metal")
#define RBOW_SN_ENUM(value, name) value,
typedef enum rbow_sn_kind { RBOW_SN_KIND_LIST(RBOW_SN_ENUM) RBOW_SN_KIND_COUNT } rbow_sn_kind;
#undef RBOW_SN_ENUM

/* An S-N curve, stresses in units of stress_unit.
 *   weld   N = 10^log_a1 range^-m1 up to the knee, else 10^log_a2 range^-m2; INFINITY beyond the cut-off. The mean stress plays no
 *          part: a welded joint already holds residual stress up to yield
 *   metal  log10 N = a1 + a2 log10(S_eq - a4), S_eq = stress_max (1 - R)^a3; INFINITY where S_eq <= a4 or stress_max <= 0; two
 *          standard deviations of log10 N are taken off where they are known
 * Source: the form of metal: MIL-HDBK-5J 9.3.4 (read, second hand); of weld: DNV-RP-C203, 2.4 (from memory) */
typedef struct rbow_sn_curve {
    const char *name;            /* may be NULL */
    int kind;                    /* rbow_sn_kind */
    double log_a1, m1;           /* of weld */
    double log_a2, m2;           /* NaN: the first branch goes on */
    double knee_cycles;          /* NaN: none */
    double cutoff_cycles;        /* NaN: none */
    double a1, a2, a3, a4;       /* of metal; a2 < 0 */
    double stress_unit;          /* psi, > 0 */
    double deviation;            /* of log10 N; NaN: not known */
    const char *source;          /* may be NULL */
} rbow_sn_curve;

/* The life at one stress.
 * Given:    curve
 *           range       psi, >= 0; of weld
 *           stress_max  psi, tension positive; ratio R = least/stress_max <= 1; of metal
 * Returned: cycles      to a crack; INFINITY: none
 * Status:   RBOW_OK | RBOW_BAD_SN | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_sn_cycles(const rbow_sn_curve *curve, double range, double stress_max, double ratio, double *cycles);

/* The remarks on a life: value, text as in files. */
#define RBOW_LIFE_REMARK_LIST(X)                                                                                        \
    X(RBOW_LIFE_BEYOND_YIELD, "beyond yield")         /* a stress exceeds the yield of the place                     */ \
    X(RBOW_LIFE_LOW_CYCLE, "beyond yield: low-cycle") /* the range does: no number                                   */ \
    X(RBOW_LIFE_NO_STATE, "no equilibrium")           /* at one of the two load factors: no life                     */ \
    X(RBOW_LIFE_MEAN_CURVE, "mean curve")             /* of metal, no deviation known: half of the parts crack earlier */
#define RBOW_LIFE_REMARK_AT(value, text) value##_AT,
#define RBOW_LIFE_REMARK_BIT(value, text) value = 1 << value##_AT,
enum { RBOW_LIFE_REMARK_LIST(RBOW_LIFE_REMARK_AT) RBOW_LIFE_REMARK_COUNT };
enum { RBOW_LIFE_REMARK_LIST(RBOW_LIFE_REMARK_BIT) RBOW_LIFE_REMARKS_END_ = 0 };
#undef RBOW_LIFE_REMARK_AT
#undef RBOW_LIFE_REMARK_BIT

/* One cycle between two states. */
typedef struct rbow_life_cycle { /* NaN: does not exist; doubles first */
    double range;      /* psi: of weld, the largest sqrt(sigma^2 + 3 tau^2) of the differences; of metal, that of the fibre */
    double stress_max; /* psi, tension positive, of the fibre that counts */
    double ratio;      /* least over largest stress of this fibre; NaN where the largest is not above 0 */
    double equivalent; /* psi: S_eq of metal, else the range */
    double cycles;     /* to a crack; INFINITY: none; NaN with RBOW_LIFE_LOW_CYCLE */
    unsigned remarks;  /* RBOW_LIFE_... bits */
    int reserved;      /* 0 */
} rbow_life_cycle;

/* The cycles that a detail lasts between two states, on the section that its mode uses: of the tube, the net section of a hole, the
 * throat of a ring weld or of rosettes; with a weld, the tube, stub or sleeve beside it where that lasts less: it carries what a throat
 * above the wall does not feel, and the moment that rosettes do not carry.
 *   weld   |P|/A + |M|/S of the differences, M the difference of the vectors, with the shear of torque (and, in a ring, 2V/(pi d))
 *   metal  the fibre with the largest S_eq; with torque its amplitude is sqrt(sigma_a^2 + 3 tau_a^2), and its mean
 *          sqrt(sigma_m^2 + 3 tau_m^2) in tension, sqrt(3) |tau_m| - |sigma_m| in compression
 * Given:    detail, member, material; curve; low, high
 * Returned: cycle
 * Status:   RBOW_OK | as rbow_detail_use | RBOW_BAD_SN | RBOW_SN_NOT_WELD
 * Source:   von Mises of amplitudes and means in tension: Budynas & Nisbett, Shigley's Mechanical Engineering Design, ch. 6 (read);
 *           the mean in compression: common practice, no source */
RBOW_API rbow_status rbow_life_between(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                                       const rbow_sn_curve *curve, const rbow_section_forces *low, const rbow_section_forces *high,
                                       rbow_life_cycle *cycle);

typedef struct rbow_life_row { /* one load of a run */
    const rbow_member *member;    /* the tube under this load */
    double cycles;                /* how often it comes in one run, > 0 */
    double low, high;             /* load factors between which it swings, of any sign, low < high */
} rbow_life_row;

typedef struct rbow_life_result { /* doubles first; NaN: does not exist; of the row that does most damage, as built */
    double range, stress_max, ratio, equivalent, cycles_to_crack; /* as in rbow_life_cycle */
    double runs;            /* 1/sum(cycles/N) of all rows, each at its worst fibre; INFINITY: never; NaN: low-cycle or no state */
    double runs_unforced;   /* the same without misses and gap */
    double forced_costs;    /* runs_unforced/runs; NaN where both are INFINITY */
    double bow_clock_taken; /* rad; NaN without a bow */
    unsigned remarks;       /* RBOW_LIFE_... bits, of all rows as built */
    int joints_taken;       /* rbow_joints */
    int row;                /* place of the row in the list; after a failure, of the one at fault */
    int reserved;           /* 0 */
} rbow_life_result;

/* The runs that a detail lasts, as built: one stiffness of the joints and one direction of each unknown clock for all rows, the
 * worst for damage. What is locked in stands in both states of a row, each to second order.
 * Given:    detail; rows, count  >= 1: the same tube under each load of a run; material; curve
 * Returned: result; directions to half a degree
 * Status:   RBOW_OK | the first of rbow_member_faults, of rbow_detail_faults | RBOW_BAD_CYCLES | RBOW_BAD_CYCLE_LOW
 *           | RBOW_BAD_CYCLE_HIGH | RBOW_BAD_SN | RBOW_SN_NOT_WELD | RBOW_OUT_OF_RANGE (no row) | RBOW_NO_CONVERGENCE
 *           | RBOW_STRESS_OVERFLOW
 * Source:   Palmgren-Miner sum, e.g. EN 1993-1-9 A.5 (from memory) */
RBOW_API rbow_status rbow_life_of(const rbow_detail *detail, const rbow_life_row *rows, size_t count, const rbow_material *material,
                                  const rbow_sn_curve *curve, rbow_life_result *result);

typedef struct rbow_frame_life_row { /* the loads that act together, one part of a run of the car */
    const rbow_frame_run *run;
    double cycles, low, high;   /* as in rbow_life_row */
} rbow_frame_life_row;

/* The same for a detail of a tube of a frame, as built and without any miss or gap in the frame. Bows of unknown clock all point to
 * the side to which they move in the first row, or all to the opposite side, for all rows. joints_taken is RBOW_JOINTS_NONE,
 * bow_clock_taken NaN.
 * Given:    solver; rows, count >= 1; tube; detail; curve
 * Status:   as rbow_life_of, but for faults of a member; RBOW_OUT_OF_RANGE: no row, no such tube, or faults of a run */
RBOW_API rbow_status rbow_frame_life_of(rbow_frame_solver *solver, const rbow_frame_life_row *rows, size_t count, size_t tube,
                                        const rbow_detail *detail, const rbow_sn_curve *curve, rbow_life_result *result);

/* The curve that is usual for a detail, by its name in materials/fatigue.csv: ring weld, and a place or hole in a weld zone, W2;
 * sleeve butt welded F3, not butt welded W3; socket W3; a hole elsewhere 4130 kt 4, a place elsewhere 4130 kt 1. Common practice, no
 * source; thin round tubes welded to others stand at 40 to 50 MPa at 2e6 cycles in EN 1993-1-9 and IIW tables (from memory).
 * Given: detail, member */
RBOW_API const char *rbow_life_usual_curve(const rbow_detail *detail, const rbow_member *member);

/* The text of one remark bit; NULL for any other value. */
RBOW_API const char *rbow_life_remark_text(unsigned bit);

#ifdef __cplusplus
}
#endif

#endif
