/* Details beside their tube: each number of the answer against the checks of the library, of a member and of a frame. */
#include "study/members.h"

#include "study/frame_problem.h"

#include <string.h>

static detail_row row_of(const char *name, int kind, double at)
{
    detail_row r = {.of = "rail", .name = name, .sn = "", .note = "", .detail = rbow_detail_default()};
    r.detail.kind = kind;
    r.detail.at = at;
    r.detail.hole = 0.25;
    return r;
}

/* With every clock unknown and both joints welded, so that each of the detail's answers differs from another. */
static rbow_member unknown_member(void)
{
    rbow_member m = rail();
    m.end_a = m.end_b = RBOW_WELDED;
    m.bow = 0.05;
    m.miss_a = 0.1;
    m.miss_b = 0.3;
    m.eccentricity = 0.02;
    m.bow_clock = RBOW_ANY_CLOCK;
    m.eccentricity_clock = 2;
    m.miss_b_clock = 3;
    m.miss_a_clock = 1;
    m.compression = 3000;
    m.weld_zone = 1;
    m.spread_load = 4;
    m.spread_clock = 2;
    return m;
}

static void ck_equal(double got, double want)
{
    ck_assert((isnan(got) && isnan(want)) || is_same(got, want));
}

/* All that a tube takes from the detail that sets its margin; the rest stays. */
START_TEST(the_weakest_of_a_tube)
{
    for (size_t weak = 0; weak < 4; weak++) {
        detail_row rows[4];
        const detail_row *at[4];
        const rbow_member m = unknown_member();
        rbow_result tube, got;
        rbow_detail_result each[4], want;
        size_t fault;
        const char *const names[4] = {"first", "second", "third", "joint"};
        for (size_t i = 0; i < 4; i++) {
            rows[i] = row_of(names[i], RBOW_DETAIL_PLACE, i == 3 ? (double)INFINITY : 8 + 6 * (double)i);
            at[i] = &rows[i];
        }
        rows[weak].detail.kind = RBOW_DETAIL_HOLE;
        rows[weak].detail.hole = 1;
        const member_details d = {at, 4, "details.csv"};
        ck_assert_int_eq(rbow_member_check(&m, &steel, &tube), RBOW_OK);
        got = tube;
        ck_assert_int_eq(details_check(&d, &m, &steel, &got, each, &fault), RBOW_OK);
        const rbow_detail on = detail_on(at[weak], m.length);
        ck_assert_int_eq(rbow_detail_check(&on, &m, &steel, &want), RBOW_OK);
        ck_assert(want.margin < tube.margin);
        ck_equal(got.margin, want.margin);
        ck_assert_int_eq(got.governs, BY_DETAIL + (int)weak);
        ck_assert_str_eq(governs_name(&d, got.governs), names[weak]);
        ck_equal(got.governs_at, weak == 3 ? m.length : rows[weak].detail.at);
        ck_assert_int_eq(got.governs_in_weld_zone, weak == 3);
        ck_assert_int_eq(got.verdict, want.verdict);
        ck_assert_int_eq(got.joints_taken, want.joints_taken);
        ck_assert_int_eq(got.fit_taken, want.fit_taken);
        ck_equal(got.bow_clock_taken, want.bow_clock_taken);
        ck_equal(got.miss_a_clock_taken, want.miss_a_clock_taken);
        ck_equal(got.miss_b_clock_taken, want.miss_b_clock_taken);
        ck_equal(got.eccentricity_clock_taken, want.eccentricity_clock_taken);
        ck_equal(got.column_factor, tube.column_factor);
        ck_equal(got.peak_moment, tube.peak_moment);
        for (size_t i = 0; i < 4; i++) {
            const rbow_detail one = detail_on(at[i], m.length);
            ck_assert_int_eq(rbow_detail_check(&one, &m, &steel, &want), RBOW_OK);
            ck_equal(each[i].margin, want.margin);
        }
        rbow_margin lowered = {.margin = tube.margin, .governs = tube.governs};
        ck_assert_int_eq(details_margin(&d, &m, &steel, &lowered), RBOW_OK);
        ck_equal(lowered.margin, got.margin);
        ck_assert_int_eq(lowered.governs, got.governs);
        rows[weak].detail.hole = 2;
        got = tube;
        ck_assert_int_eq(details_check(&d, &m, &steel, &got, NULL, &fault), RBOW_BAD_HOLE);
        ck_assert_uint_eq(fault, weak);
    }
}
END_TEST

