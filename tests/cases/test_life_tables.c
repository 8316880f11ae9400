/* The tables of S-N curves and lives: rows at fault, ranks, and lives in words. */
#include "cases/detail/curve_table.h"
#include "cases/detail/life_words.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PSI, KSI, MPA };

/* DNV-RP-C203 (2016, 2019), table 2-1, class W2 (read, second hand). */
static curve_row w2(void)
{
    curve_row r;
    field_defaults(&curve_list, &r);
    r.curve.name = "W2";
    r.curve.kind = RBOW_SN_WELD;
    r.curve.log_a1 = 11.107;
    r.curve.m1 = 3;
    r.curve.log_a2 = 13.845;
    r.curve.m2 = 5;
    r.curve.knee_cycles = 1e7;
    r.stress_unit = MPA;
    return r;
}

static void fault_is(curve_row r, const char *column, const char *said)
{
    text why = {0};
    const char *found = curve_fault(&r, &why);
    if (column == NULL) ck_assert_ptr_null(found);
    else ck_assert_str_eq(found, column);
    if (said != NULL) ck_assert_msg(why.at != NULL && strstr(why.at, said) != NULL, "%s", why.at != NULL ? why.at : "");
    text_free(&why);
}

START_TEST(a_curve_of_a_book_is_sound)
{
    curve_row r = w2();
    fault_is(r, NULL, NULL);
    text why = {0};
    curve_fault(&r, &why);
    ck_assert_double_eq_tol(r.curve.stress_unit, 145.0377377, 1e-6); /* psi in a MPa */
    r.curve.log_a2 = r.curve.m2 = r.curve.knee_cycles = NAN; /* one branch */
    fault_is(r, NULL, NULL);
}
END_TEST

/* The branches may part by 1 % of the cycles: 0.0043 of log a2. Rounding to three decimals parts those of W2 by 0.23 %. */
START_TEST(branches_meet_at_the_knee)
{
    curve_row r = w2();
    const double met = log10(1e7) + 5 * (11.107 - 7) / 3;
    r.curve.log_a2 = met + 0.0042;
    fault_is(r, NULL, NULL);
    r.curve.log_a2 = met - 0.0042;
    fault_is(r, NULL, NULL);
    r.curve.log_a2 = met + 0.0046;
    fault_is(r, "log_a2", "do not meet at the knee: at 23.39 MPa the first gives 1e+07 cycles, the second 1.011e+07");
    r.curve.log_a2 = met - 0.0046;
    fault_is(r, "log_a2", "do not meet");
}
END_TEST

START_TEST(columns_of_the_other_kind_are_refused)
{
    curve_row r = w2();
    r.curve.a4 = 0;
    fault_is(r, "a4", "kind metal");
    r = w2();
    r.curve.deviation = 0.1;
    fault_is(r, "deviation", "kind metal");
    r = w2();
    r.curve.kind = RBOW_SN_METAL;
    fault_is(r, "log_a1", "kind weld");
    r = w2();
    r.curve.m1 = NAN;
    fault_is(r, "m1", "a curve of kind weld needs it");
}
END_TEST

/* MIL-HDBK-5H, figure 2.3.1.2.8(a), from memory: log N = 9.65 - 2.85 log(S_eq - 61.3), S_eq = S_max (1 - R)^0.41. */
START_TEST(a_curve_of_metal_needs_its_numbers)
{
    static const char *const needed[] = {"a1", "a2", "a3", "a4"};
    curve_row r;
    field_defaults(&curve_list, &r);
    r.curve.name = "4130";
    r.curve.kind = RBOW_SN_METAL;
    r.stress_unit = KSI;
    const double numbers[] = {9.65, -2.85, 0.41, 61.3};
    for (int i = 0; i < 4; i++) {
        fault_is(r, needed[i], "a curve of kind metal needs it");
        field_set(field_find(&curve_list, needed[i]), &r, numbers[i]);
    }
    fault_is(r, NULL, NULL);
}
END_TEST

/* The second branch is given whole or not at all. */
START_TEST(half_a_branch_is_refused)
{
    static const char *const three[] = {"log_a2", "m2", "knee_cycles"};
    for (int i = 0; i < 3; i++) {
        const field *f = field_find(&curve_list, three[i]);
        curve_row r = w2();
        field_set(f, &r, NAN);
        fault_is(r, three[i], "go together");
        r = w2();
        const double given = field_get(f, &r);
        r.curve.log_a2 = r.curve.m2 = r.curve.knee_cycles = NAN;
        field_set(f, &r, given);
        fault_is(r, i == 2 ? "m2" : "knee_cycles", "go together");
    }
}
END_TEST

static void said_as(double number, const char *words)
{
    text t = {0};
    life_put_number(&t, number);
    ck_assert_str_eq(t.at, words);
    text_free(&t);
}

