/* A frame of tubes: joints, tubes and loads, solved as a whole to second order, and every tube held against its limits.
 *
 * Axes as in ISO 8855: x forward, y to the left, z up. A tube's clock is seen from its joint A toward its joint B: 0 is up,
 * the part of +z across the tube (for a tube within 0.1 deg of vertical: forward, +x), pi/2 is to the right.
 *
 * Each tube is one beam-column (beamcolumn.h) whose ends move and turn with its joints. Run loads grow with the load factor;
 * bow, misses and gaps are built in and do not. Left out: shear flexibility, shortening by bowing, the size of joints, large
 * turning of the frame.
 *
 * The order of the joints is found with memory from malloc, which is returned at once; nothing else allocates, and nothing keeps
 * state outside its arguments: any number of threads may work, each with a solver of its own. */
#ifndef RAILBOW_FRAME_H
#define RAILBOW_FRAME_H

#include <railbow/member.h>

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

enum { RBOW_X, RBOW_Y, RBOW_Z, RBOW_AXES, RBOW_MOTIONS = 6 }; /* motions of a joint: x y z, then the turns about them */

/* What the support of a joint holds: bit, name as in files. */
#define RBOW_HELD_LIST(X)                                                                            \
    X(RBOW_HELD_X, 1, "x") X(RBOW_HELD_Y, 2, "y") X(RBOW_HELD_Z, 4, "z")                             \
    X(RBOW_HELD_RX, 8, "rx") X(RBOW_HELD_RY, 16, "ry") X(RBOW_HELD_RZ, 32, "rz")
#define RBOW_HELD_ENUM(name, bit, text) name = bit,
enum { RBOW_HELD_LIST(RBOW_HELD_ENUM) RBOW_HELD_NONE = 0, RBOW_HELD_PINNED = 7, RBOW_HELD_FIXED = 63 };
#undef RBOW_HELD_ENUM

typedef struct rbow_frame_joint {
    double at[RBOW_AXES]; /* in */
    double mass;          /* lb, >= 0; it weighs, and pushes under g */
    unsigned held;        /* RBOW_HELD_... bits */
} rbow_frame_joint;

/* Misses and gap as in a member, measured on the unloaded frame in its drawn shape: a bar in A's socket misses joint B by
 * miss_a. A clock of RBOW_ANY_CLOCK is allowed for the bow alone. */
typedef struct rbow_frame_tube {
    size_t from, to;                /* joints A and B, by their place in the list */
    double od, wall;                /* in */
    const rbow_material *material;  /* that serves this wall */
    double end_a, end_b;            /* RBOW_FIXED = rigid: welded to the joint; RBOW_PINNED: a ball, no moment about any axis;
                                       or a stiffness about both lateral axes, in-lbf/rad, rigid in twist */
    int column_curve;               /* rbow_curve */
    double fixity;                  /* c of the column load, > 0: L' = L/sqrt(c) */
    double bow, bow_clock;          /* in, >= 0; rad */
    int bow_shape;                  /* rbow_bow_shape */
    double bow_at;                  /* in, RBOW_UNSET = middle; kink only */
    double miss_a, miss_a_clock;    /* in, >= 0; rad */
    double miss_b, miss_b_clock;
    double gap;                     /* in; > 0: too short, was pulled; < 0: was squeezed */
    double weld_zone, dressed;      /* in; RBOW_UNSET = 1 or half the length */
} rbow_frame_tube;

typedef struct rbow_frame { /* the lists stay the caller's and must outlive the solver */
    const rbow_frame_joint *joints;
    size_t joint_count;
    const rbow_frame_tube *tubes;
    size_t tube_count;
} rbow_frame;