/* What the concrete members of tube and detail take differs: the tube must not keep its own. */
START_TEST(what_the_detail_takes)
{
    bool joints = false, fit = false, bow = false, miss_a = false, miss_b = false, eccentricity = false, verdict = false;
    gsl_rng *dice_box = gsl_rng_alloc(gsl_rng_mt19937);
    for (int i = 0; i < 30; i++) {
        rbow_member m = unknown_member();
        m.miss_a_clock = i % 3 ? RBOW_ANY_CLOCK : dice_clock(dice_box);
        m.miss_b_clock = i % 3 ? dice_clock(dice_box) : RBOW_ANY_CLOCK;
        m.eccentricity_clock = i % 6 ? dice_clock(dice_box) : RBOW_ANY_CLOCK;
        m.bow_clock = i % 2 ? RBOW_ANY_CLOCK : dice_clock(dice_box);
        m.miss_a = dice(dice_box, 0, 0.3);
        m.compression = dice(dice_box, -2000, 3000);
        m.spread_clock = dice_clock(dice_box);
        detail_row hole = row_of("hole", RBOW_DETAIL_HOLE, dice(dice_box, 1, 35));
        hole.detail.hole = 0.9;
        const detail_row *const at[] = {&hole};
        const member_details d = {at, 1, ""};
        rbow_result tube, got;
        rbow_detail_result want;
        ck_assert_int_eq(rbow_member_check(&m, &steel, &tube), RBOW_OK);
        got = tube;
        ck_assert_int_eq(details_check(&d, &m, &steel, &got, &want, NULL), RBOW_OK);
        if (!(want.margin < tube.margin)) continue;
        ck_assert_int_eq(got.verdict, want.verdict);
        ck_assert_int_eq(got.joints_taken, want.joints_taken);
        ck_assert_int_eq(got.fit_taken, want.fit_taken);
        ck_equal(got.bow_clock_taken, want.bow_clock_taken);
        ck_equal(got.miss_a_clock_taken, want.miss_a_clock_taken);
        ck_equal(got.miss_b_clock_taken, want.miss_b_clock_taken);
        ck_equal(got.eccentricity_clock_taken, want.eccentricity_clock_taken);
        verdict = verdict || want.verdict != tube.verdict;
        joints = joints || want.joints_taken != tube.joints_taken;
        fit = fit || want.fit_taken != tube.fit_taken;
        bow = bow || !is_same(want.bow_clock_taken, tube.bow_clock_taken);
        miss_a = miss_a || !is_same(want.miss_a_clock_taken, tube.miss_a_clock_taken);
        miss_b = miss_b || !is_same(want.miss_b_clock_taken, tube.miss_b_clock_taken);
        eccentricity = eccentricity || !is_same(want.eccentricity_clock_taken, tube.eccentricity_clock_taken);
    }
    ck_assert(verdict && joints && fit && bow && miss_a && miss_b && eccentricity);
    gsl_rng_free(dice_box);
}
END_TEST

START_TEST(none)
{
    const rbow_member m = rail();
    rbow_margin margin = {.margin = 0.5, .governs = RBOW_BY_YIELD};
    ck_assert_int_eq(details_margin(NULL, &m, &steel, &margin), RBOW_OK);
    ck_equal(margin.margin, 0.5);
    ck_assert_str_eq(governs_name(NULL, RBOW_BY_YIELD), "yield");
    ck_assert_str_eq(frame_governs_name(NULL, RBOW_FRAME_BY_FRAME), "frame");
}
END_TEST

/* ---- of a frame ---------------------------------------------------------------------------------------------- */

enum { TUBES = 3, DETAILS = 4 };

typedef struct sample { /* a bent mast of three tubes that lie in no plane of the axes */
    rbow_frame_joint joints[TUBES + 1];
    rbow_frame_tube tubes[TUBES];
    rbow_frame_load loads[1];
    rbow_frame_run run;
    rbow_frame frame;
    detail_row rows[DETAILS];
    frame_detail at[DETAILS];
    frame_details details;
} sample;

static void build(sample *s, size_t weak)
{
    static const double places[TUBES + 1][3] = {{0, 0, 0}, {3, 8, 20}, {16, -6, 34}, {30, 9, 44}};
    static const char *const names[DETAILS] = {"a", "b", "c", "d"};
    memset(s, 0, sizeof *s);
    for (size_t i = 0; i <= TUBES; i++) {
        s->joints[i] = rbow_frame_joint_default();
        memcpy(s->joints[i].at, places[i], sizeof places[i]);
    }
    s->joints[0].held = RBOW_HELD_FIXED;
    for (size_t i = 0; i < TUBES; i++) {
        s->tubes[i] = rbow_frame_tube_default();
        s->tubes[i].from = i;
        s->tubes[i].to = i + 1;
        s->tubes[i].od = 1.25;
        s->tubes[i].wall = 0.058;
        s->tubes[i].material = &steel;
    }
    s->loads[0] = rbow_frame_load_default();
    s->loads[0].acts_on = RBOW_ACTS_ON_JOINT;
    s->loads[0].index = TUBES;
    s->loads[0].force[RBOW_Z] = -60;
    s->run = (rbow_frame_run){s->loads, 1, 1.5, RBOW_UNSET};
    s->frame = (rbow_frame){s->joints, TUBES + 1, s->tubes, TUBES};
    for (size_t i = 0; i < DETAILS; i++) {
        s->rows[i] = row_of(names[i], i == weak ? RBOW_DETAIL_HOLE : RBOW_DETAIL_PLACE, i == 3 ? (double)INFINITY : 5);
        s->rows[i].detail.hole = 1;
        s->at[i] = (frame_detail){&s->rows[i], i % TUBES};
    }
    s->details = (frame_details){s->at, DETAILS, "details.csv"};
}

