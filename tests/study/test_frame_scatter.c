/* Scatter and index of a frame: each sample against the whole check of the frame with the same numbers, parts against all. */
#include "near.h"

#include "study/frame_index.h"
#include "study/frame_scatter.h"
#include "study/points.h"

#include <railbow/frame.h>

#include <gsl/gsl_errno.h>
#include <math.h>
#include <string.h>

static const rbow_material steel = {
    .name = "steel", .wall_up_to = INFINITY, .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 75e3,
    .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
};

typedef struct bracket { /* a beam and a brace from a wall to one end, pushed down there, in two runs */
    rbow_frame_joint joints[3];
    rbow_frame_tube tubes[2];
    rbow_frame_load loads[2];
    rbow_frame_run runs[2];
    rbow_frame frame;
    frame_problem problem;
} bracket;

static void bracket_open(bracket *b, double bow)
{
    static const char *const materials[] = {"steel", "steel"};
    static const double places[][3] = {{0, 0, 0}, {0, 0, 24}, {30, 0, 24}};
    memset(b, 0, sizeof *b);
    for (size_t i = 0; i < 3; i++) {
        b->joints[i] = rbow_frame_joint_default();
        memcpy(b->joints[i].at, places[i], sizeof places[i]);
        b->joints[i].held = i < 2 ? RBOW_HELD_FIXED : RBOW_HELD_NONE;
    }
    for (size_t i = 0; i < 2; i++) {
        b->tubes[i] = rbow_frame_tube_default();
        b->tubes[i].from = 1 - i;
        b->tubes[i].to = 2;
        b->tubes[i].od = 1.25;
        b->tubes[i].wall = 0.058;
        b->tubes[i].material = &steel;
        b->tubes[i].bow = bow;
        b->tubes[i].bow_clock = 1;
        b->tubes[i].weld_zone = 1;
        b->loads[i] = rbow_frame_load_default();
        b->loads[i].acts_on = RBOW_ACTS_ON_JOINT;
        b->loads[i].index = 2;
        b->loads[i].force[RBOW_Z] = i == 0 ? -3000 : 1500;
        b->loads[i].force[RBOW_Y] = 200;
        b->runs[i] = (rbow_frame_run){&b->loads[i], 1, 1.5, RBOW_UNSET};
    }
    b->frame = (rbow_frame){b->joints, 3, b->tubes, 2};
    ck_assert(frame_problem_open(&b->problem, &b->frame, b->runs, 2, materials, &steel, 1));
}

/* The lowest margin by the check of every run in full. */
static double checked(const frame_problem *p)
{
    double lowest = INFINITY;
    for (size_t run = 0; run < p->run_count; run++) {
        rbow_frame_tube_result tubes[2];
        ck_assert_int_eq(frame_problem_check(p, run, tubes, NULL), RBOW_OK);
        for (size_t i = 0; i < p->tube_count; i++) lowest = fmin(lowest, tubes[i].margin);
    }
    return lowest;
}

#define OF_JOINT(row, member) {FRAME_JOINTS, row, offsetof(joint_row, joint.member)}
#define OF_TUBE(row, member) {FRAME_TUBES, row, offsetof(frame_tube_row, tube.member)}

static const frame_tolerance spread[] = {
    {OF_JOINT(2, at[RBOW_X]), {.nominal = 30, .minus = 0.5, .plus = 0.5}},
    {OF_TUBE(0, wall), {.nominal = 0.058, .minus = 0.006, .plus = 0.006}},
    {OF_TUBE(1, bow), {.nominal = 0.05, .minus = 0.05, .plus = 0.1, .shape = TOLERANCE_TRIANGULAR}},
};
enum { SPREAD = sizeof spread / sizeof *spread, SAMPLES = 40 };

static frame_scatter_answer run(const bracket *b, size_t before, size_t samples, int jobs)
{
    frame_scatter_answer a;
    const frame_scatter_question q = {.tolerances = spread, .count = SPREAD, .before = before, .samples = samples, .seed = 3, .jobs = jobs};
    ck_assert_int_eq(frame_scatter_run(&b->problem, &q, &a), SCATTER_OK);
    return a;
}