/* What a load acts on: value, name. */
#define RBOW_ACTS_LIST(X) X(RBOW_ACTS_ON_JOINT, "joint") X(RBOW_ACTS_ON_TUBE, "tube") X(RBOW_ACTS_ON_ALL, "all")
#define RBOW_ACTS_ENUM(value, name) value,
typedef enum rbow_acts { RBOW_ACTS_LIST(RBOW_ACTS_ENUM) RBOW_ACTS_COUNT } rbow_acts;
#undef RBOW_ACTS_ENUM

typedef struct rbow_frame_load {
    int acts_on;                /* rbow_acts */
    size_t index;               /* the joint or tube */
    double force[RBOW_AXES];    /* lbf, on the joint, or at `at` of the tube */
    double moment[RBOW_AXES];   /* in-lbf, on the joint, right-hand about the axes */
    double at;                  /* in from A; RBOW_UNSET = middle */
    double spread[RBOW_AXES];   /* lbf per in of the tube */
    double vertical_g, forward_g, left_g; /* on all: 1 at rest, pushes down; pushes forward; pushes left */
} rbow_frame_load;

typedef struct rbow_frame_run { /* loads that act together */
    const rbow_frame_load *loads;
    size_t load_count;
    double factor, factor_yield; /* required load factors; RBOW_UNSET for the second = the first */
} rbow_frame_run;

/* A joint, a tube (pinned nowhere, fixity 1) and a load with every value at its default; sizes NaN. */
RBOW_API rbow_frame_joint rbow_frame_joint_default(void);
RBOW_API rbow_frame_tube rbow_frame_tube_default(void);
RBOW_API rbow_frame_load rbow_frame_load_default(void);

/* ---- what is wrong with a frame ---------------------------------------------------------------------------- */

typedef enum rbow_frame_part { RBOW_IN_FRAME, RBOW_IN_JOINT, RBOW_IN_TUBE, RBOW_IN_LOAD } rbow_frame_part;

typedef struct rbow_frame_fault {
    rbow_status status;
    int part;     /* rbow_frame_part */
    size_t index; /* of the joint, tube or load in its list */
} rbow_frame_fault;

/* All that is wrong with a frame, and with a run on it, but for a frame that is not held.
 * Given:    frame; run; room for `most` faults (may be NULL where most is 0)
 * Returned: how many there are; the first `most` of them */
RBOW_API size_t rbow_frame_faults(const rbow_frame *frame, rbow_frame_fault *faults, size_t most);
RBOW_API size_t rbow_frame_run_faults(const rbow_frame *frame, const rbow_frame_run *run, rbow_frame_fault *faults, size_t most);

typedef struct rbow_frame_loose { /* how a frame that is not held moves */
    size_t joint;                  /* the one that moves most */
    double motion[RBOW_MOTIONS];   /* its movement, the largest part 1; turns times the frame's size */
} rbow_frame_loose;

/* ---- solving ------------------------------------------------------------------------------------------------ */

typedef struct rbow_frame_solver rbow_frame_solver; /* lies in the caller's memory */

/* Bytes that a solver of this frame needs; 0 where there is no memory. Given: frame, without faults */
RBOW_API size_t rbow_frame_memory(const rbow_frame *frame);

/* Given:    frame   without faults
 *           memory  rbow_frame_memory bytes, aligned as malloc does; the solver lives in it, and nothing needs closing
 * Returned: solver; loose, where the frame is not held (may be NULL)
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE (faults) | RBOW_FRAME_NOT_HELD | RBOW_NO_CONVERGENCE | RBOW_NO_MEMORY */
RBOW_API rbow_status rbow_frame_open(const rbow_frame *frame, void *memory, rbow_frame_solver **solver, rbow_frame_loose *loose);

typedef enum rbow_frame_fit { RBOW_FRAME_AS_BUILT, RBOW_FRAME_UNFORCED } rbow_frame_fit; /* with misses and gaps, or without */

typedef struct rbow_frame_motion { /* of a joint */
    double move[RBOW_AXES]; /* in */
    double turn[RBOW_AXES]; /* rad, right-hand */
} rbow_frame_motion;

