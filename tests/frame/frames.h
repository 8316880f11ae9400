/* Frames for tests: put together joint by joint, and solved in memory of their own. */
#ifndef TESTS_FRAME_FRAMES_H
#define TESTS_FRAME_FRAMES_H

#include "near.h"

#include <railbow/frame.h>

#include <stdlib.h>
#include <string.h>

/* Made up for the tests, with values like normalized tube's. */
static const rbow_material steel = {
    .name = "steel", .wall_over = -INFINITY, .wall_up_to = INFINITY, .elastic_modulus = 29e6, .shear_modulus = 11e6,
    .density = 0.283, .yield = 75e3, .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3,
    .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON, .source = "test",
};

enum { JOINTS_MOST = 2400, TUBES_MOST = 7200, LOADS_MOST = 64 };

typedef struct structure {
    rbow_frame_joint joints[JOINTS_MOST];
    rbow_frame_tube tubes[TUBES_MOST];
    rbow_frame_load loads[LOADS_MOST];
    rbow_frame frame;
    rbow_frame_run run;
    rbow_frame_solver *solver;
    void *memory;
} structure;

static inline structure *new_structure(void)
{
    structure *s = calloc(1, sizeof *s);
    s->frame = (rbow_frame){s->joints, 0, s->tubes, 0};
    s->run = (rbow_frame_run){s->loads, 0, 1.5, RBOW_UNSET};
    return s;
}

static inline void free_structure(structure *s)
{
    free(s->memory);
    free(s);
}

static inline size_t add_joint(structure *s, double x, double y, double z, unsigned held)
{
    rbow_frame_joint *j = &s->joints[s->frame.joint_count];
    *j = rbow_frame_joint_default();
    j->at[0] = x;
    j->at[1] = y;
    j->at[2] = z;
    j->held = held;
    return s->frame.joint_count++;
}

static inline rbow_frame_tube *add_tube(structure *s, size_t from, size_t to, double od, double wall)
{
    rbow_frame_tube *t = &s->tubes[s->frame.tube_count++];
    *t = rbow_frame_tube_default();
    t->from = from;
    t->to = to;
    t->od = od;
    t->wall = wall;
    t->material = &steel;
    t->weld_zone = 0;
    t->bow_clock = t->miss_a_clock = t->miss_b_clock = 0;
    return t;
}

static inline rbow_frame_tube *add_pinned_tube(structure *s, size_t from, size_t to, double od, double wall)
{
    rbow_frame_tube *t = add_tube(s, from, to, od, wall);
    t->end_a = t->end_b = RBOW_PINNED;
    return t;
}

static inline rbow_frame_load *add_load(structure *s, int acts_on, size_t index)
{
    rbow_frame_load *l = &s->loads[s->run.load_count++];
    *l = rbow_frame_load_default();
    l->acts_on = acts_on;
    l->index = index;
    return l;
}

static inline rbow_frame_load *push_joint(structure *s, size_t joint, double x, double y, double z)
{
    rbow_frame_load *l = add_load(s, RBOW_ACTS_ON_JOINT, joint);
    l->force[0] = x;
    l->force[1] = y;
    l->force[2] = z;
    return l;
}

static inline rbow_status open_structure(structure *s, rbow_frame_loose *loose)
{
    free(s->memory);
    s->memory = malloc(rbow_frame_memory(&s->frame));
    return rbow_frame_open(&s->frame, s->memory, &s->solver, loose);
}

/* Opened, which must succeed. */
static inline void ready(structure *s)
{
    rbow_frame_fault fault = {RBOW_OK, 0, 0};
    rbow_frame_faults(&s->frame, &fault, 1);
    ck_assert_msg(fault.status == RBOW_OK, "fault %d of part %d, %zu", fault.status, fault.part, fault.index);
    rbow_frame_run_faults(&s->frame, &s->run, &fault, 1);
    ck_assert_msg(fault.status == RBOW_OK, "fault %d of part %d, %zu", fault.status, fault.part, fault.index);
    ck_assert_int_eq(open_structure(s, NULL), RBOW_OK);
}

typedef struct checked {
    rbow_frame_tube_result *tubes;
    rbow_frame_joint_result *joints;
    rbow_frame_run_result whole;
} checked;

static inline checked check_structure(structure *s)
{
    checked c = {calloc(s->frame.tube_count, sizeof *c.tubes), calloc(s->frame.joint_count, sizeof *c.joints), {.margin = 0}};
    ready(s);
    ck_assert_int_eq(rbow_frame_check(s->solver, &s->run, c.tubes, c.joints, &c.whole), RBOW_OK);
    return c;
}

static inline void free_checked(checked *c)
{
    free(c->tubes);
    free(c->joints);
}

/* A tube whose section has nearly the area and the inertia that are asked for cannot have any: what a test takes from it. */
static inline rbow_section section_of(double od, double wall)
{
    rbow_section s;
    rbow_section_of(od, wall, &s);
    return s;
}

#endif
