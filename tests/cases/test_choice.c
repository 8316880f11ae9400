/* What is summed and picked from the rows of a study: tubes of a comparison, parts, the spread of margins, orientations, limits. */
#include "near.h"

#include "cases/compare_sum.h"
#include "cases/frame_cut_table.h"
#include "cases/frame_study_table.h"
#include "cases/limit_table.h"
#include "cases/orientation_table.h"
#include "cases/scatter_table.h"

#include <math.h>
#include <string.h>

/* ---- compare ---------------------------------------------------------------------------------------------- */

enum { TUBES = 4 };

static compare_row tried(const char *name, size_t tube, double od, double weight, double margin)
{
    return (compare_row){.name = name, .tube = tube, .tubes = TUBES, .weighs = 1,
                         .tried = {.od = od, .weight = weight, .weight_change = weight - 1,
                                   .result = {.margin = margin, .verdict = margin >= 0 ? RBOW_HOLDS : RBOW_SHORT}}};
}

static void make_impossible(compare_row *r)
{
    r->tried.status = RBOW_BAD_WALL;
    r->tried.result = (rbow_result){.margin = NAN, .verdict = RBOW_SHORT};
}

/* Two cases of one part with four tubes: the first is too light, the second holds in one case, the others in both. */
static void two_cases(compare_row rows[2 * TUBES])
{
    static const double od[] = {1, 1.125, 1.25, 1.25}, weight[] = {1, 1.2, 1.5, 1.4};
    static const double margin[2][TUBES] = {{-0.4, -0.1, 0.3, 0.2}, {-0.2, 0.1, 0.5, 0.1}};
    for (size_t c = 0; c < 2; c++)
        for (size_t t = 0; t < TUBES; t++) {
            rows[c * TUBES + t] = tried(c == 0 ? "first" : "second", t, od[t], weight[t], margin[c][t]);
            rows[c * TUBES + t].weighs = c == 0; /* the part weighs once */
        }
}

START_TEST(a_tube_over_all_cases)
{
    compare_row rows[2 * TUBES];
    two_cases(rows);
    tube_sum s = sum_of_tube(rows, 2 * TUBES, 1);
    ck_assert_uint_eq(s.cases, 2);
    ck_assert_uint_eq(s.holds, 1);
    ck_assert_uint_eq(s.impossible, 0);
    near_within(s.weight, 1.2, 0, 0);
    near_within(s.change, 0.2, 0, 1e-15);
    near_within(s.worst, -0.1, 0, 0);
    ck_assert_str_eq(s.worst_case, "first");
    ck_assert_str_eq(sum_of_tube(rows, 2 * TUBES, 3).worst_case, "second");
    make_impossible(&rows[1]); /* what is not possible has no margin */
    s = sum_of_tube(rows, 2 * TUBES, 1);
    ck_assert_uint_eq(s.impossible, 1);
    near_within(s.worst, 0.1, 0, 0);
    ck_assert_str_eq(s.worst_case, "second");
    make_impossible(&rows[TUBES + 1]);
    ck_assert_str_eq(sum_of_tube(rows, 2 * TUBES, 1).worst_case, "");
}
END_TEST

START_TEST(the_lightest_that_holds)
{
    compare_row rows[2 * TUBES];
    two_cases(rows);
    ck_assert_uint_eq(lightest_tube(rows, 2 * TUBES), 3);
    for (size_t i = 2; i < 2 * TUBES; i += TUBES) rows[i].tried.weight = 1.4 * (1 + 1e-14), rows[i].tried.od = 1.2;
    ck_assert_uint_eq(lightest_tube(rows, 2 * TUBES), 2); /* they weigh the same: the smaller diameter */
    for (size_t i = 2; i < 2 * TUBES; i += TUBES) rows[i].tried.od = 1.3;
    ck_assert_uint_eq(lightest_tube(rows, 2 * TUBES), 3);
    for (size_t i = 0; i < TUBES; i++) rows[i].tried.result.verdict = RBOW_SHORT;
    ck_assert_uint_eq(lightest_tube(rows, 2 * TUBES), TUBES); /* none */
}
END_TEST

