/* What is asked of results: which run, tube, joint or detail to name, and what the forced fit has done. */
#include "near.h"

#include "cases/case_words.h"
#include "cases/check_table.h"
#include "cases/detail/detail_results.h"
#include "cases/frame_results.h"

#include <math.h>
#include <string.h>

/* ---- a frame: two runs with two tubes, the second run without an answer at first ------------------------ */

enum { TUBES = 2, RUNS = 2, JOINTS = 2 };

typedef struct answered {
    frame_tube_answer tubes[RUNS * TUBES];
    frame_run_answer runs[RUNS];
    frame_joint_answer joints[RUNS * JOINTS];
    detail_answer details[RUNS * 2];
    frame_tube_row rows[TUBES];
    rbow_frame_tube given[TUBES];
    frame_model model;
    frame_answers all;
} answered;

static void begin(answered *a)
{
    memset(a, 0, sizeof *a);
    a->runs[0].solved = a->runs[1].solved = true;
    a->model = (frame_model){.joint_count = JOINTS, .tube_count = TUBES, .run_count = RUNS, .tubes = a->rows,
                             .frame = {.tubes = a->given, .tube_count = TUBES}};
    a->all = (frame_answers){.model = &a->model, .tubes = a->tubes, .judged = TUBES, .joints = a->joints, .runs = a->runs,
                             .run_count = RUNS, .details = a->details, .detail_count = 2};
}

START_TEST(where_no_run_has_an_answer)
{
    answered a;
    begin(&a);
    a.runs[0].solved = a.runs[1].solved = false;
    ck_assert_ptr_null(frame_worst(&a.all));
    ck_assert_ptr_null(frame_worst_run(&a.all, 0));
    ck_assert_ptr_null(frame_weakest_detail(&a.all, 1));
    ck_assert(!frame_has_remark(&a.all, 0, RBOW_REMARK_SLENDER));
    double factor;
    ck_assert_ptr_null(frame_first_to_buckle(&a.all, &factor));
}
END_TEST

START_TEST(the_weakest_run_of_a_detail)
{
    answered a;
    begin(&a);
    for (int i = 0; i < 4; i++) a.details[i].result.margin = i == 1 ? 0.5 : 0.7 - 0.1 * i;
    ck_assert_ptr_eq(frame_weakest_detail(&a.all, 0), &a.details[2]);
    ck_assert_ptr_eq(frame_weakest_detail(&a.all, 1), &a.details[3]);
    a.runs[1].solved = false;
    ck_assert_ptr_eq(frame_weakest_detail(&a.all, 1), &a.details[1]);
    a.runs[0].solved = false, a.runs[1].solved = true;
    ck_assert_ptr_eq(frame_weakest_detail(&a.all, 1), &a.details[3]);
}
END_TEST

START_TEST(remarks_of_any_run)
{
    answered a;
    begin(&a);
    a.tubes[TUBES].result.remarks = RBOW_REMARK_SLENDER;
    a.tubes[1].result.near_buckling = 1;
    ck_assert(frame_has_remark(&a.all, 0, RBOW_REMARK_SLENDER) && !frame_has_remark(&a.all, 1, RBOW_REMARK_SLENDER));
    ck_assert(frame_has_remark(&a.all, 1, FRAME_NEAR_BUCKLING) && !frame_has_remark(&a.all, 0, FRAME_NEAR_BUCKLING));
    a.runs[1].solved = false;
    ck_assert(!frame_has_remark(&a.all, 0, RBOW_REMARK_SLENDER));
}
END_TEST

