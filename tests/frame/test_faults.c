/* What is wrong with a frame, a run or a question: every fault is named with the row that has it, and nothing is answered. */
#include "frame/frames.h"

#include <stddef.h>

enum { FAULTS_MOST = 20 };

typedef struct counted {
    rbow_frame_fault at[FAULTS_MOST];
    size_t count;
} counted;

/* A beam and its brace between two fixed joints and a free one: a push on the joint, a point load and a spread load on the
 * beam, and gravity. */
static void bracket(built *b)
{
    begin(b);
    const size_t low = add_joint(b, 0, 0, 0, RBOW_HELD_FIXED), high = add_joint(b, 0, 0, 20, RBOW_HELD_FIXED), tip = add_joint(b, 30, 0, 20, 0);
    add_tube(b, high, tip, 1.25, .058, &steel);
    add_tube(b, low, tip, 1, .049, &steel);
    push_joint(b, tip, 0, 0, -300);
    rbow_frame_load *point = push_joint(b, 0, 0, 0, -20), *all = push_joint(b, 0, 0, 0, 0);
    point->acts_on = RBOW_ACTS_ON_TUBE;
    all->acts_on = RBOW_ACTS_ON_ALL;
    all->vertical_g = 1;
    b->frame.joints = b->joints;
    b->frame.tubes = b->tubes;
    b->run.loads = b->loads;
}

static counted faults_of(const built *b)
{
    counted c = {.count = rbow_frame_faults(&b->frame, c.at, FAULTS_MOST)};
    c.count += rbow_frame_run_faults(&b->frame, &b->run, c.at + c.count, FAULTS_MOST - c.count);
    return c;
}

static bool has(const counted *c, rbow_status status, int part, size_t index)
{
    for (size_t i = 0; i < c->count; i++)
        if (c->at[i].status == status && c->at[i].part == part && c->at[i].index == index) return true;
    return false;
}

static void ck_only(const built *b, rbow_status status, int part, size_t index)
{
    const counted c = faults_of(b);
    ck_assert_uint_eq(c.count, 1);
    ck_assert_int_eq(c.at[0].status, status);
    ck_assert_int_eq(c.at[0].part, part);
    ck_assert_uint_eq(c.at[0].index, index);
}

static double *number_at(void *record, size_t offset)
{
    return (double *)(void *)((char *)record + offset);
}

typedef struct wrong_number { /* of the second tube */
    size_t offset;
    double value;
    rbow_status status;
} wrong_number;

#define OF_TUBE(member) offsetof(rbow_frame_tube, member)
#define OF_LOAD(member) offsetof(rbow_frame_load, member)

START_TEST(a_wrong_number_of_a_tube)
{
    static const wrong_number wrong[] = {
        {OF_TUBE(end_a), -1, RBOW_BAD_TUBE_END_A}, {OF_TUBE(end_a), NAN, RBOW_BAD_TUBE_END_A},
        {OF_TUBE(end_b), -1, RBOW_BAD_TUBE_END_B}, {OF_TUBE(end_b), NAN, RBOW_BAD_TUBE_END_B},
        {OF_TUBE(fixity), 0, RBOW_BAD_FIXITY}, {OF_TUBE(fixity), INFINITY, RBOW_BAD_FIXITY}, {OF_TUBE(fixity), NAN, RBOW_BAD_FIXITY},
        {OF_TUBE(od), 0, RBOW_BAD_OD}, {OF_TUBE(wall), 0.6, RBOW_BAD_WALL}, {OF_TUBE(wall), NAN, RBOW_BAD_WALL},
        {OF_TUBE(bow), -0.01, RBOW_BAD_BOW}, {OF_TUBE(gap), NAN, RBOW_NOT_FINITE}, {OF_TUBE(weld_zone), -0.5, RBOW_BAD_WELD_ZONE},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        built b;
        bracket(&b);
        *number_at(&b.tubes[1], wrong[i].offset) = wrong[i].value;
        ck_only(&b, wrong[i].status, RBOW_IN_TUBE, 1);
    }
}
END_TEST

