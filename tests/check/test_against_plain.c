/* The library against the plain check (tests/reference/plain.c), class by class.
 *
 * RAILBOW_PLAIN_MEMBERS  how many members in all; a few hundred by default, 20000 is the full run
 * RAILBOW_PLAIN_PART     "2/4": the second quarter of the classes alone
 * RAILBOW_PLAIN_SEED     another seed, for a hunt
 * RAILBOW_PLAIN_SHOW     how many differing members of a class are printed before it gives up; 3 */
#include "classes.h"

#include <gsl/gsl_errno.h>

static const double closed = 1e-9, load_factor = 1e-7;

typedef struct comparison {
    const sample *s;
    int differences;
} comparison;

static void compare(comparison *c, const char *what, double got, double want, double rel, double abs_)
{
    if (isnan(want) && isnan(got)) return;
    if (isinf(want) && isinf(got) && want * got > 0) return;
    if (fabs(got - want) <= rel * fabs(want) + abs_) return;
    fprintf(stderr, "%s = %.15g, want %.15g\n", what, got, want);
    c->differences++;
}

/* Whether the use of a concrete member passes 1 so slowly that rounding moves the factor: at the library's it is 1 to the
 * last digits. */
static bool is_flat(const plain_tube *t, double got, double want)
{
    return fabs(got - want) <= 1e-3 * want && fabs(plain_state_at(t, got).use - 1) <= 1e-12;
}

/* Returned: whether they may be compared with those of other scenarios */
static bool compare_factors(comparison *c, const plain_tube *t, const rbow_result *got)
{
    plain_factors want = plain_factors_of(t);
    const bool flat = fabs(got->yield_factor - want.yield) > load_factor * want.yield && is_flat(t, got->yield_factor, want.yield);
    if (flat) want.yield = got->yield_factor;
    compare(c, "yield_factor", got->yield_factor, want.yield, load_factor, 1e-9);
    compare(c, "column_factor", got->column_factor, want.column, load_factor, 1e-9);
    compare(c, "interaction_factor", got->interaction_factor, want.interaction, load_factor, 1e-9);
    compare(c, "margin of what is taken", got->margin, plain_ratio(&t->m, want), load_factor, load_factor);
    return !flat;
}

static void compare_margins(comparison *c, const plain_tube *t, const rbow_result *got)
{
    const plain_margins want = plain_margins_of(&c->s->member, &c->s->material);
    if (want.on_edge || !compare_factors(c, t, got)) return;
    compare(c, "margin", got->margin, want.margin, load_factor, load_factor);
    compare(c, "margin_as_built", got->margin_as_built, want.as_built, load_factor, load_factor);
    compare(c, "margin_unforced", got->margin_unforced, want.unforced, load_factor, load_factor);
    compare(c, "margin_best", got->margin_best, want.best, load_factor, load_factor);
    if (fabs(want.margin) > load_factor) compare(c, "verdict", got->verdict, want.margin > 0 ? RBOW_HOLDS : RBOW_SHORT, 0, 0);
}

static void compare_column(comparison *c, const rbow_result *got, const plain_tube *want)
{
    compare(c, "area", got->section.area, want->zones[0].area, closed, 0);
    compare(c, "inertia", got->section.inertia, want->inertia, closed, 0);
    compare(c, "section_modulus", got->section.section_modulus, want->zones[0].modulus, closed, 0);
    compare(c, "radius", got->section.radius, want->radius, closed, 0);
    compare(c, "weight", got->weight, want->weight, closed, 0);
    compare(c, "wall_reduction", got->wall_reduction, want->zones[0].q, closed, 0);
    compare(c, "critical_load", got->critical_load, want->critical_load, closed, 0);
    compare(c, "effective_length", got->effective_length, want->effective_length, closed, 0);
    compare(c, "slenderness", got->slenderness, want->slenderness, closed, 0);
    compare(c, "column_stress", got->column_stress, want->column_stress, closed, 0);
    compare(c, "column_load", got->column_load, want->column_load, closed, 0);
}

