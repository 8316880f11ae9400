/* What makes a short case hold, against the check of the library itself at each value and just beyond it. */
#include "study/members.h"

#include "study/advice.h"

static const double stock[] = {0.028, 0.035, 0.049, 0.058, 0.065, 0.083, 0.095, 0.12};

static advice asked(const problem *p)
{
    advice a;
    const advice_question q = {.problem = p, .name = "it", .walls = stock, .wall_count = sizeof stock / sizeof *stock,
                               .miss_step = 1.0 / 64, .step = 0.001};
    advice_find(&a, &q);
    return a;
}

static double *number(rbow_member *m, int column)
{
    double *const at[ADVICE_COLUMNS] = {
        [ADVICE_MISS_A] = &m->miss_a, [ADVICE_MISS_B] = &m->miss_b, [ADVICE_GAP] = &m->gap, [ADVICE_BOW] = &m->bow, [ADVICE_WALL] = &m->wall};
    return at[column];
}

/* Of the member with one number changed; NaN where the library refuses it. */
static double changed(const problem *p, int column, double value)
{
    rbow_member m = p->member;
    rbow_result r;
    *number(&m, column) = value;
    const rbow_material *k = problem_material(p, &m);
    return k != NULL && rbow_member_check(&m, k, &r) == RBOW_OK ? r.margin : (double)NAN;
}

static const advice_row *row_of(const advice *a, int column)
{
    for (size_t i = 0; i < a->count; i++)
        if (a->rows[i].column == column) return &a->rows[i];
    return NULL;
}

static double step_of(int column)
{
    return column == ADVICE_MISS_A || column == ADVICE_MISS_B ? 1.0 / 64 : 0.001;
}

/* Each value holds; one step beyond it does not, nor does any wall that was passed over; nothing that holds is left out. */
static void ck_true(const problem *p, const advice *a)
{
    rbow_member m = p->member;
    for (int column = 0; column < ADVICE_WALL; column++) {
        const advice_row *r = row_of(a, column);
        const double now = *number(&m, column), step = copysign(step_of(column), now);
        if (r == NULL) {
            ck_assert_msg(!(fabs(now) > 0) || !(changed(p, column, step) >= 0) || !(changed(p, column, 0) >= 0), "column %d was left out", column);
            continue;
        }
        ck_assert(fabs(r->to) < fabs(now) && fabs(r->to) >= fabs(step) && r->to * now > 0);
        near_within(r->to / step, round(r->to / step), 0, 1e-9);
        ck_assert_msg(changed(p, column, r->to) >= 0, "column %d is short at %g", column, r->to);
        near_within(changed(p, column, r->to), r->margin, 0, 1e-9);
        if (fabs(r->to + step) < fabs(now)) ck_assert_msg(changed(p, column, r->to + step) < 0, "column %d holds beyond %g", column, r->to);
    }
    const advice_row *wall = row_of(a, ADVICE_WALL);
    for (size_t i = 0; i < sizeof stock / sizeof *stock; i++) {
        if (wall != NULL && stock[i] >= wall->to) break;
        ck_assert_msg(!(changed(p, ADVICE_WALL, stock[i]) >= 0), "a wall of %g holds", stock[i]);
    }
    if (wall != NULL) ck_assert(changed(p, ADVICE_WALL, wall->to) >= 0);
}

static rbow_member forced(double miss)
{
    rbow_member m = rail();
    m.end_a = m.end_b = RBOW_WELDED;
    m.length = 24;
    m.compression = 4600;
    m.bow = 0.025;
    m.bow_clock = pi;
    m.miss_a = miss;
    return m;
}

START_TEST(a_miss_alone_helps)
{
    const rbow_member m = forced(0.5);
    const problem p = problem_of(&m);
    const advice a = asked(&p);
    ck_assert_ptr_nonnull(row_of(&a, ADVICE_MISS_A));
    ck_assert_ptr_null(row_of(&a, ADVICE_BOW));
    ck_true(&p, &a);
}
END_TEST

/* A step of it is a 64th of an inch, at B as at A. */
START_TEST(a_miss_at_b_helps)
{
    rbow_member m = forced(0);
    m.miss_b = 0.5;
    const problem p = problem_of(&m);
    const advice a = asked(&p);
    ck_assert_ptr_nonnull(row_of(&a, ADVICE_MISS_B));
    ck_assert_ptr_null(row_of(&a, ADVICE_MISS_A));
    ck_true(&p, &a);
}
END_TEST

/* A column without any fault of shape: nothing but a wall helps. */
START_TEST(a_wall_alone_helps)
{
    rbow_member m = rail();
    m.length = 60;
    m.compression = 3000;
    const problem p = problem_of(&m);
    const advice a = asked(&p);
    ck_assert_uint_eq(a.count, 1);
    ck_assert_int_eq(a.rows[0].column, ADVICE_WALL);
    ck_true(&p, &a);
}
END_TEST