/* A miss at an end that holds no moment, and a miss toward an unknown side: in a frame both have words of their own. */
START_TEST(a_miss_of_a_tube)
{
    static const rbow_status pinned[] = {RBOW_MISS_A_PINNED, RBOW_MISS_B_PINNED}, unknown[] = {RBOW_MISS_A_CLOCK, RBOW_MISS_B_CLOCK};
    for (int end = 0; end < 2; end++) {
        built b;
        bracket(&b);
        rbow_frame_tube *t = &b.tubes[1];
        *(end == 0 ? &t->miss_a : &t->miss_b) = .1;
        *(end == 0 ? &t->miss_a_clock : &t->miss_b_clock) = RBOW_ANY_CLOCK;
        counted c = faults_of(&b);
        ck_assert(has(&c, unknown[end], RBOW_IN_TUBE, 1));
        *(end == 0 ? &t->miss_a_clock : &t->miss_b_clock) = 0;
        ck_assert_uint_eq(faults_of(&b).count, 0);
        *(end == 0 ? &t->end_a : &t->end_b) = RBOW_PINNED;
        ck_only(&b, pinned[end], RBOW_IN_TUBE, 1);
    }
}
END_TEST

START_TEST(the_joints_of_a_tube)
{
    built b;
    bracket(&b);
    b.tubes[1].from = 3;
    counted c = faults_of(&b);
    ck_assert_uint_eq(c.count, 2);
    ck_assert(has(&c, RBOW_NO_SUCH_JOINT, RBOW_IN_TUBE, 1) && has(&c, RBOW_JOINT_ALONE, RBOW_IN_JOINT, 0));
    bracket(&b);
    b.tubes[1].to = 99;
    ck_only(&b, RBOW_NO_SUCH_JOINT, RBOW_IN_TUBE, 1);
    bracket(&b);
    b.tubes[1].to = b.tubes[1].from;
    ck_only(&b, RBOW_TUBE_TO_ITSELF, RBOW_IN_TUBE, 1);
    bracket(&b);
    memcpy(b.joints[0].at, b.joints[2].at, sizeof b.joints[0].at);
    ck_only(&b, RBOW_TUBE_NO_LENGTH, RBOW_IN_TUBE, 1);
    bracket(&b);
    b.tubes[1].material = NULL;
    ck_only(&b, RBOW_BAD_MATERIAL, RBOW_IN_TUBE, 1);
}
END_TEST

START_TEST(a_wrong_joint)
{
    static const double no_mass[] = {-1, NAN, INFINITY};
    built b;
    for (size_t i = 0; i < 3; i++) {
        bracket(&b);
        b.joints[1].mass = no_mass[i];
        ck_only(&b, RBOW_BAD_MASS, RBOW_IN_JOINT, 1);
    }
    bracket(&b);
    b.joints[0].held = RBOW_HELD_FIXED + 1;
    ck_only(&b, RBOW_BAD_HELD, RBOW_IN_JOINT, 0);
    bracket(&b);
    add_joint(&b, 1, 2, 3, RBOW_HELD_FIXED);
    ck_only(&b, RBOW_JOINT_ALONE, RBOW_IN_JOINT, 3);
    for (int axis = 0; axis < RBOW_AXES; axis++) { /* the tubes that end there have no length; the free joint ends both */
        bracket(&b);
        b.joints[axis].at[axis] = axis == 1 ? INFINITY : NAN;
        const counted c = faults_of(&b);
        const size_t tubes = axis == 2 ? 2 : 1;
        ck_assert_uint_eq(c.count, 1 + tubes);
        ck_assert(has(&c, RBOW_BAD_JOINT_PLACE, RBOW_IN_JOINT, (size_t)axis) && has(&c, RBOW_BAD_JOINT_PLACE, RBOW_IN_TUBE, axis == 0 ? 1 : 0));
    }
}
END_TEST

START_TEST(no_frame)
{
    built b;
    bracket(&b);
    b.frame.tube_count = 0;
    counted c = {.count = rbow_frame_faults(&b.frame, c.at, FAULTS_MOST)};
    ck_assert(c.count == 4 && has(&c, RBOW_NO_FRAME, RBOW_IN_FRAME, 0) && has(&c, RBOW_JOINT_ALONE, RBOW_IN_JOINT, 2));
    b.frame.joint_count = 0;
    ck_assert_uint_eq(rbow_frame_faults(&b.frame, c.at, FAULTS_MOST), 1);
    ck_assert_int_eq(c.at[0].status, RBOW_NO_FRAME);
}
END_TEST

