/* The limit of a column: against closed forms, and against the margin itself at the value found and just past it. */
#include "study/members.h"

#include "study/limit.h"

static limit_answer found(const problem *p, const limit_question *q, rbow_status want)
{
    limit_answer a;
    ck_assert_int_eq(limit_find(p, q, &a), want);
    return a;
}

/* The value found holds, the next one does not. */
static void ck_edge(const problem *p, const limit_question *q, const limit_answer *a)
{
    const double next = a->limit + 1e-7 * (q->to - q->from);
    ck_assert_int_eq(a->state, LIMIT_FOUND);
    ck_assert_msg(margin_with(p, q->column, a->limit) >= q->margin, "%g short at its limit", a->limit);
    ck_assert_msg(margin_with(p, q->column, next) < q->margin, "%g holds past its limit", next);
}

/* A bar in tension: margin = yield x area / (pull x factor) - 1. */
START_TEST(a_pull)
{
    const rbow_member m = rail();
    const problem p = problem_of(&m);
    const double area = pi * 0.058 * (1.25 - 0.058);
    for (double target = -0.5; target < 2; target += 0.5) {
        const limit_question q = {PARAMETER(compression), 0, -60000, target};
        const limit_answer a = found(&p, &q, RBOW_OK);
        near_within(a.limit, -75e3 * area / (1.5 * (1 + target)), 0, 1e-7 * 60000);
        ck_edge(&p, &q, &a);
        ck_assert(isnan(a.ends_at));
    }
}
END_TEST

/* A slender pinned column: pi^2 E I / L^2 = 1.5 P, solved for L; and downward for the wall. */
START_TEST(a_column)
{
    rbow_member m = rail();
    m.column_curve = RBOW_CURVE_EULER;
    m.compression = 2000;
    const problem p = problem_of(&m);
    const double inertia = pi / 64 * (pow(1.25, 4) - pow(1.25 - 0.116, 4));
    const limit_question longer = {PARAMETER(length), 20, 300, 0};
    const limit_answer a = found(&p, &longer, RBOW_OK);
    near_within(a.limit, pi * sqrt(29e6 * inertia / 3000), 0, 1e-7 * 280);
    ck_edge(&p, &longer, &a);

    m.length = 60;
    const problem long_one = problem_of(&m);
    const limit_question thinner = {PARAMETER(wall), 0.12, 0.02, 0};
    const limit_answer b = found(&long_one, &thinner, RBOW_OK);
    const double needed = 3000 * 60 * 60 / (pi * pi * 29e6);
    near_within(b.limit, (1.25 - pow(pow(1.25, 4) - 64 / pi * needed, 0.25)) / 2, 0, 1e-7 * 0.1);
    ck_edge(&long_one, &thinner, &b);
}
END_TEST

/* No sample of a fine scan before the limit is short. */
static void ck_first(const problem *p, const limit_question *q, const limit_answer *a)
{
    for (int i = 0; i < 500; i++) {
        const double value = q->from + i / 500.0 * (a->limit - q->from);
        ck_assert_msg(margin_with(p, q->column, value) >= q->margin, "short at %g, before %g", value, a->limit);
    }
}