START_TEST(tubes_of_one_margin_stay_in_their_order)
{
    answered a;
    begin(&a);
    frame_order order;
    for (int i = 0; i < RUNS * TUBES; i++) a.tubes[i].result.margin = 0.25;
    ck_assert(frame_order_of(&order, &a.all));
    ck_assert(order.tubes[0] == 0 && order.tubes[1] == 1);
    ck_assert_uint_eq(frame_order_listed(&order, &a.all), 2);
    frame_order_free(&order);
    a.tubes[3].result = (rbow_frame_tube_result){.margin = -0.1, .verdict = RBOW_SHORT};
    a.tubes[2].result = (rbow_frame_tube_result){.margin = -0.05, .verdict = RBOW_SHORT};
    ck_assert(frame_order_of(&order, &a.all));
    ck_assert(order.tubes[0] == 1 && order.tubes[1] == 0);
    ck_assert_uint_eq(frame_order_listed(&order, &a.all), 2); /* all are short */
    frame_order_free(&order);
    a.all.judged = 0;
    ck_assert(frame_order_of(&order, &a.all));
    ck_assert_uint_eq(order.count, 0);
    frame_order_free(&order);
}
END_TEST

/* A pinned tube is at its critical load, pi^2 EI/L^2, with a fixity of 1. */
START_TEST(the_first_to_buckle)
{
    const double pi = 3.14159265358979323846;
    const rbow_material steel = {.elastic_modulus = 29e6};
    const double euler = pi * pi * 29e6 * pi / 64 * (pow(1.25, 4) - pow(1.134, 4)) / (60 * 60);
    answered a;
    begin(&a);
    for (int i = 0; i < RUNS * TUBES; i++) {
        a.tubes[i].given.tube = (rbow_frame_tube){.od = 1.25, .wall = .058, .material = &steel};
        a.tubes[i].result = (rbow_frame_tube_result){.length = 60, .axial = -100};
    }
    for (int i = 0; i < RUNS; i++) a.runs[i].result.critical_factor = 4 + i;
    a.tubes[0].result.axial = euler / 4;
    near_within(frame_fixity(&a.tubes[0], 4), 1, 1e-12, 0);
    a.tubes[0].result.fit_axial = 0.1 * euler; /* locked in: it does not grow with the loads */
    near_within(frame_fixity(&a.tubes[0], 4), 0.1 + 4 * (0.25 - 0.1), 1e-12, 0);
    a.tubes[3].result.axial = 0.3 * euler;
    double factor = 0;
    ck_assert_ptr_eq(frame_first_to_buckle(&a.all, &factor), &a.tubes[3]);
    near_within(factor, 5, 0, 0);
    a.runs[1].result.critical_factor = INFINITY;
    ck_assert_ptr_eq(frame_first_to_buckle(&a.all, &factor), &a.tubes[0]);
    near_within(factor, 4, 0, 0);
    a.tubes[0].given.tube.wall = 1; /* no tube */
    ck_assert(isnan(frame_fixity(&a.tubes[0], 4)));
    ck_assert_ptr_null(frame_first_to_buckle(&a.all, &factor));
}
END_TEST

START_TEST(what_was_forced_into_a_frame)
{
    answered a;
    begin(&a);
    ck_assert(!frame_has_fit(&a.model) && !frame_has_open_bow(&a.model));
    double *const fits[] = {&a.given[1].miss_a, &a.given[1].miss_b, &a.given[1].gap};
    for (int i = 0; i < 3; i++) {
        *fits[i] = i == 2 ? -0.01 : 0.01;
        ck_assert(frame_has_fit(&a.model));
        const frame_tube_answer r = {.given.tube = a.given[1]};
        ck_assert(frame_is_forced(&r));
        *fits[i] = 0;
    }
    a.rows[1].tube.bow = 0.02;
    ck_assert(!frame_has_open_bow(&a.model));
    a.rows[1].tube.bow_clock = RBOW_ANY_CLOCK;
    ck_assert(frame_has_open_bow(&a.model));
    a.rows[1].tube.bow = 0; /* no bow has no direction */
    ck_assert(!frame_has_open_bow(&a.model));
}
END_TEST