/* The stress of the zone that is used most; where both are used alike, that of the one that the library took. */
static double stress_of(const plain_state *s, double got)
{
    const bool alike = s->use_next >= s->use * (1 - 1e-9);
    return alike && fabs(got - s->stress_next) < fabs(got - s->stress) ? s->stress_next : s->stress;
}

/* What grows as 1/(1 - P/P_cr) loses as much of its digits. */
static double loosened(double axial, double critical)
{
    return closed / fmin(1, fabs(1 - axial / critical));
}

/* As built, of the corner with the largest stress. */
static void compare_fit(comparison *c, const rbow_result *got, const plain_tube *t)
{
    const rbow_material *k = &c->s->material;
    const plain_state want = plain_state_at(t, 0);
    const double bend = t->zones[0].modulus * k->yield, fitted = loosened(-t->tension, t->buckling_load);
    compare(c, "fit_axial", got->fit_axial, -t->tension, closed, 0);
    compare(c, "fit_moment", got->fit_moment, want.moment.size, fitted, 1e-12 * bend);
    const double fit_stress = stress_of(&want, got->fit_stress);
    compare(c, "fit_stress", got->fit_stress, fit_stress, fitted, 1e-12 * k->yield);
}

/* The place has the peak's moment; the clock is the plain one where no other maximum is as far. */
static void compare_places(comparison *c, const plain_tube *t, const rbow_result *got, double peak, double loaded)
{
    const plain_peak want = plain_moved(t, 1);
    double moment, moved;
    compare(c, "deflection", got->deflection, want.size, loaded, 1e-13 * t->m.length);
    if (!(peak > 1e-9 * t->zones[0].modulus * c->s->material.yield)) return;
    plain_place(t, 1, got->peak_moment_at, &moment, &moved);
    compare(c, "moment at peak_moment_at", moment, peak, 2 * loaded, 0);
    const double turned = remainder(got->deflection_clock - want.clock, 2 * structured_pi);
    if (want.size > 1e-9 * t->m.length && want.next < want.size * (1 - 10 * loaded))
        compare(c, "deflection_clock", turned, 0, 0, 1e-5);
}

static void compare_states(comparison *c, const rbow_result *got, const plain_tube *t)
{
    const rbow_material *k = &c->s->material;
    const plain_state want = plain_state_at(t, 1);
    const double bend = t->zones[0].modulus * k->yield, axial = t->m.compression - t->tension;
    const double loaded = loosened(axial, t->buckling_load);
    const double peak_stress = stress_of(&want, got->peak_stress);
    compare(c, "axial", got->axial, axial, closed, 1e-12 * t->column_load);
    compare(c, "peak_moment", got->peak_moment, want.moment.size, loaded, 1e-12 * bend);
    compare(c, "peak_stress", got->peak_stress, peak_stress, loaded, 1e-12 * k->yield);
    compare(c, "stress_use", got->stress_use, want.use, loaded, 1e-12);
    compare_places(c, t, got, want.moment.size, loaded);
}

static int differences(const sample *s)
{
    comparison c = {.s = s};
    rbow_result got;
    const rbow_status status = rbow_member_check(&s->member, &s->material, &got);
    if (status != RBOW_OK) {
        fprintf(stderr, "status %d: %s %s\n", (int)status, rbow_status_input(status), rbow_status_text(status));
        c.differences++;
    } else {
        const rbow_member taken = rbow_member_taken(&s->member, &got);
        const plain_tube t = plain_tube_of(&taken, &s->material), built = plain_as_built(&s->member, &s->material);
        compare_margins(&c, &t, &got);
        compare_column(&c, &got, &t);
        compare_fit(&c, &got, &built);
        compare_states(&c, &got, &t);
    }
    if (c.differences > 0) print_sample(s);
    return c.differences;
}

static long number_from(const char *name, long fallback)
{
    const char *word = getenv(name);
    return word != NULL ? strtol(word, NULL, 10) : fallback;
}

