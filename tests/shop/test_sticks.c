/* Cutting plans: kerfs, known packings, bounds, straightness, and small instances against every arrangement. */
#include "dice.h"
#include "near.h"

#include <railbow/sticks.h>

#include <stdbool.h>
#include <string.h>

enum { MOST = 600 };
static const double nothing = NAN;

typedef struct task {
    rbow_piece pieces[MOST];
    rbow_stick sticks[MOST];
    size_t piece_count, stick_count;
    double kerf;
    int stick_of[MOST];
    rbow_cutting cutting;
} task;

static void add_pieces(task *t, int count, double length, double bow_most)
{
    for (int i = 0; i < count; i++) t->pieces[t->piece_count++] = (rbow_piece){length, bow_most};
}

static void add_sticks(task *t, int count, double length, double bow)
{
    for (int i = 0; i < count; i++) t->sticks[t->stick_count++] = (rbow_stick){length, bow};
}

/* What every plan must be, whatever it is worth. */
static void ck_plan(const task *t)
{
    double used[MOST] = {0}, length = 0, remainder = 0;
    int pieces[MOST] = {0}, left = 0, sticks = 0;
    for (size_t i = 0; i < t->piece_count; i++) {
        const int stick = t->stick_of[i];
        left += stick == RBOW_NO_STICK;
        if (stick == RBOW_NO_STICK) continue;
        ck_assert_int_lt(stick, (int)t->stick_count);
        const double most = t->pieces[i].bow_most, share = t->pieces[i].length / t->sticks[stick].length;
        if (!isnan(most)) ck_assert(t->sticks[stick].bow * share * share <= most * (1 + 1e-12));
        used[stick] += t->pieces[i].length;
        pieces[stick]++;
    }
    for (size_t k = 0; k < t->stick_count; k++) {
        if (pieces[k] == 0) continue;
        sticks++;
        length += t->sticks[k].length;
        ck_assert(used[k] + (pieces[k] - 1) * t->kerf <= t->sticks[k].length + 2e-9);
        remainder = fmax(remainder, t->sticks[k].length - used[k] - pieces[k] * t->kerf);
    }
    ck_assert_int_eq(t->cutting.left, left);
    ck_assert_int_eq(t->cutting.sticks, sticks);
    near_within(t->cutting.length, length, 1e-12, 0);
    near_within(t->cutting.remainder, remainder, 0, 1e-8);
    if (left == 0) ck_assert_int_le(t->cutting.least, sticks);
}

static rbow_cutting plan(task *t)
{
    void *room = malloc(rbow_sticks_room(t->piece_count, t->stick_count));
    ck_assert_int_eq(rbow_sticks_plan(t->pieces, t->piece_count, t->sticks, t->stick_count, t->kerf, room, t->stick_of, &t->cutting), RBOW_OK);
    free(room);
    ck_plan(t);
    return t->cutting;
}

/* ---- kerfs ----------------------------------------------------------------------------------------------------------------- */

START_TEST(pieces_that_fill_a_stick_need_a_cut_fewer)
{
    for (int n = 1; n <= 40; n++)
        for (double kerf = 0; kerf < 0.2; kerf += 0.0625)
            for (int over = -1; over <= 1; over++) {
                task t = {.kerf = kerf};
                add_pieces(&t, n, 7.3, NAN);
                add_sticks(&t, 1, n * 7.3 + (n - 1) * kerf + over * 2e-9 * n, NAN);
                const rbow_cutting c = plan(&t);
                ck_assert_msg((c.left > 0) == (over < 0), "%d pieces, kerf %g, over %d: %d left", n, kerf, over, c.left); /* the stick is too short by 2e-9 a piece */
            }
}
END_TEST

START_TEST(what_is_left)
{
    near_within(rbow_stick_remainder(100, 60, 2, 0.125), 39.75, 1e-14, 0);
    near_within(rbow_stick_remainder(100, 99.8, 2, 0.125), 0, 0, 0); /* the last cut runs out of the stick */
    near_within(rbow_stick_remainder(100, 100, 1, 0.125), 0, 0, 0);
    const rbow_stick stick = {240, 0.5}, unknown = {240, NAN};
    near_within(rbow_stick_piece_bow(&stick, 60), 0.5 / 16, 1e-14, 0);
    ck_assert(isnan(rbow_stick_piece_bow(&unknown, 60)));
}
END_TEST

/* ---- known optima ----------------------------------------------------------------------------------------------------------- */