START_TEST(what_it_has_done)
{
    answered a;
    begin(&a);
    double distance;
    a.runs[0].solved = false; /* the first run with an answer is asked */
    ck_assert_ptr_null(frame_neighbour(&a.all));
    ck_assert_ptr_null(frame_moved_by_fit(&a.all, &distance));
    near_within(distance, 0, 0, 0);
    a.tubes[TUBES].result.fit_stress = 2000;
    a.tubes[TUBES + 1].result.fit_stress = 3000;
    ck_assert_ptr_eq(frame_neighbour(&a.all), &a.tubes[TUBES + 1]);
    a.tubes[TUBES + 1].given.tube.gap = 0.02; /* forced itself, it is no neighbour */
    ck_assert_ptr_eq(frame_neighbour(&a.all), &a.tubes[TUBES]);
    const double move[] = {0.02, -0.03, 0.06};
    memcpy(a.joints[JOINTS + 1].result.locked, move, sizeof move);
    a.joints[0].result.locked[0] = 9; /* of the run without an answer */
    ck_assert_ptr_eq(frame_moved_by_fit(&a.all, &distance), &a.joints[JOINTS + 1]);
    near_within(distance, 0.07, 1e-12, 0);
}
END_TEST

START_TEST(what_the_fit_costs)
{
    frame_tube_answer r = {.result = {.margin_as_built = 0.1, .margin_unforced = 0.35}, .alone = {.margin = -0.1, .margin_as_built = 0}};
    check_row c = {.result = {.margin_as_built = 0.1, .margin_unforced = 0.35}, .tube = {.margin = -0.1, .margin_as_built = 0}};
    near_within(frame_fit_cost(&r), 25, 1e-12, 0);
    near_within(fit_cost(&c), 25, 1e-12, 0);
    ck_assert(frame_holds_by_fit(&r) && holds_by_fit(&c));
    r.alone.margin_as_built = c.tube.margin_as_built = -0.01;
    ck_assert(!frame_holds_by_fit(&r) && !holds_by_fit(&c));
    r.alone = (rbow_frame_tube_result){.margin = 0, .margin_as_built = 0.1};
    c.tube = (rbow_result){.margin = 0, .margin_as_built = 0.1};
    ck_assert(!frame_holds_by_fit(&r) && !holds_by_fit(&c));
}
END_TEST

/* ---- details ----------------------------------------------------------------------------------------------- */

START_TEST(a_detail_that_governs)
{
    detail_answer d = {.factor = 1.5, .factor_yield = 1.2, .detail.kind = RBOW_DETAIL_SOCKET,
                       .result = {.factor = 2, .yield_factor = 3, .weld_factor = 4}};
    const struct {
        int mode;
        double factor, required;
    } want[] = {{RBOW_DETAIL_BY_YIELD, 3, 1.2}, {RBOW_DETAIL_BY_WELD, 4, 1.5}, {RBOW_DETAIL_BY_ROSETTES, 4, 1.5},
                {RBOW_DETAIL_BY_BEARING, 4, 1.5}, {RBOW_DETAIL_BY_BUCKLING, 2, 1.5}};
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        d.result.mode = want[i].mode;
        const governing_detail g = governing_detail_of(&d);
        ck_assert(g.governs && g.kind == RBOW_DETAIL_SOCKET && g.mode == want[i].mode);
        near_within(g.factor, want[i].factor, 0, 0);
        near_within(g.required, want[i].required, 0, 0);
        const check_row c = {.detail = g, .result.governs = RBOW_BY_NONE};
        const frame_tube_answer r = {.detail = g, .result.governs = RBOW_FRAME_BY_NONE};
        near_within(deciding_factor(&c), want[i].factor, 0, 0);
        near_within(frame_deciding_factor(&r), want[i].factor, 0, 0);
        near_within(asked_factor(&c), want[i].required, 0, 0);
        near_within(frame_asked_factor(&r), want[i].required, 0, 0);
    }
    d.factor_yield = 2.5; /* where the tube buckles, the larger counts */
    near_within(governing_detail_of(&d).required, 2.5, 0, 0);
}
END_TEST