/* The state of the frame at one load factor.
 * Given:    solver, run; factor >= 0; fit
 * Returned: motions  of every joint
 *           axial    of every tube, lbf, compression positive; both may be NULL
 * Status:   RBOW_OK | RBOW_UNSTABLE (no state) | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_frame_state(rbow_frame_solver *solver, const rbow_frame_run *run, double factor, int fit,
                                      rbow_frame_motion *motions, double *axial);

/* The end of the path of states from load factor 0: the smallest factor at which the frame folds, buckles, or one of its tubes
 * buckles between joints that are held; 0 without a state at 0, INFINITY for none below 1e6. To 1e-7. */
RBOW_API rbow_status rbow_frame_path_end(rbow_frame_solver *solver, const rbow_frame_run *run, int fit, double *path_end);

/* The smallest load factor above 0 at which the stiffness of the frame under P0 + factor P1 is singular: P0 the axial forces of
 * misses and gaps, P1 those of the run loads, both to first order. To 1e-9; INFINITY for none below 1e6. */
RBOW_API rbow_status rbow_frame_critical_factor(rbow_frame_solver *solver, const rbow_frame_run *run, double *critical_factor);

/* Moments and movements along one tube in a state. The movement is that of the tube across its drawn line, from where it was
 * drawn; fields as in rbow_profile.
 * Status:   as rbow_frame_state */
RBOW_API rbow_status rbow_frame_profile(rbow_frame_solver *solver, const rbow_frame_run *run, double factor, int fit, size_t tube,
                                        rbow_profile *stations, size_t count);

/* The place along one tube where yield or interaction is used most, in a state.
 * Given:    as rbow_frame_state; check  RBOW_BY_YIELD or RBOW_BY_INTERACTION
 * Returned: use  its `level` is the utilisation there, its factor the one given; tension 0. NaN after a failure
 * Status:   as rbow_frame_state | RBOW_OUT_OF_RANGE (no such tube or check) | RBOW_STRESS_OVERFLOW */
RBOW_API rbow_status rbow_frame_use(rbow_frame_solver *solver, const rbow_frame_run *run, double factor, int fit, size_t tube,
                                    int check, rbow_limit *use);

/* The directions of a tube: along it from A to B, and across it toward clock 0 and toward a quarter of a turn. Unit vectors.
 * Given: frame, its joints and ends of tubes without faults */
RBOW_API void rbow_frame_directions(const rbow_frame *frame, size_t tube, double along[RBOW_AXES], double up[RBOW_AXES],
                                    double right[RBOW_AXES]);

/* ---- the check ---------------------------------------------------------------------------------------------- */

/* What limits a tube of a frame: value, name as in files; the first four as rbow_governs. */
#define RBOW_FRAME_GOVERNS_LIST(X)                  \
    X(RBOW_FRAME_BY_COLUMN, "column")               \
    X(RBOW_FRAME_BY_YIELD, "yield")                 \
    X(RBOW_FRAME_BY_INTERACTION, "interaction")     \
    X(RBOW_FRAME_BY_NONE, "none")                   \
    X(RBOW_FRAME_BY_FRAME, "frame")
#define RBOW_FRAME_GOVERNS_ENUM(value, name) value,
typedef enum rbow_frame_governs { RBOW_FRAME_GOVERNS_LIST(RBOW_FRAME_GOVERNS_ENUM) RBOW_FRAME_GOVERNS_COUNT } rbow_frame_governs;
#undef RBOW_FRAME_GOVERNS_ENUM

/* A tube in a run. All doubles first. Values at load factors 0 and 1 are as built; NaN where there is no state. Only margin,
 * governs and the three factors follow the lower of as built and unforced. */