START_TEST(the_nearest_where_none_holds)
{
    compare_row rows[2 * TUBES];
    two_cases(rows);
    ck_assert_uint_eq(nearest_tube(rows, 2 * TUBES), 2); /* both hold in both cases; the larger of the smallest margins */
    for (size_t t = 2; t < TUBES; t++) rows[t].tried.result = (rbow_result){.margin = -0.5, .verdict = RBOW_SHORT};
    ck_assert_uint_eq(nearest_tube(rows, 2 * TUBES), 1); /* each holds in one case: -0.1 is the largest */
    rows[TUBES + 1].tried.result.verdict = RBOW_SHORT;
    ck_assert_uint_eq(nearest_tube(rows, 2 * TUBES), 2); /* holds in one case, which the nearer margin of another does not outweigh */
    for (size_t i = 0; i < 2 * TUBES; i++)
        if (i % TUBES != 0) make_impossible(&rows[i]);
    ck_assert_uint_eq(nearest_tube(rows, 2 * TUBES), 0);
    make_impossible(&rows[0]);
    make_impossible(&rows[TUBES]);
    rows[3] = tried("first", 3, 1, 1, -0.9);
    ck_assert_uint_eq(nearest_tube(rows, 2 * TUBES), 3); /* the only one that is possible somewhere */
}
END_TEST

/* Part 0 has two cases and a pick, part 1 one case and none. */
START_TEST(parts_with_their_picks)
{
    compare_row rows[3 * TUBES];
    two_cases(rows);
    for (size_t t = 0; t < TUBES; t++) {
        rows[2 * TUBES + t] = tried("third", t, 1, 2, -0.5);
        rows[2 * TUBES + t].number = 1;
    }
    rows[3].pick = rows[TUBES + 3].pick = COMPARE_LIGHTEST;
    const parts_sum all = sum_of_parts(rows, 3 * TUBES);
    ck_assert_uint_eq(all.parts, 2);
    ck_assert_uint_eq(all.picked, 1);
    near_within(all.weight, 1.4, 0, 0);
    near_within(all.change, 0.4, 0, 1e-15);
    part_sum parts[2];
    sum_each_part(rows, 3 * TUBES, 2, parts);
    ck_assert_ptr_eq(parts[0].first, &rows[0]);
    ck_assert_ptr_eq(parts[0].pick, &rows[3]);
    ck_assert_uint_eq(parts[0].cases, 2);
    near_within(parts[0].worst, 0.1, 0, 0);
    ck_assert_str_eq(parts[0].worst_case, "second");
    ck_assert_ptr_eq(parts[1].first, &rows[2 * TUBES]);
    ck_assert_ptr_null(parts[1].pick);
    ck_assert_uint_eq(parts[1].cases, 1);
    ck_assert_str_eq(parts[1].worst_case, "");
}
END_TEST

/* ---- scatter ---------------------------------------------------------------------------------------------- */

static double bars_below(const scatter_row *r, double margin)
{
    double sum = 0;
    const double width = (r->high - r->low) / SCATTER_BARS;
    for (int i = 0; i < SCATTER_BARS && r->low + (i + 1) * width <= margin + 1e-9; i++) sum += r->bars[i];
    return sum;
}

/* Where margins lie on both sides of 0, no bar does: the bars left of 0 hold exactly those that are short. */
START_TEST(zero_is_a_boundary_of_bars)
{
    enum { COUNT = 1000 };
    for (int shift = 1; shift < 100; shift++) {
        double margins[COUNT], below = 0, total = 0;
        for (int i = 0; i < COUNT; i++) {
            margins[i] = -0.005 * shift + 0.5 * i / (COUNT - 1);
            below += margins[i] < 0;
        }
        scatter_row r = {.name = ""};
        scatter_fill_bars(&r, margins, COUNT);
        for (int i = 0; i < SCATTER_BARS; i++) total += r.bars[i];
        near_within(total, COUNT, 0, 0);
        const double width = (margins[COUNT - 1] - margins[0]) / (SCATTER_BARS - 1), lines = -r.low / width;
        near_within(lines, round(lines), 0, 1e-9);
        ck_assert(r.low <= margins[0]);
        double sum = 0;
        for (int i = 0; i < (int)round(lines); i++) sum += r.bars[i];
        near_within(sum, below, 0, 1); /* the one that lies on the boundary */
    }
}
END_TEST