START_TEST(the_smaller_margin_comes_first)
{
    const detail_answer d[] = {{.result.margin = 1}, {.result.margin = -1}, {.result.margin = 1}};
    ck_assert_int_eq(detail_by_margin(&d[0], &d[1]), 1);
    ck_assert_int_eq(detail_by_margin(&d[1], &d[0]), -1);
    ck_assert_int_eq(detail_by_margin(&d[0], &d[2]), -1);
    ck_assert_int_eq(detail_by_margin(&d[2], &d[0]), 1);
    ck_assert_int_eq(detail_by_margin(&d[2], &d[2]), 0);
}
END_TEST

START_TEST(all_remarks_have_room)
{
    char none[DETAIL_REMARKS_ROOM], one[DETAIL_REMARKS_ROOM], all[DETAIL_REMARKS_ROOM];
    size_t length = 0;
    detail_remarks_write(none, 0);
    ck_assert_str_eq(none, "");
    detail_remarks_write(all, (1U << RBOW_DETAIL_REMARK_COUNT) - 1);
    for (int i = 0; i < RBOW_DETAIL_REMARK_COUNT; i++) {
        detail_remarks_write(one, 1U << i);
        ck_assert_ptr_nonnull(strstr(all, one));
        length += strlen(one) + (i > 0 ? strlen("; ") : 0);
    }
    ck_assert_uint_eq(strlen(all), length);
}
END_TEST

START_TEST(sizes_that_a_kind_needs_or_does_not_use)
{
    static const struct {
        int kind;
        const char *column;
        double size;
        const char *fault;
        bool missing;
    } want[] = {
        {RBOW_DETAIL_PLACE, NULL, 0, NULL, false}, {RBOW_DETAIL_PLACE, "hole", 0.25, "hole", false},
        {RBOW_DETAIL_PLACE, "throat", 0.1, "throat", false}, {RBOW_DETAIL_HOLE, NULL, 0, "hole", true},
        {RBOW_DETAIL_HOLE, "hole", 0.25, NULL, false}, {RBOW_DETAIL_RING_WELD, "weld_od", 1.2, NULL, false},
        {RBOW_DETAIL_RING_WELD, "rosette", 0.3, "rosette", false}, {RBOW_DETAIL_SLEEVE, NULL, 0, "sleeve_od", true},
        {RBOW_DETAIL_SOCKET, NULL, 0, "stub_od", true}, {RBOW_DETAIL_PLACE, "rosettes", 2, "rosettes", false},
    };
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        detail_row r;
        bool missing;
        field_defaults(&case_detail_list, &r);
        r.detail.kind = want[i].kind;
        if (want[i].column != NULL) field_set(field_find(&case_detail_list, want[i].column), &r, want[i].size);
        const field *f = detail_size_fault(&r, &missing);
        ck_assert((f == NULL) == (want[i].fault == NULL));
        if (f != NULL) ck_assert_str_eq(f->name, want[i].fault);
        ck_assert_int_eq(missing, want[i].missing);
    }
}
END_TEST

START_TEST(rosettes_need_their_diameter)
{
    detail_row r;
    bool missing;
    field_defaults(&case_detail_list, &r);
    r.detail.kind = RBOW_DETAIL_SOCKET;
    r.detail.stub_od = 1.12, r.detail.stub_wall = 0.095, r.detail.overlap = 2;
    ck_assert_ptr_null(detail_size_fault(&r, &missing));
    r.rosettes = 3;
    ck_assert_str_eq(detail_size_fault(&r, &missing)->name, "rosette");
    ck_assert(missing);
    r.detail.rosette = 0.375;
    ck_assert_ptr_null(detail_size_fault(&r, &missing));
    ck_assert_int_eq(detail_on(&r, 30).rosettes, 3);
    r.detail.at = INFINITY; /* joint B */
    near_within(detail_on(&r, 30).at, 30, 0, 0);
    r.detail.at = 12;
    near_within(detail_on(&r, 30).at, 12, 0, 0);
}
END_TEST