typedef struct rbow_frame_tube_result {
    double margin, margin_as_built, margin_unforced;
    double yield_factor, column_factor, interaction_factor;
    double path_end;               /* as built */
    double length, weight;         /* in, lb */
    double column_load;            /* lbf */
    double fit_axial;              /* lbf, compression positive, load factor 0 */
    double fit_moment, fit_stress; /* in-lbf, psi; load factor 0 */
    double axial, torque;          /* lbf, in-lbf; load factor 1 */
    double peak_moment, peak_moment_at, peak_stress, stress_use;
    double moment_a, moment_a_clock, moment_b, moment_b_clock; /* in-lbf >= 0; rad, of the convex side */
    double bow_clock_taken;        /* rad; NaN without a bow of unknown clock */
    double governs_at;             /* in; NaN where no place governs */
    int verdict;                   /* rbow_verdict */
    int governs;                   /* rbow_frame_governs */
    int fit_taken;                 /* rbow_frame_fit of the margin */
    unsigned remarks;              /* RBOW_REMARK_... bits */
    int near_buckling;             /* the run's critical factor is under 3 */
} rbow_frame_tube_result;

typedef struct rbow_frame_joint_result { /* load factor 1, as built; NaN without a state */
    double move[RBOW_AXES], turn[RBOW_AXES];
    double react[RBOW_MOTIONS];    /* lbf, in-lbf: what the support puts on the joint; 0 where nothing holds */
    double locked[RBOW_AXES];      /* in: movement at load factor 0 */
} rbow_frame_joint_result;

typedef struct rbow_frame_run_result {
    double margin, critical_factor, path_end;
    double weight;                 /* lb, of the tubes */
    double mass;                   /* lb, of tubes and joints */
    double centre[RBOW_AXES];      /* in, of mass */
    double move;                   /* in, largest movement of a joint at load factor 1 */
    size_t worst_tube, move_joint;
    int verdict, governs;          /* rbow_verdict, rbow_frame_governs of the worst tube */
} rbow_frame_run_result;

/* The check of every tube in one run.
 * Given:    solver, run
 * Returned: tubes, joints  one for each in the frame (joints may be NULL); whole (may be NULL)
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW; after a failure every number is NaN, every verdict short */
RBOW_API rbow_status rbow_frame_check(rbow_frame_solver *solver, const rbow_frame_run *run, rbow_frame_tube_result *tubes,
                                      rbow_frame_joint_result *joints, rbow_frame_run_result *whole);

/* The clocks to which the bows pointed in the states of the joints that the last check returned: where one is not known, that of
 * the side on which the margin of the run is lower. The opposite side is the other one that the check takes.
 * Given:    solver, after a check with joints
 * Returned: clocks  of every tube, rad; NaN without a bow */
RBOW_API void rbow_frame_bow_clocks(const rbow_frame_solver *solver, double *clocks);

typedef struct rbow_frame_lowest { /* the lowest margin of a run */
    double margin;     /* `most` where none is lower */
    double governs_at; /* in; NaN where no place governs */
    size_t tube;       /* tube_count where none is lower */
    int governs;       /* rbow_frame_governs */
    int fit_taken;     /* rbow_frame_fit */
} rbow_frame_lowest;

/* The margin of a run alone, several times faster than the check: load factors are searched no further than it asks.
 * Given:    solver, run; most > -1, INFINITY to ask for any margin: the search ends where the margin cannot fall below it
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW */
RBOW_API rbow_status rbow_frame_margin(rbow_frame_solver *solver, const rbow_frame_run *run, double most, rbow_frame_lowest *lowest);

/* From now on rbow_frame_margin and rbow_frame_details_margin judge these tubes and the details on them alone. The frame is still
 * solved whole. The check judges every tube as before.
 * Given:    solver; tubes  whether each is judged; NULL: all of them. It stays the caller's and must outlive the solver. */
RBOW_API void rbow_frame_judge_only(rbow_frame_solver *solver, const bool *tubes);

#ifdef __cplusplus
}
#endif

#endif