/* Some of the welded ends are of a stiffness that nobody knows. */
static void leave_open(dice *d, rbow_member *m)
{
    const bool welded_a = m->end_a <= RBOW_STIFF_WELD, welded_b = m->end_b <= RBOW_STIFF_WELD && m->end_b > RBOW_FREE;
    if (welded_a && dice_chance(d, 0.3)) m->end_a = RBOW_WELDED;
    if (welded_b && dice_chance(d, 0.3)) m->end_b = RBOW_WELDED;
}

/* What is built in alone is at the limit to within rounding: it may count as below it or not. */
static bool rests_at_its_limit(const sample *s)
{
    rbow_result r;
    if (rbow_member_check(&s->member, &s->material, &r) != RBOW_OK) return false;
    const rbow_member taken = rbow_member_taken(&s->member, &r);
    const plain_tube t = plain_tube_of(&taken, &s->material);
    return fabs(plain_state_at(&t, 0).use - 1) <= 1e-12;
}

START_TEST(class_agrees)
{
    const member_class *class = &member_classes[_i];
    const long members = number_from("RAILBOW_PLAIN_MEMBERS", 480) / CLASSES / (class->costly ? 3 : 1);
    const long most = number_from("RAILBOW_PLAIN_SHOW", 3);
    dice d = {(uint64_t)(77 + 1000 * _i + 1000000 * number_from("RAILBOW_PLAIN_SEED", 0))};
    long wrong = 0, tries = 0;
    gsl_set_error_handler_off();
    for (long i = 0; i < members && wrong < most; i++) {
        sample s = class->make(&d);
        rbow_status fault;
        for (; rbow_member_faults(&s.member, &s.material, &fault, 1) > 0; s = class->make(&d))
            ck_assert_msg(tries++ < 20 * members + 100, "%s: few are valid: %s", class->name, rbow_status_text(fault));
        leave_open(&d, &s.member);
        if (rests_at_its_limit(&s)) continue;
        wrong += differences(&s) > 0;
    }
    ck_assert_msg(wrong == 0, "%s: %ld of %ld members differ from the plain check", class->name, wrong, members);
}
END_TEST

/* Their true values, found by two or three other computations in higher precision. */
START_TEST(members_passed_over)
{
    const sample tension = passed_over(0), node = passed_over(1), weld = passed_over(2);
    const plain_tube node_tube = plain_tube_of(&node.member, &node.material);
    const plain_tube weld_tube = plain_tube_of(&weld.member, &weld.material);
    const plain_peak moved = plain_moved(&node_tube, 1);
    near_within(plain_margins_of(&tension.member, &tension.material).margin, -0.002384, 0, 5e-7);
    near_within(moved.size, 0.00978379, 1e-6, 0);
    near_within(moved.clock, 0, 0, 1e-9);
    near_within(plain_state_at(&weld_tube, 1).use, 0.05915, 0, 5e-6);
    int wrong = 0;
    gsl_set_error_handler_off();
    for (int i = 0; i < PASSED_OVER; i++) {
        const sample s = passed_over(i);
        wrong += differences(&s) > 0;
    }
    ck_assert_msg(wrong == 0, "%d of %d members differ from the plain check", wrong, PASSED_OVER);
}
END_TEST

int main(void)
{
    int part = 1, parts = 1;
    const char *asked = getenv("RAILBOW_PLAIN_PART");
    if (asked != NULL && sscanf(asked, "%d/%d", &part, &parts) != 2) return EXIT_FAILURE;
    Suite *suite = suite_create("against_plain");
    for (int i = 0; i < CLASSES; i++) {
        if (i % parts != part - 1) continue;
        TCase *cases = tcase_create(member_classes[i].name);
        tcase_set_timeout(cases, 300);
        tcase_add_loop_test(cases, class_agrees, i, i + 1);
        suite_add_tcase(suite, cases);
    }
    if (part == 1) {
        TCase *cases = tcase_create("members passed over");
        tcase_add_test(cases, members_passed_over);
        suite_add_tcase(suite, cases);
    }
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