/* ---- words ------------------------------------------------------------------------------------------------- */

START_TEST(words_of_ends)
{
    ck_assert_str_eq(end_word(RBOW_FIXED), "fixed");
    ck_assert_str_eq(end_word(RBOW_SOFT_WELD), "welded, soft");
    ck_assert_str_eq(end_word(RBOW_STIFF_WELD), "welded, stiff");
    ck_assert_ptr_null(end_word(50000));
}
END_TEST

START_TEST(the_worst_case_is_the_first_of_the_smallest)
{
    const check_row rows[] = {{.result.margin = 0.5}, {.result.margin = -0.5}, {.result.margin = -0.5}, {.result.margin = 0}};
    ck_assert_ptr_eq(check_worst(rows, 4), &rows[1]);
    ck_assert_ptr_eq(check_worst(rows, 1), &rows[0]);
}
END_TEST

START_TEST(parts_of_tubes_and_cases)
{
    const load_case own = {.name = "rail", .part = ""}, of_part = {.name = "rail", .part = "p"};
    const frame_tube_row tube = {.name = "rail", .part = ""}, of_group = {.name = "rail", .part = "g"};
    ck_assert_str_eq(case_part(&own), "rail");
    ck_assert_str_eq(case_part(&of_part), "p");
    ck_assert_str_eq(frame_tube_part(&tube), "rail");
    ck_assert_str_eq(frame_tube_part(&of_group), "g");
}
END_TEST

START_TEST(columns_that_life_alone_reads)
{
    size_t count = 0;
    for (size_t i = 0; i < frame_load_list.count; i++) {
        const field *f = &frame_load_list.fields[i];
        const bool of_life = strcmp(f->name, "cycles") == 0 || strcmp(f->name, "cycle_low") == 0 || strcmp(f->name, "cycle_high") == 0;
        ck_assert_int_eq(frame_load_is_for_life(f), of_life);
        count += of_life;
    }
    ck_assert_uint_eq(count, 3);
}
END_TEST

START_TEST(columns_of_advice)
{
    static const char *const names[ADVICE_COLUMNS] = {"miss_a", "miss_b", "gap", "bow", "wall"};
    for (int i = 0; i < ADVICE_COLUMNS; i++) {
        ck_assert_str_eq(advice_column(i), names[i]);
        ck_assert_ptr_nonnull(field_find(&case_list, names[i])); /* as in files */
    }
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, where_no_run_has_an_answer);
    tcase_add_test(c, the_weakest_run_of_a_detail);
    tcase_add_test(c, remarks_of_any_run);
    tcase_add_test(c, tubes_of_one_margin_stay_in_their_order);
    tcase_add_test(c, the_first_to_buckle);
    tcase_add_test(c, what_was_forced_into_a_frame);
    tcase_add_test(c, what_it_has_done);
    tcase_add_test(c, what_the_fit_costs);
    tcase_add_test(c, a_detail_that_governs);
    tcase_add_test(c, the_smaller_margin_comes_first);
    tcase_add_test(c, all_remarks_have_room);
    tcase_add_test(c, sizes_that_a_kind_needs_or_does_not_use);
    tcase_add_test(c, rosettes_need_their_diameter);
    tcase_add_test(c, words_of_ends);
    tcase_add_test(c, the_worst_case_is_the_first_of_the_smallest);
    tcase_add_test(c, parts_of_tubes_and_cases);
    tcase_add_test(c, columns_that_life_alone_reads);
    tcase_add_test(c, columns_of_advice);
}

int main(void)
{
    return run_tests("answers", fill);
}