START_TEST(each_sample_is_the_check_of_the_changed_frame)
{
    bracket b;
    points drawn;
    size_t shorts = 0, worst[2] = {0, 0};
    bracket_open(&b, 0.05);
    frame_scatter_answer a = run(&b, 0, SAMPLES, 1);
    ck_assert(points_open(&drawn, SPREAD, 3));
    for (size_t i = 0; i < SAMPLES; i++) {
        double point[SPREAD];
        frame_problem changed;
        points_draw(&drawn, point);
        ck_assert(frame_problem_copy(&changed, &b.problem));
        changed.joints[2].at[RBOW_X] = 30 + tolerance_deviation(&spread[0].range, point[0]);
        changed.tubes[0].wall = 0.058 + tolerance_deviation(&spread[1].range, point[1]);
        changed.tubes[1].bow = 0.05 + tolerance_deviation(&spread[2].range, point[2]);
        ck_assert_int_eq(a.samples[i].status, RBOW_OK);
        near_within(a.samples[i].lowest.lowest.margin, checked(&changed), 1e-6, 1e-7);
        shorts += a.samples[i].lowest.lowest.margin < 0;
        worst[a.samples[i].lowest.lowest.tube]++;
        frame_problem_close(&changed);
    }
    ck_assert_uint_eq(a.tally.shorts, shorts);
    ck_assert_uint_eq(a.worst[0], worst[0]);
    ck_assert_uint_eq(a.worst[1], worst[1]);
    points_close(&drawn);
    frame_scatter_free(&a);
    frame_problem_close(&b.problem);
}
END_TEST

START_TEST(parts_and_threads_give_the_same)
{
    bracket b;
    bracket_open(&b, 0.05);
    frame_scatter_answer all = run(&b, 0, SAMPLES, 1), threads = run(&b, 0, SAMPLES, 3), rest = run(&b, 15, SAMPLES - 15, 2);
    for (size_t i = 0; i < SAMPLES; i++) {
        const double margin = all.samples[i].lowest.lowest.margin;
        ck_assert(memcmp(&threads.samples[i].lowest.lowest.margin, &margin, sizeof margin) == 0);
        if (i >= 15) ck_assert(memcmp(&rest.samples[i - 15].lowest.lowest.margin, &margin, sizeof margin) == 0);
    }
    frame_scatter_free(&all);
    frame_scatter_free(&threads);
    frame_scatter_free(&rest);
    frame_problem_close(&b.problem);
}
END_TEST

/* The best of a grid of all clocks 10 degrees apart is no better than what the descent finds: two bows and a frame whose margin has
 * one top. */
START_TEST(index_against_a_grid)
{
    enum { GRID = 36 };
    const double step = 2 * 3.14159265358979323846 / GRID;
    bracket b;
    bracket_open(&b, 0.15);
    frame_index_answer a;
    const frame_index_question q = {.jobs = 2};
    ck_assert_int_eq(frame_index_find(&b.problem, &q, &a), RBOW_OK);
    near_within(a.before.lowest.margin, checked(&b.problem), 1e-6, 1e-7);
    double best = -INFINITY;
    for (size_t i = 0; i < GRID; i++) {
        for (size_t k = 0; k < GRID; k++) {
            frame_lowest lowest;
            b.problem.tubes[0].bow_clock = step * (double)i;
            b.problem.tubes[1].bow_clock = step * (double)k;
            ck_assert_int_eq(frame_problem_margin(&b.problem, INFINITY, &lowest), RBOW_OK);
            best = fmax(best, lowest.lowest.margin);
        }
    }
    ck_assert_msg(a.after.lowest.margin > best - 2e-4, "%g %g", a.after.lowest.margin, best);
    ck_assert(a.after.lowest.margin > a.before.lowest.margin + 0.01);
    ck_assert_uint_eq(a.count, 2);
    double gained = 0;
    for (size_t i = 0; i < a.count; i++) {
        b.problem.tubes[a.turns[i].tube].bow_clock = a.turns[i].best;
        gained += a.turns[i].gained;
    }
    near_within(a.after.lowest.margin, checked(&b.problem), 1e-6, 1e-7); /* the clocks that are told give it */
    near_within(gained, a.after.lowest.margin - a.before.lowest.margin, 0, 1e-12);
    frame_index_free(&a);
    frame_problem_close(&b.problem);
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, each_sample_is_the_check_of_the_changed_frame);
    tcase_add_test(cases, parts_and_threads_give_the_same);
    tcase_add_test(cases, index_against_a_grid);
}

int main(void)
{
    return run_tests("scatter and index of a frame", fill);
}
