/* A frame being solved: its tubes with all that does not depend on the state, and room for one state. */
#ifndef RAILBOW_FRAME_SOLVER_H
#define RAILBOW_FRAME_SOLVER_H

#include "check/evaluate.h"

#include <railbow/frame.h>

#include <gsl/gsl_matrix.h>
#include <gsl/gsl_vector.h>
#include <gsl/gsl_vector_uint.h>
#include <math.h>
#include <stdbool.h>

enum { STATES = 17, MIX = 5, ROWS = STATES + 2 * MIX }; /* states that a solver keeps; steps that it mixes, see state.c */
enum { END_A, END_B, ENDS, ELEMENT = ENDS * RBOW_MOTIONS }; /* an element's motions: those of A, then those of B */

typedef struct frame_tube {
    size_t joint[ENDS];
    double axis[RBOW_AXES];                   /* e_x, from A to B */
    double side[PLANES][RBOW_AXES];           /* e_up, e_right */
    double turn_axis[PLANES][RBOW_AXES];      /* a turn about it is a slope toward that side: e_right, -e_up */
    double length, stretch, twist;            /* in; EA/L, lbf/in; GJ/L, in-lbf/rad, 0 with a pinned end */
    double slope[ENDS][PLANES];               /* of the misses */
    double gap;                               /* in */
    double bow[PLANES];                       /* as taken now, as a share of the length */
    bool bow_unknown;
    prepared member;                          /* its ends, limits and stations */
    double couple_axial;                      /* the axial force of the couples below; NaN for none */
    double couple[ENDS][ENDS];                /* in-lbf/rad: of an end, for the slope theta - psi of an end; the same in both planes */
    double spread[PLANES], point[PLANES];     /* of the run at load factor 1: lbf/in, lbf */
    double point_at;                          /* in */
    double along[ENDS];                       /* lbf at each end: what acts along the tube, by the lever rule */
} frame_tube;

enum { FRAME_YIELD = LIMIT_YIELD, FRAME_INTERACTION = LIMIT_INTERACTION, FRAME_COLUMN, FRAME_LIMITS };

typedef struct frame_reached { /* by one tube on one path */
    double factor[FRAME_LIMITS]; /* load factor of the first crossing; INFINITY where the path does not reach it */
    double at[FRAME_LIMITS];     /* in from A; NaN for the column */
    double last[FRAME_LIMITS];   /* utilisation at the last load factor searched */
} frame_reached;

/* A place of one tube whose own two levels are searched beside the limits of the tubes. The first is held against the factor asked of
 * yield, the second against that asked of the run: they stand where FRAME_YIELD and FRAME_INTERACTION do. */
typedef struct frame_follower {
    size_t tube;
    double at;     /* in from A */
    bool has[LIMITS]; /* which of the levels are there */
    double weight; /* by how much more its levels rise than the yield of the tube, per any of what acts; >= 1 */
    void (*levels)(const void *of, const rbow_section_forces *f, double level[LIMITS]);
    const void *of;
    frame_reached reached; /* as of the tubes */
} frame_follower;

struct rbow_frame_solver {
    frame_follower *followers; /* set by who searches, NULL before and after */
    size_t follower_count;
    bool follows_only;         /* the limits of the tubes are not searched */
    const bool *judged;        /* of each tube: whether its limits are searched; the caller's, or alone; NULL: all */
    rbow_frame frame;
    frame_tube *tubes;
    const rbow_frame_run *run;
    double fit;          /* share of misses and gaps that counts: 1 as built, 0 unforced */
    double bows;         /* share of the bows that counts */
    int *place;          /* six for each joint: of its motions among the unknowns, -1 for those that are held or do not exist */
    size_t count, band;  /* unknowns; most that two of one tube are apart */
    gsl_matrix stiffness; /* count rows of band + 1: the diagonal and what lies below it in its column */
    bool decomposed;      /* the stiffness is, and positive definite */
    bool measured;        /* each state solved has its modes and the determinants below asked for */
    double log_stiffness, log_tangent; /* logarithms of the determinants last decomposed */
    double sure_below;    /* load factor up to which the path is known to go on */
    double *unloaded;     /* the stiffness without axial forces, decomposed */
    gsl_matrix tangent;   /* count rows of 3 band + 1: columns, as gsl_linalg_LU_band_decomp has them */
    gsl_vector_uint pivots;
    gsl_vector step;      /* right side, then solution */
    double *applied;      /* six for each joint: loads of the run on the joints at load factor 1 */
    double *axial;        /* of each tube, lbf, compression positive: those of the state last solved */
    frame_reached *reached; /* of each tube, on the path last searched; the critical factor uses it too */
    double *sides;  /* of each tube with a bow of unknown clock: that of the side to which it moves */
    rbow_frame_tube_result *other_side; /* of each tube, with these bows turned to the opposite side */
    bool *alone;          /* of each tube: true for the one of which the margin is asked */
    double *rest;         /* unknowns: the state at load factor 0 */
    double *rows;         /* ROWS times the unknowns: states that are kept; see path.h */
};

/* The motion of a joint in a set of unknowns; 0 where it is held. */
static inline double motion_of(const rbow_frame_solver *s, const double *unknowns, size_t joint, int motion)
{
    const int place = s->place[joint * RBOW_MOTIONS + (size_t)motion];
    return place < 0 ? 0 : unknowns[place];
}

static inline double dot3(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static inline double factor_yield_of(const rbow_frame_run *run)
{
    return end_is(run->factor_yield, RBOW_UNSET) ? run->factor : run->factor_yield;
}

static inline double largest_required(const rbow_frame_run *run)
{
    return fmax(run->factor, factor_yield_of(run));
}

/* Whether the limits of a tube and of its followers are searched. */
static inline bool is_judged(const rbow_frame_solver *s, size_t tube)
{
    return s->judged == NULL || s->judged[tube];
}

/* Row i of the states that are kept. */
static inline double *row_of(const rbow_frame_solver *s, int i)
{
    return s->rows + (size_t)i * s->count;
}

/* As rbow_frame_open, of a frame that is part of a whole one: the same joints, fewer tubes, more that is held. A joint without a
 * tube must be held. It takes the order of the joints from the whole, so that the whole frame's memory is enough. */
rbow_status rbow_frame_open_part(const rbow_frame *part, const rbow_frame *whole, void *memory, rbow_frame_solver **solver,
                                 rbow_frame_loose *loose);

/* The loads of a run on joints and tubes at load factor 1. Status: RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_OUT_OF_RANGE */
rbow_status rbow_frame_set_run(rbow_frame_solver *s, const rbow_frame_run *run);

/* The directions of a tube: e_x, e_up, e_right of its `tube`, from its joints. */
void rbow_frame_set_directions(const rbow_frame *frame, const rbow_frame_tube *from, frame_tube *tube);

/* The member that a tube of a frame is, without loads; an unknown bow clock is 0. */
rbow_member rbow_frame_member(const rbow_frame *frame, const rbow_frame_tube *tube);

#endif