START_TEST(nothing_helps)
{
    rbow_member m = rail();
    m.compression = 400000;
    m.bow = 0.1;
    const problem p = problem_of(&m);
    const advice a = asked(&p);
    ck_assert_uint_eq(a.count, 0);
    ck_true(&p, &a);
}
END_TEST

START_TEST(what_holds_needs_nothing)
{
    const rbow_member m = forced(0);
    const problem p = problem_of(&m);
    ck_assert(changed(&p, ADVICE_BOW, m.bow) >= 0);
    ck_assert_uint_eq(asked(&p).count, 0);
}
END_TEST

/* Either miss alone is too much: no change of one of them is enough. */
START_TEST(two_misses)
{
    rbow_member m = forced(0.4);
    m.miss_b = 0.4;
    const problem both = problem_of(&m);
    const advice a = asked(&both);
    ck_assert_ptr_null(row_of(&a, ADVICE_MISS_A));
    ck_assert_ptr_null(row_of(&a, ADVICE_MISS_B));
    ck_true(&both, &a);
    m.miss_a = m.miss_b = 0.045;
    const problem small = problem_of(&m);
    const advice b = asked(&small);
    if (changed(&small, ADVICE_BOW, m.bow) < 0) ck_true(&small, &b);
    else ck_assert_uint_eq(b.count, 0);
}
END_TEST

START_TEST(a_gap_of_either_sign)
{
    for (double sign = -1; sign <= 1; sign += 2) {
        rbow_member m = forced(0);
        m.compression = sign < 0 ? 4600 : -4600;
        m.gap = sign * 0.05;
        const problem p = problem_of(&m);
        const advice a = asked(&p);
        ck_assert(changed(&p, ADVICE_GAP, m.gap) < 0);
        ck_true(&p, &a);
        if ( changed(&p, ADVICE_GAP, sign * 0.001) >= 0) ck_assert_ptr_nonnull(row_of(&a, ADVICE_GAP));
    }
}
END_TEST

/* Any mixture, clocks that are not known among them. */
START_TEST(random_members)
{
    size_t changes = 0, shorts = 0;
    gsl_rng *d = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(d, 19);
    for (int i = 0; i < 150; i++) {
        rbow_member m = forced(dice(d, 0, 1) < 0.5 ? 0 : dice(d, 0.01, 0.3));
        m.length = dice(d, 18, 60);
        m.compression = dice(d, -8000, 8000);
        m.bow = dice(d, 0, 0.3);
        if (dice(d, 0, 1) < 0.3) m.miss_b = dice(d, 0.01, 0.2);
        if (dice(d, 0, 1) < 0.3) m.gap = dice(d, -0.05, 0.05);
        if (dice(d, 0, 1) < 0.3) m.bow_clock = RBOW_ANY_CLOCK;
        const problem p = problem_of(&m);
        const double margin = changed(&p, ADVICE_WALL, m.wall);
        if (isnan(margin)) continue;
        const advice a = asked(&p);
        shorts += margin < 0;
        changes += a.count;
        if (margin < 0) ck_true(&p, &a);
        else ck_assert_uint_eq(a.count, 0);
    }
    gsl_rng_free(d);
    ck_assert_uint_gt(shorts, 40);
    ck_assert_uint_gt(changes, 40);
}
END_TEST

/* With a direction more than can be searched, walls alone are tried, and that is said. */
START_TEST(many_unknown_directions)
{
    rbow_member m = forced(0.2);
    m.miss_b = 0.1;
    m.eccentricity = 0.02;
    m.compression = 12000;
    m.bow_clock = m.miss_a_clock = m.miss_b_clock = RBOW_ANY_CLOCK;
    problem p = problem_of(&m);
    ck_assert(asked(&p).searched);
    p.member.eccentricity_clock = RBOW_ANY_CLOCK;
    ck_assert(changed(&p, ADVICE_WALL, m.wall) < 0);
    const advice a = asked(&p);
    ck_assert(!a.searched);
    ck_assert_uint_le(a.count, 1);
    if (a.count == 1) ck_assert(a.rows[0].column == ADVICE_WALL && changed(&p, ADVICE_WALL, a.rows[0].to) >= 0);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_miss_alone_helps);
    tcase_add_test(cases, a_miss_at_b_helps);
    tcase_add_test(cases, a_wall_alone_helps);
    tcase_add_test(cases, nothing_helps);
    tcase_add_test(cases, what_holds_needs_nothing);
    tcase_add_test(cases, two_misses);
    tcase_add_test(cases, a_gap_of_either_sign);
    tcase_add_test(cases, random_members);
    tcase_add_test(cases, many_unknown_directions);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("advice", fill);
}