START_TEST(bars_of_one_sign)
{
    const double margins[] = {1, 1.5, 2, 3}, alike[] = {0.25, 0.25, 0.25};
    scatter_row r = {.name = ""};
    scatter_fill_bars(&r, margins, 4);
    near_within(r.low, 1, 0, 0);
    near_within(r.high, 3, 0, 0);
    near_within(r.bars[0], 1, 0, 0);
    near_within(r.bars[6], 1, 0, 0);
    near_within(r.bars[12], 1, 0, 0);
    near_within(r.bars[SCATTER_BARS - 1], 1, 0, 0); /* the largest belongs to the last */
    near_within(bars_below(&r, 2), 2, 0, 0);
    r = (scatter_row){.name = ""};
    scatter_fill_bars(&r, alike, 3);
    near_within(r.bars[0], 3, 0, 0);
    r = (scatter_row){.low = 7};
    scatter_fill_bars(&r, alike, 0);
    near_within(r.low, 7, 0, 0);
}
END_TEST

/* ---- index, limit, cuts ----------------------------------------------------------------------------------- */

START_TEST(parts_come_first)
{
    orientation_row rows[] = {{.is_part = true, .cases = 1}, {.is_part = true, .cases = 1}, {.cases = 5}};
    ck_assert_uint_eq(orientation_parts(rows, 3), 2);
    ck_assert_uint_eq(orientation_parts(rows, 2), 2);
    ck_assert_uint_eq(orientation_parts(rows, 0), 0);
    ck_assert(!orientation_shares(rows, 3));
    rows[1].cases = 2;
    ck_assert(orientation_shares(rows, 3));
    ck_assert(!orientation_shares(rows, 1));
}
END_TEST

START_TEST(past_the_limit)
{
    static const struct {
        int state;
        double room;
        bool short_now, past;
    } want[] = {{LIMIT_FOUND, 0.1, false, false}, {LIMIT_FOUND, 0, false, false}, {LIMIT_FOUND, -0.1, false, true},
                {LIMIT_FOUND, NAN, false, false}, {LIMIT_NEVER, -0.1, false, false}, {LIMIT_ALREADY, 0.1, false, true},
                {LIMIT_NEVER, 0.1, true, true}};
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        const limit_row one = {.found = {.state = want[i].state}, .room = want[i].room, .short_now = want[i].short_now};
        const frame_limit_row frame = {.found = {.state = want[i].state}, .room = want[i].room, .short_now = want[i].short_now};
        ck_assert_int_eq(limit_is_past(&one), want[i].past);
        ck_assert_int_eq(frame_limit_is_past(&frame), want[i].past);
    }
}
END_TEST

START_TEST(the_joint_that_moves_most)
{
    frame_cut_joint_row joints[] = {{"a", {{0, 0, 0}, {9, 9, 9}}}, {"b", {{3, -4, 12}, {0}}}, {"c", {{0, 12, 0}, {0}}}, {"d", {{3, 4, -12}, {0}}}};
    const frame_cut_answer a = {.joints = joints, .joint_count = 4};
    double distance;
    ck_assert_str_eq(frame_cut_moves_most(&a, &distance)->joint, "b"); /* the first among equals */
    near_within(distance, 13, 1e-12, 0);
    for (int i = 1; i < 4; i++) joints[i].moved = (rbow_frame_motion){{5e-11, 0, 0}, {0}};
    ck_assert_ptr_null(frame_cut_moves_most(&a, &distance)); /* rounding */
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, a_tube_over_all_cases);
    tcase_add_test(c, the_lightest_that_holds);
    tcase_add_test(c, the_nearest_where_none_holds);
    tcase_add_test(c, parts_with_their_picks);
    tcase_add_test(c, zero_is_a_boundary_of_bars);
    tcase_add_test(c, bars_of_one_sign);
    tcase_add_test(c, parts_come_first);
    tcase_add_test(c, past_the_limit);
    tcase_add_test(c, the_joint_that_moves_most);
}

int main(void)
{
    return run_tests("choice", fill);
}
