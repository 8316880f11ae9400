/* A member made ready: all that does not depend on the load factor, and its state at one load factor. */
#ifndef RAILBOW_ENGINE_FRAME_H
#define RAILBOW_ENGINE_FRAME_H

#include "engine/ends.h"
#include "engine/shapes.h"

#include <railbow/member.h>

#include <stdbool.h>

enum { ZONE_TUBE, ZONE_WELD }; /* what a place of the tube is made of */

typedef struct zone {
    rbow_section section;
    double compression_yield; /* psi, wall reduction included */
    double yield;
    /* what turns a state into stress, and stress into shares of yield; divided once, not at every load factor */
    double stress_per_moment, stress_per_axial, stress_per_torque; /* of m = M L/EI, lbf, in-lbf (times sqrt 3) */
    double share_pressed, share_pulled;                            /* per psi */
} zone;

enum {
    CELLS_MOST = 9, /* that the tube is looked at in, see frame.c */
    PIECES_MOST = 5, /* cut at two zone borders, a point load, a kink */
    SPOTS_BEHIND = 8, /* the last, which fill the widest vector */
    SPOTS_MOST = CELLS_MOST + 2 * PIECES_MOST + SPOTS_BEHIND
};

typedef struct piece { /* a stretch without a load inside, all of one zone; shares of the length */
    double from, to;
    double cell; /* between two of its spots */
    int zone;
    bool point, kink; /* what acts where it begins */
    int first, count; /* its spots: both ends and even steps between */
} piece;

typedef struct places { /* of all pieces' spots, side by side, see spot; 0 behind the last */
    double xi[SPOTS_MOST], sine[SPOTS_MOST], cosine[SPOTS_MOST], whole_sine[SPOTS_MOST], whole_cosine[SPOTS_MOST];
    double cell[SPOTS_MOST]; /* width of the cell that follows; 0 at the end of a piece */
} places;

typedef struct frame {
    rbow_member member; /* defaults resolved */
    zone zones[2];
    double bending_stiffness, unit; /* EI; EI/L */
    double wall_reduction;          /* of the tube, on the material's compression yield */
    double weld_reduction;          /* of the dressed tube; 1 without a weld zone */
    double stiffness_a, stiffness_b;
    double critical_load, column_stress, column_load;
    double weight;
    double tension; /* T0, locked in, lbf */
    bool has_point; /* a point load that the joints do not take */
    rbow_prepared ready; /* but for the load */
    loads run, built;    /* what grows with the load factor, and what does not */
    piece pieces[PIECES_MOST];
    int piece_count;
    places places;
} frame;

static inline spot frame_spot(const frame *f, const piece *p, int i)
{
    const places *all = &f->places;
    const int at = p->first + i;
    return (spot){all->xi[at], (p->from + p->to) / 2, all->sine[at], all->cosine[at], all->whole_sine[at], all->whole_cosine[at]};
}

static inline bool member_is_free(const rbow_member *m)
{
    return end_is(m->end_b, RBOW_FREE);
}

static inline double or_middle(double at, double length)
{
    return end_is(at, RBOW_UNSET) ? length / 2 : at;
}

/* What is wrong with a member, as rbow_member_faults. */
size_t frame_faults(const rbow_member *member, const rbow_material *material, rbow_status *faults, size_t most);

/* Given: a member without faults. Status: RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_OUT_OF_RANGE | RBOW_STRESS_OVERFLOW */
rbow_status frame_build(const rbow_member *member, const rbow_material *material, frame *f);

/* Whether a point load would act at a held joint, which takes it. */
bool frame_point_is_idle(const rbow_member *m);

/* The same member without misses and gap. */
frame frame_unforced(const frame *f);

/* Whether anything of it grows with the load factor. */
bool frame_runs(const frame *f);

/* Axial load at a load factor with a locked-in tension. */
static inline double frame_axial(const frame *f, double factor, double tension)
{
    return factor * f->member.compression - tension;
}

typedef struct state { /* equilibrium at one load factor */
    double axial, torque;
    rbow_prepared prepared;
    shares shares;
} state;

/* Given:    factor   load factor
 *           tension  locked-in tension to count, lbf
 * Status:   RBOW_OK | RBOW_UNSTABLE (axial not below critical_load) */
rbow_status frame_state(const frame *f, double factor, double tension, state *s);

#endif
