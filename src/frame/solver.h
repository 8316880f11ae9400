/* A frame being solved: its tubes with all that does not depend on the state, and room for states. */
#ifndef RAILBOW_FRAME_SOLVER_H
#define RAILBOW_FRAME_SOLVER_H

#include "check/evaluate.h"
#include "frame/band.h"

#include <railbow/frame.h>

#include <stdbool.h>

enum { END_A, END_B, ENDS };
enum { STATES_KEPT = 8 };  /* states that the next one starts from */
enum { NODES = 9 };        /* states in a panel of the load factor; see panel.h */

typedef struct built_in { /* what does not grow with the load factor, as it is counted now */
    double slope[ENDS][PLANES]; /* rad, of the misses */
    double bow[PLANES];         /* as a share of the length */
    double gap;                 /* in */
} built_in;

typedef struct frame_tube {
    size_t joint[ENDS];
    double axis[RBOW_AXES];                    /* e_x, from A to B */
    double side[PLANES][RBOW_AXES];            /* e_up, e_right */
    double length, stretch, twist;             /* in; EA/L, lbf/in; GJ/L, in-lbf/rad, 0 with a pinned end */
    bool pinned;                               /* at both ends: joints that turn do not bend it */
    bool bow_unknown;                          /* its bow has no clock */
    double bow_clock;                          /* rad, as taken now */
    built_in whole, built;                     /* what counts on the present path; the share of it that counts now */
    prepared member;                           /* its section, ends, limits and stations */
    double spread[PLANES], point[PLANES];      /* of the run at load factor 1, relative as in beamcolumn_body.h */
    double spread_force[RBOW_AXES], point_force[RBOW_AXES], point_at; /* the same in lbf/in, lbf, in */
} frame_tube;

typedef struct known_state {
    double factor;
    double *motion; /* six for each joint */
} known_state;

typedef struct tube_state { /* of one tube in one state: all that its moments depend on */
    double axial, torque;               /* lbf, compression positive; in-lbf */
    double slope[ENDS][PLANES];         /* rad: of the joint against the chord */
} tube_state;

typedef struct tube_limits { /* of one tube on one path: its three load factors */
    double factor[RBOW_BY_NONE];   /* by rbow_governs; the path's end where that comes first */
    double at[RBOW_BY_NONE];       /* in; NaN where no place reaches the limit */
    bool found[RBOW_BY_NONE];      /* the limit, and not the path's end */
    int waits;                     /* the deepest division of the load factor that it waits for; see limits.c */
} tube_limits;

struct rbow_frame_solver {
    rbow_frame frame;
    size_t size;            /* unknowns */
    frame_tube *tubes;
    int *place;             /* six for each joint: of its motions among the unknowns; -1: held, or it does not exist */
    double *applied;        /* six for each joint: the run's loads on the joints at load factor 1 */
    double *balance;        /* six for each joint: what is not in balance in the last state that was looked at */
    double *axial;          /* of each tube in that state */
    double *motion, *change; /* six for each joint: the state that is sought, and the last step toward it */
    double *unknowns;       /* right side and solution */
    band stiffness, tangent;
    bool tangent_fits;      /* its factors stand for the neighbourhood of the present state */
    pivots of_tangent;
    double first_step;      /* the largest step from where the tangent was made to the state, as a share of the state */
    pivots at_rest;         /* of the tangent at load factor 0 */
    bool failed;            /* a number was none, or a search did not end */
    known_state known[STATES_KEPT]; /* good states of the present path; the first is that at load factor 0 */
    size_t known_count;
    tube_state *nodes[NODES];       /* of every tube */
    tube_limits *limits[2][2];      /* of every tube: side of the unknown bows; rbow_frame_fit */
    rbow_frame_tube_result *results[2]; /* of every tube, as built: side of the unknown bows */
    double *first_order[2];         /* axial forces of the misses and gaps, and of the run, to first order */
};

/* The motions of a joint in a list of all. */
static inline double *motions_of(double *all_motions, size_t joint)
{
    return &all_motions[joint * RBOW_MOTIONS];
}

static inline double dot3(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* The member that a tube of a frame is, without loads; an unknown bow clock is 0. */
rbow_member rbow_frame_member(const rbow_frame *frame, const rbow_frame_tube *tube);

#endif