START_TEST(numbers_have_two_digits)
{
    said_as(NAN, "no number");
    said_as(INFINITY, "no end");
    said_as(0.001, "under 0.1");
    said_as(0.0949, "under 0.1");
    said_as(0.0999, "0.1");
    said_as(0.949, "0.9");
    said_as(3.449, "3.4");
    said_as(9.949, "9.9");
    said_as(9.951, "10");
    said_as(994, "990");
    said_as(996, "1000");
    said_as(3449, "3400");
    said_as(99400, "99000");
    said_as(994999, "990000");
    said_as(995001, "1.0 million");
    said_as(9.949e6, "9.9 million");
    said_as(9.951e6, "10 million");
    said_as(9.949e8, "990 million");
    said_as(9.951e8, "over 1000 million");
    said_as(1e300, "over 1000 million");
}
END_TEST

static void runs_said_as(double runs, const char *words)
{
    text t = {0};
    life_put_runs(&t, runs);
    ck_assert_str_eq(t.at, words);
    text_free(&t);
}

START_TEST(runs_in_words)
{
    runs_said_as(NAN, "no number");
    runs_said_as(INFINITY, "no end by its curve");
    runs_said_as(0.99, "less than one run");
    runs_said_as(1, "about 1.0 runs");
    runs_said_as(3449, "about 3400 runs");
    runs_said_as(2e9, "over 1000 million runs");
}
END_TEST

static life_row life_of(double runs, double unforced, int kind, bool forced)
{
    static const rbow_sn_curve weld = {.name = "W2", .kind = RBOW_SN_WELD}, metal = {.name = "4130", .kind = RBOW_SN_METAL};
    life_row r = {.detail = "", .sn = kind == RBOW_SN_WELD ? &weld : &metal, .forced = forced};
    r.result.runs = runs;
    r.result.runs_unforced = unforced;
    r.result.forced_costs = isinf(runs) && isinf(unforced) ? (double)NAN : unforced / runs;
    return r;
}

START_TEST(first_to_crack_comes_first)
{
    const life_row rows[] = {life_of(INFINITY, INFINITY, 0, false), life_of(900, 900, 0, false), life_of(NAN, 1, 0, false),
                             life_of(30, 30, 0, false), life_of(900, 900, 0, false)};
    life_place order[5];
    const size_t want[] = {2, 3, 1, 4, 0};
    life_rank(rows, 5, order);
    for (int i = 0; i < 5; i++) ck_assert_uint_eq(order[i].row, want[i]);
    ck_assert_uint_eq(life_unknown(rows, 5), 1);
    ck_assert_ptr_null(life_most_forced(rows, 5));
}
END_TEST

START_TEST(what_forcing_costs_most)
{
    const life_row rows[] = {life_of(100, 104, 0, true), life_of(100, 140, 0, true), life_of(100, 900, 0, false), life_of(100, 120, 0, true)};
    ck_assert_ptr_eq(life_most_forced(rows, 4), &rows[1]);
    ck_assert_ptr_null(life_most_forced(rows, 1)); /* a twentieth is nothing */
}
END_TEST

static void forced_says(life_row r, const char *words, const char *reason)
{
    text t = {0}, cost = {0};
    life_put_forced(&t, &r);
    ck_assert_msg(strncmp(t.at, words, strlen(words)) == 0, "%s", t.at);
    ck_assert_msg(strstr(t.at, reason) != NULL, "%s", t.at);
    text_free(&t);
    text_free(&cost);
}

START_TEST(whether_the_forced_fit_matters)
{
    const char *const weld = "as far as the push amplifies it", *const metal = "shifts the mean stress";
    forced_says(life_of(100, 100, RBOW_SN_WELD, false), "Nothing is forced there", "");
    forced_says(life_of(100, 100, RBOW_SN_WELD, true), "The forced fit does not matter there. At a weld", weld);
    forced_says(life_of(INFINITY, INFINITY, RBOW_SN_WELD, true), "The forced fit does not matter there.", weld);
    forced_says(life_of(100, 130, RBOW_SN_WELD, true), "The forced fit matters little there (without it: about 130 runs).", weld);
    forced_says(life_of(100, 2000, RBOW_SN_METAL, true), "The forced fit matters there (without it: about 2000 runs).", metal);
    forced_says(life_of(100, 201, RBOW_SN_METAL, true), "The forced fit matters there (", metal);
    forced_says(life_of(100, 199, RBOW_SN_METAL, true), "The forced fit matters little there (", metal);
    forced_says(life_of(100, INFINITY, RBOW_SN_METAL, true), "The forced fit decides there", metal);
    forced_says(life_of(100, 60, RBOW_SN_METAL, true), "The forced fit happens to lengthen the life there (without it: about 60 runs).", metal);
    forced_says(life_of(NAN, NAN, RBOW_SN_METAL, true), "Without the forced fit: no number either.", metal);
    forced_says(life_of(NAN, 90, RBOW_SN_METAL, true), "Without the forced fit: about 90 runs.", metal);
}
END_TEST

static void cost_is(life_row r, const char *words)
{
    text t = {0};
    life_put_cost(&t, &r);
    ck_assert_str_eq(t.at, words);
    text_free(&t);
}