/* The lengths of the tubes from their coordinates: 3, 8, 20; 13, -14, 14; 14, 15, 10. */
START_TEST(on_the_tubes_as_drawn)
{
    const double lengths[TUBES] = {sqrt(9 + 64 + 400), sqrt(169 + 196 + 196), sqrt(196 + 225 + 100)};
    sample s;
    rbow_frame_detail on[DETAILS];
    size_t which;
    build(&s, 0);
    ck_assert_uint_eq(frame_details_on(&s.details, &s.frame, on), DETAILS);
    ck_assert_uint_eq(frame_details_on(NULL, &s.frame, on), 0);
    for (size_t i = 0; i < DETAILS; i++) {
        near_within(frame_detail_length(&s.at[i], &s.frame), lengths[i % TUBES], 1e-14, 0);
        near_within(on[i].detail.at, i == 3 ? lengths[0] : 5, 1e-14, 0);
        ck_assert_uint_eq(on[i].tube, i % TUBES);
        ck_assert_str_eq(frame_governs_name(&s.details, FRAME_BY_DETAIL + (int)i), s.rows[i].name);
    }
    ck_assert_int_eq(frame_details_fault(&s.details, &s.frame, &which), RBOW_OK);
    s.rows[2].detail.at = lengths[2] + 0.01;
    ck_assert_int_eq(frame_details_fault(&s.details, &s.frame, &which), RBOW_BAD_DETAIL_AT);
    ck_assert_uint_eq(which, 2);
    s.rows[2].detail.at = lengths[2] - 0.01;
    ck_assert_int_eq(frame_details_fault(&s.details, &s.frame, NULL), RBOW_OK);
}
END_TEST

/* The tube of the weakest detail takes its margin, verdict, name and place. */
START_TEST(the_weakest_of_a_frame)
{
    const char *const materials[TUBES] = {"steel", "steel", "steel"};
    for (size_t weak = 0; weak < DETAILS; weak++) {
        sample s;
        frame_problem p;
        rbow_frame_detail on[DETAILS];
        rbow_frame_tube_result plain[TUBES], got[TUBES];
        rbow_frame_run_result whole;
        rbow_detail_result of_details[DETAILS];
        frame_lowest lowest;
        build(&s, weak);
        ck_assert(frame_problem_open(&p, &s.frame, &s.run, 1, materials, &steel, 1));
        ck_assert_int_eq(frame_problem_check(&p, 0, plain, &whole), RBOW_OK);
        p.details = &s.details;
        ck_assert_int_eq(frame_problem_check(&p, 0, got, &whole), RBOW_OK);
        frame_details_on(&s.details, &s.frame, on);
        void *memory = malloc(rbow_frame_memory(&s.frame));
        rbow_frame_solver *solver;
        ck_assert_int_eq(rbow_frame_open(&s.frame, memory, &solver, NULL), RBOW_OK);
        ck_assert_int_eq(rbow_frame_details_check(solver, &s.run, on, DETAILS, of_details), RBOW_OK);
        ck_assert(of_details[weak].margin < plain[weak % TUBES].margin);
        double least = INFINITY;
        for (size_t i = 0; i < TUBES; i++) {
            if (i == weak % TUBES) {
                ck_equal(got[i].margin, of_details[weak].margin);
                ck_assert_int_eq(got[i].verdict, of_details[weak].verdict);
                ck_assert_int_eq(got[i].governs, FRAME_BY_DETAIL + (int)weak);
                ck_equal(got[i].governs_at, on[weak].detail.at);
                ck_assert(plain[i].margin >= 0 && got[i].margin < 0);
            } else if (i > 0) {
                ck_equal(got[i].margin, plain[i].margin);
                ck_assert_int_eq(got[i].governs, plain[i].governs);
                ck_equal(got[i].governs_at, plain[i].governs_at);
            }
            least = fmin(least, got[i].margin);
        }
        ck_assert_int_eq(frame_problem_margin(&p, INFINITY, &lowest), RBOW_OK);
        near_within(lowest.lowest.margin, least, 1e-6, 1e-7);
        free(memory);
        frame_problem_close(&p);
    }
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, the_weakest_of_a_tube);
    tcase_add_test(cases, what_the_detail_takes);
    tcase_add_test(cases, none);
    tcase_add_test(cases, on_the_tubes_as_drawn);
    tcase_add_test(cases, the_weakest_of_a_frame);
}

int main(void)
{
    return run_tests("details of studies", fill);
}