/* ---- the run --------------------------------------------------------------------------------------------- */

START_TEST(a_wrong_number_of_a_load)
{
    static const size_t numbers[] = {OF_LOAD(force[0]), OF_LOAD(force[1]), OF_LOAD(force[2]), OF_LOAD(moment[0]), OF_LOAD(moment[2]),
                                     OF_LOAD(spread[1]), OF_LOAD(spread[2]), OF_LOAD(vertical_g), OF_LOAD(forward_g), OF_LOAD(left_g)};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        for (int k = 0; k < 2; k++) {
            built b;
            bracket(&b);
            *number_at(&b.loads[2], numbers[i]) = k == 0 ? NAN : -INFINITY;
            ck_only(&b, RBOW_NOT_FINITE, RBOW_IN_LOAD, 2);
        }
}
END_TEST

START_TEST(the_place_of_a_load)
{
    static const double outside[] = {-1e-9, 30.0001, NAN, INFINITY};
    built b;
    for (size_t i = 0; i < 4; i++) {
        bracket(&b);
        b.loads[1].at = outside[i];
        ck_only(&b, RBOW_BAD_LOAD_AT, RBOW_IN_LOAD, 1);
    }
    bracket(&b);
    b.loads[1].at = 30;
    ck_assert_uint_eq(faults_of(&b).count, 0);
    for (int acts = -1; acts <= RBOW_ACTS_COUNT; acts++) {
        bracket(&b);
        b.loads[1].acts_on = acts;
        b.loads[1].index = 3;
        if (acts != RBOW_ACTS_ON_ALL) ck_only(&b, RBOW_NO_SUCH_PLACE, RBOW_IN_LOAD, 1);
        else ck_assert_uint_eq(faults_of(&b).count, 0);
    }
    bracket(&b); /* the tube has no length: that is said of the tube, and its place not asked */
    b.tubes[0].to = b.tubes[0].from;
    b.loads[1].at = -1;
    ck_only(&b, RBOW_TUBE_TO_ITSELF, RBOW_IN_TUBE, 0);
}
END_TEST

/* Point loads of one tube act at one place, which may be said in two ways; spread loads have none. */
START_TEST(two_places_on_a_tube)
{
    built b;
    bracket(&b);
    rbow_frame_load *second = push_joint(&b, 0, 5, 0, 0);
    second->acts_on = RBOW_ACTS_ON_TUBE;
    second->at = 15;
    ck_assert_uint_eq(faults_of(&b).count, 0); /* the middle, in figures */
    second->at = 14;
    ck_only(&b, RBOW_TWO_LOAD_PLACES, RBOW_IN_LOAD, 3);
    second->index = 1;
    ck_assert_uint_eq(faults_of(&b).count, 0);
    second->index = 0;
    second->force[0] = 0;
    second->spread[2] = -1;
    ck_assert_uint_eq(faults_of(&b).count, 0);
    second->force[0] = 5;
    b.loads[1].force[2] = 0;
    ck_assert_uint_eq(faults_of(&b).count, 0);
}
END_TEST

START_TEST(a_moment_that_nothing_takes)
{
    for (int axis = 0; axis < RBOW_AXES; axis++) {
        built b;
        bracket(&b);
        b.loads[0].moment[axis] = 100;
        b.tubes[0].end_b = RBOW_PINNED;
        ck_assert_uint_eq(faults_of(&b).count, 0);
        b.tubes[1].end_b = RBOW_PINNED;
        ck_only(&b, RBOW_MOMENT_NOT_TAKEN, RBOW_IN_LOAD, 0);
        b.loads[0].index = 1; /* A of the beam */
        ck_assert_uint_eq(faults_of(&b).count, 0);
    }
}
END_TEST

