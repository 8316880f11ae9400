/* Building frames in tests. */
#ifndef RAILBOW_TESTS_FRAME_FRAMES_H
#define RAILBOW_TESTS_FRAME_FRAMES_H

#include "near.h"

#include <railbow/frame.h>

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { JOINTS_MOST = 40, TUBES_MOST = 80, LOADS_MOST = 40 };
enum { IN_PLANE = RBOW_HELD_Y | RBOW_HELD_RX | RBOW_HELD_RZ }; /* free in the x-z plane alone */

static const rbow_material steel = {.name = "steel", .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 75e3,
                                    .compression_yield = 75e3, .ultimate = NAN, .weld_yield = 60e3, .column_intercept = 79.5e3,
                                    .column_curve = RBOW_CURVE_JOHNSON, .wall_up_to = INFINITY};

typedef struct built { /* a frame, a run on it, and the solver */
    rbow_frame_joint joints[JOINTS_MOST];
    rbow_frame_tube tubes[TUBES_MOST];
    rbow_frame_load loads[LOADS_MOST];
    rbow_frame frame;
    rbow_frame_run run;
    void *memory;
    rbow_frame_solver *solver;
    rbow_frame_loose loose;
    rbow_frame_tube_result tube[TUBES_MOST];
    rbow_frame_joint_result joint[JOINTS_MOST];
    rbow_frame_run_result whole;
} built;

static inline void begin(built *b)
{
    memset(b, 0, sizeof *b);
    b->run.factor = 1.5;
    b->run.factor_yield = RBOW_UNSET;
}

static inline size_t add_joint(built *b, double x, double y, double z, unsigned held)
{
    rbow_frame_joint *j = &b->joints[b->frame.joint_count];
    *j = rbow_frame_joint_default();
    j->at[RBOW_X] = x;
    j->at[RBOW_Y] = y;
    j->at[RBOW_Z] = z;
    j->held = held;
    return b->frame.joint_count++;
}

static inline rbow_frame_tube *add_tube(built *b, size_t from, size_t to, double od, double wall, const rbow_material *material)
{
    rbow_frame_tube *t = &b->tubes[b->frame.tube_count++];
    *t = rbow_frame_tube_default();
    t->from = from;
    t->to = to;
    t->od = od;
    t->wall = wall;
    t->material = material;
    t->bow_clock = 0;
    return t;
}

static inline void pin(rbow_frame_tube *t)
{
    t->end_a = t->end_b = RBOW_PINNED;
}

static inline rbow_frame_load *push_joint(built *b, size_t joint, double x, double y, double z)
{
    rbow_frame_load *l = &b->loads[b->run.load_count++];
    *l = rbow_frame_load_default();
    l->acts_on = RBOW_ACTS_ON_JOINT;
    l->index = joint;
    l->force[RBOW_X] = x;
    l->force[RBOW_Y] = y;
    l->force[RBOW_Z] = z;
    return l;
}

static inline rbow_status open_frame(built *b)
{
    b->frame.joints = b->joints;
    b->frame.tubes = b->tubes;
    b->run.loads = b->loads;
    ck_assert_uint_eq(rbow_frame_faults(&b->frame, NULL, 0), 0);
    free(b->memory);
    b->memory = malloc(rbow_frame_memory(&b->frame));
    ck_assert_ptr_nonnull(b->memory);
    return rbow_frame_open(&b->frame, b->memory, &b->solver, &b->loose);
}

static inline void solve(built *b)
{
    ck_assert_int_eq(open_frame(b), RBOW_OK);
    ck_assert_uint_eq(rbow_frame_run_faults(&b->frame, &b->run, NULL, 0), 0);
    ck_assert_int_eq(rbow_frame_check(b->solver, &b->run, b->tube, b->joint, &b->whole), RBOW_OK);
}

static inline void end(built *b)
{
    free(b->memory);
}

/* The wall that gives a tube of this OD an area. */
static inline double wall_for_area(double od, double area)
{
    return (od - sqrt(od * od - 4 * area / 3.14159265358979323846)) / 2;
}

#endif