/* Sticks cut up at random with kerfs, nothing left: no plan can need fewer. */
START_TEST(sticks_that_were_cut_up)
{
    dice d = {7};
    int proven = 0;
    for (int k = 0; k < 150; k++) {
        task t = {.kerf = dice_between(&d, 0, 0.1)};
        const int sticks = 1 + dice_below(&d, 8);
        for (int i = 0; i < sticks; i++) {
            const int cuts = 1 + dice_below(&d, 5);
            double left = 240, shares[6], total = 0;
            for (int j = 0; j <= cuts; j++) total += shares[j] = dice_between(&d, 0.2, 1);
            left -= cuts * t.kerf;
            for (int j = 0; j <= cuts; j++) add_pieces(&t, 1, left * shares[j] / total, NAN);
        }
        add_sticks(&t, sticks + 3, 240, NAN);
        const rbow_cutting c = plan(&t);
        ck_assert_int_eq(c.left, 0);
        ck_assert_int_eq(c.least, sticks);
        ck_assert_int_ge(c.sticks, sticks);
        if (c.basis != RBOW_CUTTING_EXACT) continue; /* a puzzle of 48 pieces without a gap may outlast the search */
        ck_assert_int_eq(c.sticks, sticks);
        near_within(c.remainder, 0, 0, 1e-8);
        proven++;
    }
    ck_assert_int_ge(proven, 120);
}
END_TEST

/* The family on which first fit decreasing takes 11/9 of the optimum (Johnson, Garey, Graham et al., SIAM J. Computing 3, 1974,
 * from memory): 6 sticks of {1/2 + e, 1/4 + e, 1/4 - 2e} and 3 of {1/4 + 2e, 1/4 + 2e, 1/4 - 2e, 1/4 - 2e} are full; first fit
 * decreasing takes 11. With 31 full pieces more there are more than are searched. */
START_TEST(where_first_fit_decreasing_is_worst)
{
    const double c = 100, e = 1;
    task t = {.kerf = 0};
    add_pieces(&t, 6, c / 2 + e, NAN);
    add_pieces(&t, 6, c / 4 + 2 * e, NAN);
    add_pieces(&t, 6, c / 4 + e, NAN);
    add_pieces(&t, 12, c / 4 - 2 * e, NAN);
    add_sticks(&t, 12, c, NAN);
    const rbow_cutting found = plan(&t);
    ck_assert_int_eq(found.sticks, 9);
    ck_assert_int_eq(found.basis, RBOW_CUTTING_EXACT);
    ck_assert_int_eq(found.least, 9);
    add_pieces(&t, 31, c, NAN);
    add_sticks(&t, 40, c, NAN);
    ck_assert_int_eq(plan(&t).basis, RBOW_CUTTING_DECREASING);
    ck_assert_int_ge(t.cutting.sticks, 40);
    ck_assert_int_le(t.cutting.sticks, 42);
    ck_assert_int_eq(t.cutting.least, 40);
}
END_TEST

/* Triplets (Falkenauer 1996, class t60, by its rule, from memory): 20 bins of 1000, each of three pieces that fill it; the
 * pieces lie between 250 and 500. The optimum is 20; first fit decreasing needs 22 or 23. */
START_TEST(triplets)
{
    dice d = {1996};
    int met = 0;
    for (int k = 0; k < 10; k++) {
        task t = {.kerf = 0};
        for (int i = 0; i < 20; i++) {
            const int first = 380 + dice_below(&d, 110), rest = 1000 - first, second = 251 + dice_below(&d, rest / 2 - 251);
            add_pieces(&t, 1, first, NAN);
            add_pieces(&t, 1, second, NAN);
            add_pieces(&t, 1, rest - second, NAN);
        }
        add_sticks(&t, 30, 1000, NAN);
        const rbow_cutting c = plan(&t);
        ck_assert_int_eq(c.least, 20);
        ck_assert_int_le(c.sticks, 24);
        if (c.basis == RBOW_CUTTING_EXACT) ck_assert_int_eq(c.sticks, 20);
        met += c.sticks == 20;
    }
    ck_assert_int_ge(met, 8);
}
END_TEST

/* ---- small instances against every arrangement --------------------------------------------------------------------------------- */

typedef struct every {
    const task *t;
    int at[12];
    int left, sticks; /* the best */
    double length, remainder;
} every;