START_TEST(the_factors_of_a_run)
{
    static const double wrong[] = {0, -1, NAN, INFINITY};
    for (size_t i = 0; i < 4; i++) {
        built b;
        bracket(&b);
        b.run.factor = wrong[i];
        ck_only(&b, RBOW_BAD_FACTOR, RBOW_IN_FRAME, 0);
        bracket(&b);
        b.run.factor_yield = wrong[i];
        ck_only(&b, RBOW_BAD_FACTOR_YIELD, RBOW_IN_FRAME, 0);
    }
}
END_TEST

/* ---- what is asked --------------------------------------------------------------------------------------- */

START_TEST(a_frame_with_faults_does_not_open)
{
    built b;
    bracket(&b);
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    ck_assert_int_eq(rbow_frame_open(&b.frame, NULL, &b.solver, NULL), RBOW_OUT_OF_RANGE);
    b.tubes[0].fixity = 0;
    ck_assert_int_eq(rbow_frame_open(&b.frame, b.memory, &b.solver, NULL), RBOW_OUT_OF_RANGE);
    end(&b);
}
END_TEST

/* A run with faults: every number is NaN, no tube holds. */
START_TEST(a_run_with_faults_has_no_answer)
{
    built b;
    bracket(&b);
    solve(&b);
    b.run.factor = NAN;
    ck_assert_int_eq(rbow_frame_check(b.solver, &b.run, b.tube, b.joint, &b.whole), RBOW_OUT_OF_RANGE);
    for (size_t i = 0; i < b.frame.tube_count; i++) {
        ck_assert(isnan(b.tube[i].margin) && isnan(b.tube[i].yield_factor) && isnan(b.tube[i].governs_at));
        ck_assert_int_eq(b.tube[i].verdict, RBOW_SHORT);
        ck_assert_int_eq(b.tube[i].governs, RBOW_FRAME_BY_NONE);
    }
    for (size_t i = 0; i < b.frame.joint_count; i++) ck_assert(isnan(b.joint[i].move[0]) && isnan(b.joint[i].react[5]) && isnan(b.joint[i].locked[2]));
    ck_assert(isnan(b.whole.margin) && isnan(b.whole.weight) && isnan(b.whole.centre[0]));
    ck_assert_int_eq(b.whole.verdict, RBOW_SHORT);
    ck_assert_int_eq(rbow_frame_check(b.solver, &b.run, b.tube, NULL, NULL), RBOW_OUT_OF_RANGE);
    rbow_frame_lowest lowest;
    double number;
    ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, INFINITY, &lowest), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_AS_BUILT, &number), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_frame_critical_factor(b.solver, &b.run, &number), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 1, RBOW_FRAME_AS_BUILT, NULL, NULL), RBOW_OUT_OF_RANGE);
    end(&b);
}
END_TEST

typedef struct question {
    double factor;
    int fit;
    size_t tube;
} question;

static rbow_status profile_of(built *b, question q, double at)
{
    rbow_profile station = {.at = at};
    return rbow_frame_profile(b->solver, &b->run, q.factor, q.fit, q.tube, &station, 1);
}

static rbow_status use_of(built *b, question q, int check)
{
    rbow_limit use = {.level = 1};
    const rbow_status status = rbow_frame_use(b->solver, &b->run, q.factor, q.fit, q.tube, check, &use);
    ck_assert(isnan(use.level) == (status != RBOW_OK));
    return status;
}

static void ck_refused(built *b, question q, rbow_status want)
{
    ck_assert_int_eq(profile_of(b, q, 1), want);
    ck_assert_int_eq(use_of(b, q, RBOW_BY_YIELD), want);
    ck_assert_int_eq(use_of(b, q, RBOW_BY_INTERACTION), want);
}

