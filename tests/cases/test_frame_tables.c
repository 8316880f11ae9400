/* The tables of a frame: their defaults are those of the library, and each load column knows what it may act on. */
#include "near.h"

#include "cases/frame_results.h"
#include "table/reader.h"
#include "table/text.h"

#include <math.h>
#include <string.h>

START_TEST(defaults_are_those_of_the_library)
{
    joint_row j;
    frame_tube_row t;
    frame_load_row l;
    const rbow_frame_tube tube = rbow_frame_tube_default();
    const rbow_frame_load load = rbow_frame_load_default();
    field_defaults(&joint_list, &j);
    field_defaults(&frame_tube_list, &t);
    field_defaults(&frame_load_list, &l);
    ck_assert_uint_eq(j.joint.held, rbow_frame_joint_default().held);
    near_within(j.joint.mass, rbow_frame_joint_default().mass, 0, 0);
    ck_assert(t.tube.end_a >= tube.end_a && t.tube.end_b >= tube.end_b); /* infinite */
    ck_assert_int_eq(t.tube.column_curve, tube.column_curve);
    ck_assert_int_eq(t.tube.bow_shape, tube.bow_shape);
    const double own[] = {t.tube.fixity, t.tube.bow, t.tube.bow_clock, t.tube.bow_at, t.tube.miss_a, t.tube.miss_b, t.tube.miss_a_clock,
                          t.tube.miss_b_clock, t.tube.gap, t.tube.weld_zone, t.tube.dressed, l.load.at, l.load.vertical_g};
    const double want[] = {tube.fixity, tube.bow, tube.bow_clock, tube.bow_at, tube.miss_a, tube.miss_b, tube.miss_a_clock,
                           tube.miss_b_clock, tube.gap, tube.weld_zone, tube.dressed, load.at, load.vertical_g};
    for (size_t i = 0; i < sizeof own / sizeof *own; i++) near_within(own[i], want[i], 0, 0);
    near_within(l.factor, RBOW_UNSET, 0, 0);
}
END_TEST

START_TEST(each_load_column_knows_what_it_acts_on)
{
    const unsigned joint = 1U << RBOW_ACTS_ON_JOINT, tube = 1U << RBOW_ACTS_ON_TUBE, all = 1U << RBOW_ACTS_ON_ALL;
    const struct {
        const char *column;
        unsigned acts;
    } want[] = {{"force_x", joint | tube}, {"force_z", joint | tube}, {"moment_x", joint}, {"moment_z", joint}, {"at", tube},
                {"spread_x", tube}, {"spread_z", tube}, {"vertical_g", all}, {"forward_g", all}, {"left_g", all}, {"factor", 0},
                {"factor_yield", 0}, {"run", 0}, {"joint", 0}, {"note", 0}};
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        const field *f = field_find(&frame_load_list, want[i].column);
        ck_assert_msg(f != NULL && frame_load_acts(f) == want[i].acts, "%s", want[i].column);
    }
}
END_TEST

START_TEST(the_words_of_held_are_their_bits)
{
    const field *held = field_find(&joint_list, "held");
    joint_row j = {.joint.held = RBOW_HELD_PINNED};
    ck_assert_str_eq(field_text(held, &j), "pinned");
    j.joint.held = RBOW_HELD_FIXED;
    ck_assert_str_eq(field_text(held, &j), "fixed");
    j.joint.held = RBOW_HELD_RY;
    ck_assert_str_eq(field_text(held, &j), "ry");
    j.joint.held = RBOW_HELD_X | RBOW_HELD_RY; /* no one word */
    ck_assert_ptr_null(field_text(held, &j));
}
END_TEST

/* Reads one joint. Returned: what it is held by; -1 after the message `said`. */
static int held_as(const char *cell, const char *said)
{
    joint_row none;
    row_batch b = {0};
    text file = {0};
    int held = -1;
    field_defaults(&joint_list, &none);
    text_format(&file, "joint,x [in],y [in],z [in],held\na,0,0,0,%s\n", cell);
    reader *r = reader_new(&joint_list, "j.csv", &none);
    reader_feed(r, file.at, file.length, &b);
    ck_assert_uint_eq(b.count, 1);
    if (b.rows[0].record != NULL) held = (int)((const joint_row *)b.rows[0].record)->joint.held;
    else ck_assert_str_eq(b.rows[0].complaints, said);
    ck_assert_str_eq(reader_trouble(r), "");
    ck_assert(!reader_is_short_of_memory(r));
    row_batch_free(&b);
    reader_free(r);
    text_free(&file);
    return held;
}

