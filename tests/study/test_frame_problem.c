/* The lowest margin of a frame's problem: that of the full check over all runs, whatever was changed. */
#include "near.h"

#include "study/frame_problem.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

enum { JOINTS = 12, TUBES = 20, LOADS = 5, RUNS = 3, CHANGES = 30 };

/* Round numbers, no table's; the second serves walls from 0.06 on. */
static const rbow_material steels[] = {
    {.name = "steel", .wall_up_to = 0.06, .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 75e3,
     .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
     .source = ""},
    {.name = "steel", .wall_over = 0.06, .wall_up_to = 0.12, .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 70e3,
     .compression_yield = 70e3, .ultimate = 95e3, .weld_yield = 55e3, .column_intercept = 75e3, .column_curve = RBOW_CURVE_JOHNSON,
     .source = ""},
};

typedef struct sample { /* two bays of four rails: square sections, diagonals on the sides */
    rbow_frame_joint joints[JOINTS];
    rbow_frame_tube tubes[TUBES];
    rbow_frame_load loads[LOADS];
    rbow_frame_run runs[RUNS];
    rbow_frame frame;
    const char *materials[TUBES];
} sample;

static void add_tube(sample *s, size_t from, size_t to)
{
    rbow_frame_tube *t = &s->tubes[s->frame.tube_count];
    *t = rbow_frame_tube_default();
    t->from = from;
    t->to = to;
    t->od = 1.25;
    t->wall = 0.058;
    t->material = &steels[0];
    t->bow = 0.03;
    t->bow_clock = RBOW_ANY_CLOCK;
    s->materials[s->frame.tube_count++] = "steel";
}

static void build(sample *s)
{
    memset(s, 0, sizeof *s);
    for (size_t i = 0; i < JOINTS; i++) {
        rbow_frame_joint *j = &s->joints[s->frame.joint_count++];
        *j = rbow_frame_joint_default();
        j->at[RBOW_X] = 26 * (double)(i / 4);
        j->at[RBOW_Y] = i % 4 < 2 ? 10 : -10;
        j->at[RBOW_Z] = i % 2 == 0 ? 4 : 20;
        j->held = i < 4 ? RBOW_HELD_FIXED : RBOW_HELD_NONE;
    }
    for (size_t bay = 0; bay < 8; bay += 4) {
        for (size_t i = 0; i < 4; i++) add_tube(s, bay + i, bay + 4 + i);
        add_tube(s, bay, bay + 5);
        add_tube(s, bay + 2, bay + 7);
        add_tube(s, bay + 1, bay + 7);
        add_tube(s, bay + 4, bay + 5);
        add_tube(s, bay + 5, bay + 7);
        add_tube(s, bay + 7, bay + 6);
    }
    s->tubes[0].miss_a = 0.1;
    s->tubes[0].miss_a_clock = 0;
    s->frame.joints = s->joints;
    s->frame.tubes = s->tubes;
    const double forces[LOADS][3] = {{-4000, 0, 0}, {-2000, 300, 900}, {0, 0, 2500}, {0, -900, 400}, {0, 0, 0}};
    for (size_t i = 0; i < LOADS; i++) {
        s->loads[i] = rbow_frame_load_default();
        s->loads[i].acts_on = i == 4 ? RBOW_ACTS_ON_ALL : RBOW_ACTS_ON_JOINT;
        s->loads[i].index = i == 4 ? 0 : 8 + i % 4;
        for (int axis = 0; axis < 3; axis++) s->loads[i].force[axis] = forces[i][axis];
    }
    s->loads[4].vertical_g = 3;
    s->runs[0] = (rbow_frame_run){s->loads, 2, 1.5, RBOW_UNSET};
    s->runs[1] = (rbow_frame_run){s->loads + 2, 1, 1.5, 1.25};
    s->runs[2] = (rbow_frame_run){s->loads + 3, 2, 1.5, RBOW_UNSET};
}

static void open_problem(frame_problem *p, sample *s)
{
    build(s);
    ck_assert(frame_problem_open(p, &s->frame, s->runs, RUNS, s->materials, steels, 2));
}

/* The lowest of the full check. */
static frame_lowest by_check(const frame_problem *p)
{
    frame_lowest lowest = {.lowest = {.margin = INFINITY, .tube = p->tube_count}};
    rbow_frame_tube_result tubes[TUBES];
    rbow_frame_run_result whole;
    for (size_t run = 0; run < p->run_count; run++) {
        ck_assert_int_eq(frame_problem_check(p, run, tubes, &whole), RBOW_OK);
        for (size_t i = 0; i < p->tube_count; i++) {
            if (!(tubes[i].margin < lowest.lowest.margin)) continue;
            lowest.lowest.margin = tubes[i].margin;
            lowest.lowest.tube = i;
            lowest.lowest.governs = tubes[i].governs;
            lowest.run = run;
        }
    }
    return lowest;
}