static void try_all(every *e, size_t i)
{
    const task *t = e->t;
    if (i < t->piece_count) {
        for (int stick = 0; stick < (int)t->stick_count; stick++) {
            e->at[i] = stick;
            try_all(e, i + 1);
        }
        return;
    }
    int sticks = 0;
    double length = 0, remainder = 0;
    for (size_t k = 0; k < t->stick_count; k++) {
        double used = 0;
        int pieces = 0;
        for (size_t p = 0; p < t->piece_count; p++) {
            if (e->at[p] != (int)k) continue;
            const double share = t->pieces[p].length / t->sticks[k].length, most = t->pieces[p].bow_most;
            if (!isnan(most) && !(t->sticks[k].bow * share * share <= most * (1 + 1e-12))) return;
            used += t->pieces[p].length;
            pieces++;
        }
        if (pieces == 0) continue;
        if (used + (pieces - 1) * t->kerf > t->sticks[k].length + 1e-9) return;
        sticks++;
        length += t->sticks[k].length;
        remainder = fmax(remainder, t->sticks[k].length - used - pieces * t->kerf);
    }
    const bool better = e->sticks == 0 || sticks < e->sticks || (sticks == e->sticks && (length < e->length - 1e-9
                        || (length < e->length + 1e-9 && remainder > e->remainder)));
    if (!better) return;
    e->sticks = sticks;
    e->length = length;
    e->remainder = remainder;
}

START_TEST(as_every_arrangement_says)
{
    dice d = {99};
    int possible = 0, none = 0;
    for (int k = 0; k < 1500; k++) {
        task t = {.kerf = dice_chance(&d, 0.5) ? 0.5 : 0};
        const int pieces = 1 + dice_below(&d, 6), sticks = 1 + dice_below(&d, 4);
        for (int i = 0; i < pieces; i++) add_pieces(&t, 1, 5 + dice_below(&d, 20), dice_chance(&d, 0.6) ? nothing : 0.01 * (1 + dice_below(&d, 10)));
        for (int i = 0; i < sticks; i++) add_sticks(&t, 1, 20 + 5 * dice_below(&d, 6), dice_chance(&d, 0.3) ? nothing : 0.05 * dice_below(&d, 8));
        every e = {.t = &t};
        try_all(&e, 0);
        const rbow_cutting c = plan(&t);
        ck_assert_int_eq(c.left == 0, e.sticks > 0);
        none += e.sticks == 0;
        if (e.sticks == 0) continue;
        possible++;
        ck_assert_int_eq(c.basis, RBOW_CUTTING_EXACT);
        ck_assert_int_eq(c.sticks, e.sticks);
        ck_assert_int_eq(c.least, e.sticks);
        near_within(c.length, e.length, 1e-12, 0);
        near_within(c.remainder, e.remainder, 0, 1e-8);
    }
    ck_assert_int_ge(possible, 300);
    ck_assert_int_ge(none, 100);
}
END_TEST

/* ---- straightness -------------------------------------------------------------------------------------------------------------- */

START_TEST(an_unknown_bow_serves_no_need)
{
    task t = {.kerf = 0};
    add_pieces(&t, 1, 60, 0.5);
    add_sticks(&t, 1, 240, NAN);
    ck_assert_int_eq(plan(&t).left, 1);
    add_sticks(&t, 1, 240, 8); /* 8/16 over 60 in: just what may be */
    ck_assert_int_eq(plan(&t).left, 0);
    ck_assert_int_eq(t.stick_of[0], 1);
    t.sticks[1].bow = 8.001;
    ck_assert_int_eq(plan(&t).left, 1);
}
END_TEST

START_TEST(the_straightest_go_where_they_are_needed)
{
    task t = {.kerf = 0};
    add_pieces(&t, 1, 100, 0.05); /* 0.2 over 200 */
    add_pieces(&t, 1, 101, NAN);
    add_pieces(&t, 1, 102, 0.10); /* 0.384 over 200 */
    add_sticks(&t, 1, 200, 0.3);
    add_sticks(&t, 1, 200, 0.1);
    add_sticks(&t, 1, 200, 0.02);
    add_sticks(&t, 1, 200, NAN);
    add_sticks(&t, 1, 200, 0.6);
    const rbow_cutting c = plan(&t);
    ck_assert_int_eq(c.sticks, 3); /* 100 + 101 exceed 200 */
    ck_assert_int_eq(t.stick_of[0], 2); /* the tightest need takes the straightest */
    ck_assert_int_eq(t.stick_of[2], 1);
    ck_assert_int_eq(t.stick_of[1], 3); /* no need: the one of which least is known */
}
END_TEST