START_TEST(every_column_of_any_member)
{
    static const struct {
        parameter column;
        double from, to;
    } asked[] = {
        {PARAMETER(od), 2, 0.5},         {PARAMETER(wall), 0.12, 0.02},   {PARAMETER(length), 10, 200},    {PARAMETER(end_a), 3e5, 0},
        {PARAMETER(end_b), 0, 3e5},      {PARAMETER(compression), 0, 3e4}, {PARAMETER(compression), 0, -3e4}, {PARAMETER(eccentricity), 0, 2},
        {PARAMETER(moment_a), 0, 2e4},   {PARAMETER(moment_b), 0, -2e4},  {PARAMETER(point_load), 0, 2000}, {PARAMETER(point_at), 0, 10},
        {PARAMETER(spread_load), 0, 80}, {PARAMETER(spread_clock), 0, 6}, {PARAMETER(vertical_g), 0, 500}, {PARAMETER(torque), 0, 2e4},
        {PARAMETER(bow), 0, 1},          {PARAMETER(bow_clock), 0, 6.28}, {PARAMETER(miss_a), 0, 2},       {PARAMETER(miss_b), 0, 2},
        {PARAMETER(gap), 0, 0.2},        {PARAMETER(gap), 0, -0.2},       {PARAMETER(weld_zone), 0, 8},    {PARAMETER(dressed), 0, 0.03},
        {PARAMETER(factor), 0.5, 9},     {PARAMETER(factor_yield), 0.5, 9},
    };
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    int count = 0;
    for (int n = 0; n < 4; n++)
        for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
            const rbow_member m = any_member(r);
            const problem p = problem_of(&m);
            const double first = margin_with(&p, asked[i].column, asked[i].from);
            limit_question q = {asked[i].column, asked[i].from, asked[i].to, first - 0.2 * (1 + first)};
            if (isnan(first) || isinf(first)) q.margin = 0;
            limit_answer a;
            if (limit_find(&p, &q, &a) != RBOW_OK || a.state != LIMIT_FOUND) continue;
            ck_edge(&p, &q, &a);
            ck_first(&p, &q, &a);
            count++;
        }
    gsl_rng_free(r);
    ck_assert_int_gt(count, 50);
}
END_TEST

/* ---- dips ------------------------------------------------------------------------------------------- */

/* A bowed strut whose side load turns once round: worst where it points with the bow. The target is the margin at
 * half a width beside the worst clock, so that the dip is that wide. */
static void ck_dip(double worst, double width)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.2;
    m.bow_clock = worst;
    m.spread_load = 4;
    const problem p = problem_of(&m);
    const double edge = worst - width / 2;
    const limit_question q = {PARAMETER(spread_clock), 0, 2 * pi, margin_with(&p, PARAMETER(spread_clock), edge)};
    const limit_answer a = found(&p, &q, RBOW_OK);
    ck_assert_int_eq(a.state, LIMIT_FOUND);
    near_within(a.limit, edge, 0, 1e-7 * 2 * pi);
}

START_TEST(dips_of_a_two_hundredth)
{
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    for (int i = 0; i < 40; i++) ck_dip(dice(r, 0.1, 6.1), 2 * pi / 200);
    gsl_rng_free(r);
}
END_TEST

/* Between the steps, even where two of them are level beside the bottom. */
START_TEST(narrower_dips)
{
    const double step = 2 * pi / 400;
    for (double beside = 0; beside < 1; beside += 0.125)
        for (double width = 1.0 / 400; width > 1e-4; width /= 3) ck_dip((100 + beside) * step, width * 2 * pi);
}
END_TEST

START_TEST(the_first_of_two_dips)
{
    /* a load that turns five times round falls short in its first turn */
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.2;
    m.bow_clock = 200 * degree;
    m.spread_load = 4;
    const problem p = problem_of(&m);
    const double edge = 190 * degree;
    const limit_question q = {PARAMETER(spread_clock), 0, 10 * pi, margin_with(&p, PARAMETER(spread_clock), edge)};
    near_within(found(&p, &q, RBOW_OK).limit, edge, 0, 1e-7 * 10 * pi);
    const limit_question back = {PARAMETER(spread_clock), 10 * pi, 0, q.margin};
    near_within(found(&p, &back, RBOW_OK).limit, 8 * pi + 210 * degree, 0, 1e-7 * 10 * pi);
}
END_TEST

/* ---- ends of the range ------------------------------------------------------------------------------ */

START_TEST(holds_to_the_end)
{
    rbow_member m = rail();
    m.compression = 1000;
    const problem p = problem_of(&m);
    const limit_question q = {PARAMETER(compression), 500, 2000, 0};
    const limit_answer a = found(&p, &q, RBOW_OK);
    ck_assert(a.state == LIMIT_NEVER && is_same(a.limit, 2000) && isnan(a.ends_at));
    m.compression = 0; /* no limit at all */
    const problem idle = problem_of(&m);
    const limit_question bow = {PARAMETER(bow), 1, 0, 0};
    const limit_answer b = found(&idle, &bow, RBOW_OK);
    ck_assert(b.state == LIMIT_NEVER && is_same(b.limit, 0));
}
END_TEST