/* The margin of each tube alone: the lowest of its results in full. */
static void ck_tubes(const frame_problem *p)
{
    double want[TUBES], got;
    rbow_frame_tube_result tubes[TUBES];
    rbow_frame_run_result whole;
    for (size_t i = 0; i < TUBES; i++) want[i] = INFINITY;
    for (size_t run = 0; run < p->run_count; run++) {
        ck_assert_int_eq(frame_problem_check(p, run, tubes, &whole), RBOW_OK);
        for (size_t i = 0; i < p->tube_count; i++) want[i] = fmin(want[i], tubes[i].margin);
    }
    for (size_t i = 0; i < p->tube_count; i++) {
        ck_assert_int_eq(frame_problem_tube_margin(p, i, INFINITY, &got), RBOW_OK);
        near_within(1 + got, 1 + want[i], 1e-6, 1e-7);
        ck_assert_int_eq(frame_problem_tube_margin(p, i, want[i] - 1e-4, &got), RBOW_OK);
        near_within(got, want[i] - 1e-4, 0, 1e-12);
    }
}

static void ck_same(const frame_problem *p)
{
    frame_lowest got;
    size_t short_run;
    const frame_lowest want = by_check(p);
    ck_assert_int_eq(frame_problem_margin(p, INFINITY, &got), RBOW_OK);
    near_within(got.lowest.margin, want.lowest.margin, 1e-6, 1e-7);
    ck_assert_uint_eq(got.lowest.tube, want.lowest.tube);
    ck_assert_uint_eq(got.run, want.run);
    ck_assert_int_eq(got.lowest.governs, want.lowest.governs);
    for (size_t first = 0; first < RUNS; first++) {
        ck_assert_int_eq(frame_problem_holds(p, want.lowest.margin + 1e-5, first, &short_run), RBOW_OK);
        ck_assert_uint_lt(short_run, RUNS);
        ck_assert_int_eq(frame_problem_holds(p, want.lowest.margin - 1e-5, first, &short_run), RBOW_OK);
        ck_assert_uint_eq(short_run, RUNS);
    }
}

START_TEST(any_change)
{
    static const struct {
        int table;
        size_t rows, offset;
        double low, high;
    } columns[] = {
        {FRAME_TUBES, TUBES, offsetof(frame_tube_row, tube.wall), 0.035, 0.12},
        {FRAME_TUBES, TUBES, offsetof(frame_tube_row, tube.od), 0.9, 1.6},
        {FRAME_TUBES, TUBES, offsetof(frame_tube_row, tube.bow), 0, 0.2},
        {FRAME_TUBES, TUBES, offsetof(frame_tube_row, tube.gap), -0.02, 0.02},
        {FRAME_TUBES, TUBES, offsetof(frame_tube_row, tube.end_a), 0, 4e5},
        {FRAME_JOINTS, JOINTS, offsetof(joint_row, joint.mass), 0, 80},
        {FRAME_JOINTS, JOINTS, offsetof(joint_row, joint.at[RBOW_Z]), 4, 20},
        {FRAME_LOADS, 4, offsetof(frame_load_row, load.force[RBOW_Z]), -3000, 3000},
    };
    gsl_rng *dice = gsl_rng_alloc(gsl_rng_mt19937);
    sample s;
    frame_problem p;
    open_problem(&p, &s);
    ck_same(&p);
    p.first_run = 2;
    ck_tubes(&p);
    p.first_run = 0;
    for (size_t i = 0; i < CHANGES; i++) {
        const size_t k = gsl_rng_uniform_int(dice, sizeof columns / sizeof *columns);
        const frame_parameter at = {columns[k].table, gsl_rng_uniform_int(dice, columns[k].rows), columns[k].offset};
        const double value = columns[k].low + gsl_rng_uniform(dice) * (columns[k].high - columns[k].low);
        const double before = frame_parameter_get(&p, at);
        frame_problem other;
        ck_assert(frame_problem_copy(&other, &p));
        other.first_run = i % RUNS;
        ck_assert_int_eq(frame_parameter_set(&other, at, value), RBOW_OK);
        near_within(frame_parameter_get(&other, at), value, 0, 0);
        ck_assert(!(frame_parameter_get(&p, at) < before) && !(frame_parameter_get(&p, at) > before)); /* may be infinite */
        ck_same(&other);
        frame_problem_close(&other);
    }
    frame_problem_close(&p);
    gsl_rng_free(dice);
}
END_TEST

/* A wall takes the material's row along; faults and walls that nothing serves are told. */
START_TEST(what_it_refuses)
{
    sample s;
    frame_problem p;
    frame_lowest lowest;
    open_problem(&p, &s);
    const frame_parameter wall = {FRAME_TUBES, 2, offsetof(frame_tube_row, tube.wall)};
    ck_assert_int_eq(frame_problem_fault(&p), RBOW_OK);
    ck_assert_int_eq(frame_parameter_set(&p, wall, 0.08), RBOW_OK);
    ck_assert_ptr_eq(p.tubes[2].material, &steels[1]);
    ck_assert_int_eq(frame_parameter_set(&p, wall, 0.2), RBOW_WALL_NOT_SERVED);
    ck_assert_int_eq(frame_parameter_set(&p, wall, 0.058), RBOW_OK);
    ck_assert_ptr_eq(p.tubes[2].material, &steels[0]);
    ck_assert_int_eq(frame_parameter_set(&p, (frame_parameter){FRAME_TUBES, 2, offsetof(frame_tube_row, tube.od)}, 0.1), RBOW_OK);
    ck_assert_int_ne(frame_problem_fault(&p), RBOW_OK);
    ck_assert_int_eq(frame_problem_margin(&p, INFINITY, &lowest), frame_problem_fault(&p));
    frame_problem_close(&p);
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, any_change);
    tcase_add_test(cases, what_it_refuses);
}

int main(void)
{
    return run_tests("frame_problem", fill);
}