START_TEST(costs)
{
    cost_is(life_of(100, 126, 0, true), "1.26 x");
    cost_is(life_of(100, 260, 0, true), "2.6 x");
    cost_is(life_of(100, 2600, 0, true), "26 x");
    cost_is(life_of(1, 2600, 0, true), "over 1000 x");
    cost_is(life_of(100, INFINITY, 0, true), "all");
    cost_is(life_of(100, 100, 0, true), "nothing");
    cost_is(life_of(100, 90, 0, true), "lengthens it");
    cost_is(life_of(100, 126, 0, false), "not forced");
    cost_is(life_of(INFINITY, INFINITY, 0, true), "-");
}
END_TEST

static void ck_loads(const life_told *told, const char *words)
{
    text t = {0};
    life_put_loads(&t, told);
    if (words == NULL) ck_assert_uint_eq(t.length, 0);
    else ck_assert_msg(strncmp(t.at, words, strlen(words)) == 0, "%s", t.at);
    text_free(&t);
}

/* Lives of one load case each: perhaps their tube has other loads. In a frame its runs are added up anyway. */
START_TEST(which_loads_a_life_has)
{
    life_row rows[] = {{.loads = 1}, {.loads = 1}};
    life_told told = {.rows = rows, .count = 2};
    ck_assert(life_loads_are_single(rows, 2) && !life_loads_are_single(rows, 0));
    ck_loads(&told, "Each life here is of one load case alone.");
    told.of_frame = true;
    ck_loads(&told, NULL);
    told.of_frame = false;
    rows[1].loads = 3;
    ck_assert(!life_loads_are_single(rows, 2));
    ck_loads(&told, NULL);
    told.picked = true;
    ck_loads(&told, "Only the load cases that --case picks count here");
}
END_TEST

START_TEST(why_this_curve)
{
    static const struct {
        int kind, butt, curve;
        bool usual;
        const char *words;
    } want[] = {
        {RBOW_DETAIL_HOLE, 1, RBOW_SN_METAL, false, "Curve 4130: a metal curve, with the mean stress."},
        {RBOW_DETAIL_RING_WELD, 1, RBOW_SN_WELD, false, "Curve W2: a weld curve, over the range of stress."},
        {RBOW_DETAIL_HOLE, 1, RBOW_SN_METAL, true, "Curve 4130, which is usual for a hole outside the weld zones (common practice"},
        {RBOW_DETAIL_PLACE, 1, RBOW_SN_WELD, true, "Curve W2, which is usual for a place in a weld zone (common practice"},
        {RBOW_DETAIL_SLEEVE, 1, RBOW_SN_WELD, true, "Curve W2, which is usual for a sleeve over a butt weld (common practice"},
        {RBOW_DETAIL_SLEEVE, 0, RBOW_SN_WELD, true, "Curve W2, which is usual for a sleeve that carries alone (common practice"},
        {RBOW_DETAIL_SOCKET, 0, RBOW_SN_WELD, true, "Curve W2, which is usual for a socket (common practice"},
    };
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        life_row r = life_of(100, 100, want[i].curve, false);
        text t = {0};
        r.usual = want[i].usual;
        r.given.kind = want[i].kind;
        r.given.butt = want[i].butt;
        life_put_curve(&t, &r);
        ck_assert_msg(strncmp(t.at, want[i].words, strlen(want[i].words)) == 0, "%s", t.at);
        text_free(&t);
    }
}
END_TEST

START_TEST(remarks_fit)
{
    char all[LIFE_REMARKS_ROOM], one[LIFE_REMARKS_ROOM];
    life_row r = {.usual = true, .lacking = true};
    r.result.remarks = ~0U & ~(unsigned)RBOW_LIFE_LOW_CYCLE;
    life_remarks_write(all, &r);
    ck_assert_str_eq(all, "beyond yield; no equilibrium; mean curve; no curve given; loads may be missing");
    r = (life_row){.usual = false};
    r.result.remarks = RBOW_LIFE_BEYOND_YIELD | RBOW_LIFE_LOW_CYCLE;
    life_remarks_write(one, &r);
    ck_assert_str_eq(one, "beyond yield: low-cycle");
    r.result.remarks = 0;
    life_remarks_write(one, &r);
    ck_assert_str_eq(one, "");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("life tables");
    TCase *c = tcase_create("life tables");
    tcase_add_test(c, a_curve_of_a_book_is_sound);
    tcase_add_test(c, branches_meet_at_the_knee);
    tcase_add_test(c, columns_of_the_other_kind_are_refused);
    tcase_add_test(c, a_curve_of_metal_needs_its_numbers);
    tcase_add_test(c, half_a_branch_is_refused);
    tcase_add_test(c, numbers_have_two_digits);
    tcase_add_test(c, runs_in_words);
    tcase_add_test(c, first_to_crack_comes_first);
    tcase_add_test(c, what_forcing_costs_most);
    tcase_add_test(c, whether_the_forced_fit_matters);
    tcase_add_test(c, costs);
    tcase_add_test(c, which_loads_a_life_has);
    tcase_add_test(c, why_this_curve);
    tcase_add_test(c, remarks_fit);
    suite_add_tcase(s, c);
    SRunner *runner = srunner_create(s);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