START_TEST(words_of_held_in_any_order)
{
    ck_assert_int_eq(held_as("fixed", ""), RBOW_HELD_FIXED);
    ck_assert_int_eq(held_as("pinned ry", ""), RBOW_HELD_PINNED | RBOW_HELD_RY);
    ck_assert_int_eq(held_as("rz  z x x", ""), RBOW_HELD_X | RBOW_HELD_Z | RBOW_HELD_RZ);
    ck_assert_int_eq(held_as("Y RX", ""), RBOW_HELD_Y | RBOW_HELD_RX);
    ck_assert_int_eq(held_as("", ""), RBOW_HELD_NONE);
    ck_assert_int_eq(held_as("x q", "j.csv:2: held: 'q' is not known: use fixed, pinned, x, y, z, rx, ry or rz; several stand with blanks between them\n"), -1);
    ck_assert_int_eq(held_as("xy", "j.csv:2: held: 'xy' is not known: use fixed, pinned, x, y, z, rx, ry or rz; several stand with blanks between them\n"), -1);
    ck_assert_int_eq(held_as("caf\xE9", "j.csv:2: held: 'caf\\xE9' is not UTF-8\n"), -1);
}
END_TEST

static frame_tube_answer answer(double margin)
{
    return (frame_tube_answer){.result = {.margin = margin, .verdict = margin >= 0 ? RBOW_HOLDS : RBOW_SHORT}};
}

START_TEST(a_tube_counts_in_its_worst_run)
{
    enum { TUBES = 14 };
    frame_tube_answer tubes[2 * TUBES];
    frame_run_answer runs[2] = {{.solved = true}, {.solved = true}};
    const frame_answers a = {.tubes = tubes, .judged = TUBES, .runs = runs, .run_count = 2};
    for (int i = 0; i < TUBES; i++) {
        tubes[i] = answer(1);
        tubes[TUBES + i] = answer(0.01 * (TUBES - i));
    }
    tubes[3] = answer(-0.5);
    frame_order order;
    ck_assert(frame_order_of(&order, &a));
    ck_assert_uint_eq(order.tubes[0], 3);
    ck_assert_uint_eq(order.tubes[1], TUBES - 1);
    ck_assert_uint_eq(frame_order_listed(&order, &a), 1 + FRAME_CLOSEST);
    ck_assert_ptr_eq(frame_worst(&a), &tubes[3]);
    ck_assert(!frame_tube_holds(&a, 3) && frame_tube_holds(&a, 4));
    runs[0].solved = false; /* a run without an answer does not count */
    ck_assert(frame_tube_holds(&a, 3));
    ck_assert_ptr_eq(frame_worst(&a), &tubes[2 * TUBES - 1]);
    frame_order_free(&order);
}
END_TEST

START_TEST(the_factor_that_decides)
{
    frame_tube_answer r = {.factor = 1.5, .factor_yield = 1.2, .result = {.yield_factor = 3, .column_factor = 4, .interaction_factor = 5}};
    const struct {
        int governs;
        double deciding, asked;
    } want[] = {{RBOW_FRAME_BY_YIELD, 3, 1.2}, {RBOW_FRAME_BY_COLUMN, 4, 1.5}, {RBOW_FRAME_BY_INTERACTION, 5, 1.5},
                {RBOW_FRAME_BY_FRAME, 3, 1.5}, {RBOW_FRAME_BY_NONE, INFINITY, 1.5}};
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        r.result.governs = want[i].governs;
        ck_assert(!(frame_deciding_factor(&r) < want[i].deciding) && !(frame_deciding_factor(&r) > want[i].deciding));
        near_within(frame_asked_factor(&r), want[i].asked, 0, 0);
    }
}
END_TEST

START_TEST(near_buckling_is_the_last_remark)
{
    char room[FRAME_REMARKS_ROOM];
    frame_remarks_write(room, 0, 0);
    ck_assert_str_eq(room, "");
    frame_remarks_write(room, 0, 1);
    ck_assert_str_eq(room, NEAR_BUCKLING);
    frame_remarks_write(room, RBOW_REMARK_SLENDER, 1);
    ck_assert_str_eq(room, "slender; " NEAR_BUCKLING);
    frame_remarks_write(room, (1U << RBOW_REMARK_COUNT) - 1, 1);
    ck_assert_uint_lt(strlen(room), sizeof room);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, defaults_are_those_of_the_library);
    tcase_add_test(c, each_load_column_knows_what_it_acts_on);
    tcase_add_test(c, the_words_of_held_are_their_bits);
    tcase_add_test(c, words_of_held_in_any_order);
    tcase_add_test(c, a_tube_counts_in_its_worst_run);
    tcase_add_test(c, the_factor_that_decides);
    tcase_add_test(c, near_buckling_is_the_last_remark);
}

int main(void)
{
    return run_tests("frame_tables", fill);
}