START_TEST(short_at_the_start)
{
    rbow_member m = rail();
    m.compression = 30000;
    const problem p = problem_of(&m);
    const limit_question q = {PARAMETER(bow), 0, 1, 0};
    const limit_answer a = found(&p, &q, RBOW_OK);
    ck_assert(a.state == LIMIT_ALREADY && is_same(a.limit, 0));
}
END_TEST

/* A miss of more than 10 degrees is refused: the range ends at length x tan 10 deg. */
START_TEST(a_refused_value_ends_the_range)
{
    rbow_member m = rail();
    m.end_a = 1; /* so soft that the miss forces nothing */
    m.compression = 1000;
    const problem p = problem_of(&m);
    for (double to = 7; to < 1e4; to *= 9) {
        const limit_question q = {PARAMETER(miss_a), 0, to, 0};
        const limit_answer a = found(&p, &q, RBOW_OK);
        ck_assert_int_eq(a.state, LIMIT_NEVER);
        ck_assert_int_eq(a.refusal, RBOW_MISS_A_TOO_STEEP);
        near_within(a.limit, 36 * tan(10 * degree), 0, 1e-7 * to);
        ck_assert(is_same(a.ends_at, a.limit) && !isnan(margin_with(&p, PARAMETER(miss_a), a.limit)));
    }
    const limit_question off = {PARAMETER(wall), 0.05, 2, 0};
    const limit_answer a = found(&p, &off, RBOW_OK);
    ck_assert_int_eq(a.refusal, RBOW_BAD_WALL);
    near_within(a.limit, 0.625, 0, 1e-7 * 2);
}
END_TEST

START_TEST(a_fall_between_the_last_step_and_the_end_of_the_model)
{
    rbow_member m = rail(); /* fixed ends, so that a miss bends it */
    m.end_a = m.end_b = RBOW_FIXED;
    m.compression = 1000;
    const problem p = problem_of(&m);
    const limit_question near_end = {PARAMETER(miss_a), 0, 1000, 0}; /* the model ends within the third step */
    const limit_answer a = found(&p, &near_end, RBOW_OK);
    ck_assert_int_eq(a.state, LIMIT_FOUND);
    ck_assert(margin_with(&p, PARAMETER(miss_a), a.limit) >= 0 && a.limit < 36 * tan(10 * degree));
}
END_TEST

START_TEST(a_start_that_the_model_refuses)
{
    const rbow_member m = rail();
    const problem p = problem_of(&m);
    const limit_question q = {PARAMETER(wall), 0, 0.1, 0};
    found(&p, &q, RBOW_BAD_WALL);
    const limit_question thin = {PARAMETER(wall), 0.0001, 0.1, 0};
    found(&p, &thin, RBOW_WALL_RULE);
}
END_TEST

/* ---- ranges that are too wide ------------------------------------------------------------------------ */

/* As exact as in a range that fits: P = yield x area / factor in tension, whatever the range. */
START_TEST(a_range_of_any_width)
{
    const rbow_member m = rail();
    const problem p = problem_of(&m);
    const double load = 75e3 * pi * 0.058 * (1.25 - 0.058) / 1.5;
    for (double to = 1e5; to < 1e19; to *= 100) {
        const limit_question q = {PARAMETER(compression), 0, -to, 0};
        const limit_answer a = found(&p, &q, RBOW_OK);
        ck_assert_int_eq(a.state, LIMIT_FOUND);
        near_within(a.limit, -load, 1e-9, 0);
    }
}
END_TEST

/* The dip lies within the first step of a range that is 400 times too wide, before the fall that the first look finds. */
START_TEST(a_dip_before_a_fall_in_the_first_step)
{
    rbow_member m = rail();
    m.compression = 3000;
    m.bow = 0.2;
    m.bow_clock = 150 * degree;
    m.spread_load = 4;
    const problem p = problem_of(&m);
    const double edge = 140 * degree;
    for (double turns = 100.3; turns < 300; turns *= 2) { /* a step ends where it holds or where it is short */
        const limit_question q = {PARAMETER(spread_clock), 0, 2 * pi * turns, margin_with(&p, PARAMETER(spread_clock), edge)};
        near_within(found(&p, &q, RBOW_OK).limit, edge, 0, 1e-7 * 2 * pi * turns);
    }
}
END_TEST