START_TEST(short_sticks_are_used_up_first)
{
    task t = {.kerf = 0};
    add_pieces(&t, 1, 30, NAN);
    add_sticks(&t, 2, 240, NAN);
    add_sticks(&t, 1, 36, NAN);
    ck_assert_int_eq(plan(&t).sticks, 1);
    ck_assert_int_eq(t.stick_of[0], 2);
    near_within(t.cutting.remainder, 6, 1e-12, 0);
}
END_TEST

/* With the same sticks one large remainder is worth more than two small ones. */
START_TEST(one_large_remainder)
{
    task t = {.kerf = 0};
    add_pieces(&t, 2, 50, NAN);
    add_pieces(&t, 1, 40, NAN);
    add_pieces(&t, 1, 30, NAN);
    add_sticks(&t, 2, 100, NAN);
    near_within(plan(&t).remainder, 30, 1e-12, 0); /* 50 + 50 and 40 + 30 */
}
END_TEST

START_TEST(too_few_sticks)
{
    task t = {.kerf = 0};
    add_pieces(&t, 5, 60, NAN);
    add_pieces(&t, 3, 30, NAN);
    add_sticks(&t, 2, 100, NAN);
    const rbow_cutting c = plan(&t);
    ck_assert_int_eq(c.left, 4);
    ck_assert_int_eq(c.basis, RBOW_CUTTING_DECREASING);
    task empty = {.kerf = 0};
    ck_assert_int_eq(plan(&empty).sticks, 0);
    add_pieces(&empty, 2, 60, NAN);
    ck_assert_int_eq(plan(&empty).left, 2);
}
END_TEST

START_TEST(more_pieces_than_are_searched)
{
    dice d = {3};
    task t = {.kerf = 0.0625};
    for (int i = 0; i < 500; i++) add_pieces(&t, 1, dice_between(&d, 8, 60), dice_chance(&d, 0.7) ? nothing : 0.05);
    add_sticks(&t, 60, 240, 0.4);
    add_sticks(&t, 60, 240, NAN);
    const rbow_cutting c = plan(&t);
    ck_assert_int_eq(c.basis, RBOW_CUTTING_DECREASING);
    ck_assert_int_eq(c.left, 0);
    ck_assert_int_le(c.sticks, c.least + 4);
}
END_TEST

START_TEST(what_is_refused)
{
    const rbow_piece piece = {10, NAN}, none = {0, NAN}, crooked = {10, -1}, endless = {INFINITY, NAN};
    const rbow_stick stick = {100, NAN}, no_stick = {-1, NAN}, bent = {100, -0.1}, lost = {100, INFINITY};
    double room[64];
    int of;
    rbow_cutting c;
    ck_assert_uint_le(rbow_sticks_room(1, 1), sizeof room);
#define GIVES(status, piece_, stick_, kerf)                                                                    \
    do {                                                                                                       \
        ck_assert_int_eq(rbow_sticks_plan(&(piece_), 1, &(stick_), 1, kerf, room, &of, &c), status);           \
        if ((status) != RBOW_OK) ck_assert(isnan(c.length) && isnan(c.remainder) && c.sticks == 0);            \
    } while (0)
    GIVES(RBOW_OK, piece, stick, 0);
    GIVES(RBOW_BAD_KERF, piece, stick, -0.1);
    GIVES(RBOW_BAD_KERF, piece, stick, NAN);
    GIVES(RBOW_BAD_KERF, piece, stick, INFINITY);
    GIVES(RBOW_BAD_PIECE, none, stick, 0);
    GIVES(RBOW_BAD_PIECE, endless, stick, 0);
    GIVES(RBOW_BAD_PIECE_BOW, crooked, stick, 0);
    GIVES(RBOW_BAD_STICK, piece, no_stick, 0);
    GIVES(RBOW_BAD_STICK_BOW, piece, bent, 0);
    GIVES(RBOW_BAD_STICK_BOW, piece, lost, 0);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, pieces_that_fill_a_stick_need_a_cut_fewer);
    tcase_add_test(c, what_is_left);
    tcase_add_test(c, sticks_that_were_cut_up);
    tcase_add_test(c, where_first_fit_decreasing_is_worst);
    tcase_add_test(c, triplets);
    tcase_add_test(c, as_every_arrangement_says);
    tcase_add_test(c, an_unknown_bow_serves_no_need);
    tcase_add_test(c, the_straightest_go_where_they_are_needed);
    tcase_add_test(c, short_sticks_are_used_up_first);
    tcase_add_test(c, one_large_remainder);
    tcase_add_test(c, too_few_sticks);
    tcase_add_test(c, more_pieces_than_are_searched);
    tcase_add_test(c, what_is_refused);
}

int main(void)
{
    return run_tests("sticks", fill);
}