START_TEST(questions_out_of_range)
{
    static const double no_factor[] = {-1e-9, NAN, INFINITY};
    built b;
    double axial[TUBES_MOST];
    bracket(&b);
    solve(&b);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, no_factor[i], RBOW_FRAME_AS_BUILT, NULL, axial), RBOW_OUT_OF_RANGE);
        ck_refused(&b, (question){no_factor[i], RBOW_FRAME_AS_BUILT, 0}, RBOW_OUT_OF_RANGE);
    }
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 1, 2, NULL, axial), RBOW_OUT_OF_RANGE);
    ck_refused(&b, (question){1, -1, 0}, RBOW_OUT_OF_RANGE);
    ck_refused(&b, (question){1, RBOW_FRAME_AS_BUILT, 2}, RBOW_OUT_OF_RANGE);
    const question good = {1, RBOW_FRAME_AS_BUILT, 0};
    ck_refused(&b, good, RBOW_OK);
    ck_assert_int_eq(use_of(&b, good, RBOW_BY_COLUMN), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(profile_of(&b, good, 30), RBOW_OK);
    ck_assert_int_eq(profile_of(&b, good, 30.1), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(profile_of(&b, good, -1e-9), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(profile_of(&b, good, NAN), RBOW_OUT_OF_RANGE);
    end(&b);
}
END_TEST

/* Past the end of the path there is no state. That of a mast ends at pi^2 EI/(4 L^2); it is asked at 4 times this load. */
START_TEST(questions_past_the_end)
{
    built b;
    double axial[TUBES_MOST], end_of_path;
    begin(&b);
    const size_t foot = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), top = add_joint(&b, 0, 0, 60, 0);
    add_tube(&b, foot, top, 1.25, .058, &steel)->bow = .05;
    push_joint(&b, top, 0, 0, -1000);
    solve(&b);
    const double pi = 3.14159265358979323846, inertia = pi / 64 * (pow(1.25, 4) - pow(1.134, 4)), euler = pi * pi * 29e6 * inertia / (4 * 60 * 60);
    ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_AS_BUILT, &end_of_path), RBOW_OK);
    near_within(end_of_path, euler / 1000, 1e-6, 0);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 4 * euler / 1000, RBOW_FRAME_AS_BUILT, NULL, axial), RBOW_UNSTABLE);
    ck_refused(&b, (question){4 * euler / 1000, RBOW_FRAME_UNFORCED, 0}, RBOW_UNSTABLE);
    end(&b);
}
END_TEST

/* Loads whose stresses no number holds: no answer, and no number with it. */
START_TEST(loads_beyond_all_numbers)
{
    static const double loads[] = {1e80, 1e140};
    for (size_t i = 0; i < 2; i++) {
        built b;
        rbow_frame_lowest lowest;
        begin(&b);
        const size_t foot = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), top = add_joint(&b, 0, 0, 60, 0);
        add_tube(&b, foot, top, 1.25, .058, &steel)->bow = .05;
        push_joint(&b, top, 0, 0, loads[i]);
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        ck_assert_int_eq(rbow_frame_check(b.solver, &b.run, b.tube, b.joint, &b.whole), RBOW_STRESS_OVERFLOW);
        ck_assert(isnan(b.tube[0].margin) && isnan(b.joint[1].move[0]) && isnan(b.whole.margin) && b.tube[0].verdict == RBOW_SHORT);
        ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, INFINITY, &lowest), RBOW_STRESS_OVERFLOW);
        ck_assert_int_eq(use_of(&b, (question){1, RBOW_FRAME_AS_BUILT, 0}, RBOW_BY_YIELD), RBOW_STRESS_OVERFLOW);
        end(&b);
    }
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_wrong_number_of_a_tube);
    tcase_add_test(cases, a_miss_of_a_tube);
    tcase_add_test(cases, the_joints_of_a_tube);
    tcase_add_test(cases, a_wrong_joint);
    tcase_add_test(cases, no_frame);
    tcase_add_test(cases, a_wrong_number_of_a_load);
    tcase_add_test(cases, the_place_of_a_load);
    tcase_add_test(cases, two_places_on_a_tube);
    tcase_add_test(cases, a_moment_that_nothing_takes);
    tcase_add_test(cases, the_factors_of_a_run);
    tcase_add_test(cases, a_frame_with_faults_does_not_open);
    tcase_add_test(cases, a_run_with_faults_has_no_answer);
    tcase_add_test(cases, questions_out_of_range);
    tcase_add_test(cases, questions_past_the_end);
    tcase_add_test(cases, loads_beyond_all_numbers);
}

int main(void)
{
    return run_tests("frame/faults", fill);
}