START_TEST(what_the_case_itself_contradicts)
{
    const limit_question q = {0, 10, 110, 0.5}, back = {0, 110, 10, 0.5};
    const limit_answer falls = {LIMIT_FOUND, 60, NAN, RBOW_OK, 1e-5}, holds = {LIMIT_NEVER, 110, NAN, RBOW_OK, 1e-5};
    const limit_answer already = {LIMIT_ALREADY, 10, NAN, RBOW_OK, 0};
    const struct {
        const limit_question *q;
        const limit_answer *a;
        double now, margin;
        bool want;
    } rows[] = {
        {&q, &falls, 50, 0.6, false},  {&q, &falls, 50, 0.4, true},   {&q, &falls, 60.5, 0.4, false}, {&q, &falls, 60.5, 0.6, false},
        {&q, &falls, 60.000001, 0.6, true}, {&q, &falls, 60, 0.4, true}, {&q, &falls, 5, 0.4, false}, {&q, &falls, 120, 0.6, false},
        {&q, &holds, 50, 0.4, true},   {&q, &holds, 50, 0.6, false},  {&q, &holds, 120, 0.4, false},  {&q, &already, 10, 0.4, false},
        {&back, &falls, 70, 0.4, true}, {&back, &falls, 50, 0.4, false}, {&q, &falls, NAN, 0.4, false}, {&q, &falls, 50, NAN, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_msg(limit_contradicts(rows[i].q, rows[i].a, rows[i].now, rows[i].margin) == rows[i].want, "row %zu", i);
}
END_TEST

/* ---- walls that other material rows serve ----------------------------------------------------------- */

static problem two_rows(const rbow_member *m, double upper_from, double upper_yield)
{
    static rbow_material rows[2];
    rows[0] = rows[1] = steel;
    rows[0].wall_up_to = 0.187;
    rows[1].wall_over = upper_from;
    rows[1].yield = rows[1].compression_yield = upper_yield;
    return (problem){*m, "steel", rows, 2, NULL};
}

START_TEST(a_jump_between_material_rows)
{
    rbow_member m = rail();
    m.compression = -15000;
    const problem p = two_rows(&m, 0.187, 20e3);
    const limit_question up = {PARAMETER(wall), 0.1, 0.3, 0};
    const limit_answer a = found(&p, &up, RBOW_OK);
    near_within(a.limit, 0.187, 0, 1e-9);
    ck_assert(margin_with(&p, PARAMETER(wall), a.limit) > 0.5 && margin_with(&p, PARAMETER(wall), 0.18701) < 0);
    ck_edge(&p, &up, &a);
}
END_TEST

START_TEST(a_wall_that_no_row_serves_ends_the_range)
{
    rbow_member m = rail();
    m.compression = -1000;
    const problem p = two_rows(&m, 0.25, 75e3);
    const limit_question up = {PARAMETER(wall), 0.1, 0.4, 0};
    const limit_answer a = found(&p, &up, RBOW_OK);
    ck_assert_int_eq(a.state, LIMIT_NEVER);
    ck_assert_int_eq(a.refusal, RBOW_WALL_NOT_SERVED);
    near_within(a.limit, 0.187, 0, 1e-9);
}
END_TEST

static void fill(TCase *cases)
{
    gsl_set_error_handler_off();
    tcase_add_test(cases, a_pull);
    tcase_add_test(cases, a_column);
    tcase_add_test(cases, every_column_of_any_member);
    tcase_add_test(cases, dips_of_a_two_hundredth);
    tcase_add_test(cases, narrower_dips);
    tcase_add_test(cases, the_first_of_two_dips);
    tcase_add_test(cases, holds_to_the_end);
    tcase_add_test(cases, short_at_the_start);
    tcase_add_test(cases, a_refused_value_ends_the_range);
    tcase_add_test(cases, a_fall_between_the_last_step_and_the_end_of_the_model);
    tcase_add_test(cases, a_start_that_the_model_refuses);
    tcase_add_test(cases, a_range_of_any_width);
    tcase_add_test(cases, a_dip_before_a_fall_in_the_first_step);
    tcase_add_test(cases, what_the_case_itself_contradicts);
    tcase_add_test(cases, a_jump_between_material_rows);
    tcase_add_test(cases, a_wall_that_no_row_serves_ends_the_range);
}

int main(void)
{
    return run_tests("limit", fill);
}
