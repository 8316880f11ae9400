/* The hand calculation of details: every line done again, and the library's own numbers in it. */
#include "arithmetic.h"
#include "detail/details.h"

#include "working/detail_working.h"

#include <gsl/gsl_errno.h>

static const double pi = 3.14159265358979323846;

typedef struct sample_detail {
    rbow_member member;
    rbow_detail detail;
} sample_detail;

static rbow_member rail(double push)
{
    rbow_member m = tube_of(1.25, .058, 30);
    m.end_a = m.end_b = RBOW_WELDED;
    m.compression = push;
    m.bow = .03;
    m.bow_clock = RBOW_ANY_CLOCK;
    m.point_load = 150;
    m.point_at = 12;
    m.spread_load = 1.5;
    m.spread_clock = 1;
    m.torque = 600;
    m.miss_a = .1;
    m.miss_a_clock = RBOW_ANY_CLOCK;
    m.gap = .004;
    m.gap_stiffness = 2e5;
    m.weld_zone = 1;
    m.dressed = .004;
    m.factor = 1.5;
    m.factor_yield = 1.25;
    return m;
}

enum { SAMPLES = 16 };

static size_t samples_of(sample_detail all[SAMPLES])
{
    rbow_detail hole = hole_at(10, .25, 1), ring = detail_of(RBOW_DETAIL_RING_WELD, 0), butt = sleeve_at(14, 1.125, .058, 1);
    rbow_detail spare = socket_at(30, 1.375, .0575), other = hole_at(.5, .1875, 2), known = ring;
    rbow_member console = rail(500), quiet = tube_of(1.25, .058, 30), strut = rail(9000);
    size_t n = 0;
    hole.hole_clock = .7;
    butt.throat = .03;
    spare.rosettes = 3;
    spare.rosette = .4;
    known.at = 4;
    known.throat = .041;
    known.weld_od = 1.3;
    known.weld_strength = 80e3;
    console.end_a = RBOW_FIXED;
    console.end_b = RBOW_FREE;
    console.gap = 0;
    console.gap_stiffness = INFINITY;
    strut.point_load = strut.spread_load = strut.miss_a = strut.bow = strut.torque = strut.gap = 0;
    strut.length = 60;
    all[n++] = (sample_detail){rail(2500), detail_of(RBOW_DETAIL_PLACE, 12)};
    all[n++] = (sample_detail){rail(2500), hole};
    all[n++] = (sample_detail){rail(-3000), hole_at(20, .25, 1)};
    all[n++] = (sample_detail){rail(2500), hole_at(20, .375, 2)};
    all[n++] = (sample_detail){rail(2500), other};
    all[n++] = (sample_detail){rail(2500), ring};
    all[n++] = (sample_detail){rail(-2500), known};
    all[n++] = (sample_detail){rail(2500), butt};
    all[n++] = (sample_detail){rail(2500), sleeve_at(14, 1.125, .058, 1)};
    all[n++] = (sample_detail){rail(2500), sleeve_at(14, 1.125, .058, 0)};
    all[n++] = (sample_detail){rail(2500), socket_at(0, 1.125, .058)};
    all[n++] = (sample_detail){rail(0), spare};
    all[n++] = (sample_detail){console, hole};
    all[n++] = (sample_detail){quiet, ring};
    all[n++] = (sample_detail){strut, detail_of(RBOW_DETAIL_PLACE, 30)};
    all[n++] = (sample_detail){strut, detail_of(RBOW_DETAIL_RING_WELD, 0)};
    return n;
}

static working w;

static rbow_detail_result result_of(const sample_detail *s)
{
    rbow_detail_result r;
    const rbow_status status = rbow_detail_check(&s->detail, &s->member, &steel, &r);
    ck_assert_msg(status == RBOW_OK, "kind %d at %g: %s", s->detail.kind, s->detail.at, rbow_status_text(status));
    return r;
}

static rbow_member work(const sample_detail *s, const rbow_detail_result *r, unit_system units)
{
    const rbow_member taken = detail_member_taken(&s->member, &steel, r);
    ck_assert(detail_working_of(&w, &s->detail, &taken, &steel, r, units));
    ck_assert(!working_failed(&w) && w.count < WORKING_ROWS_MOST);
    return taken;
}

/* Every line of a working; numbers carry ten digits, and what is left after sums that cancel is held against their size. */
static int done_again(const sample_detail *s, unit_system units, const char *what, double close)
{
    const rbow_detail_result r = result_of(s);
    int done = 0;
    work(s, &r, units);
    for (size_t k = 0; k < w.count; k++) {
        const working_row *row = &w.rows[k];
        if (*row->formula == '\0' || strstr(row->numbers.at, "by s") != NULL || strstr(row->numbers.at, "from the") != NULL) continue;
        const double again = arithmetic_of(row->numbers.at);
        const bool same = isinf(row->value) ? isinf(again) : fabs(again - row->value) <= close * fmax(fabs(row->value), 1e-3);
        ck_assert_msg(same, "%s: %s: %s = %s, not %.10g", what, row->step, row->numbers.at, row->result, again);
        done++;
    }
    working_free(&w);
    return done;
}

START_TEST(every_line_can_be_done_again)
{
    static sample_detail all[SAMPLES];
    const size_t count = samples_of(all);
    for (size_t i = 0; i < count; i++) {
        char what[40];
        snprintf(what, sizeof what, "sample %zu", i);
        ck_assert_int_gt(done_again(&all[i], UNITS_US, what, 1e-6), 15);
        ck_assert_int_gt(done_again(&all[i], UNITS_SI, what, 1e-6), 15);
    }
}
END_TEST

/* Some come close to the critical load between pins, where ten digits of P and Pe leave five of their difference. */
START_TEST(every_line_of_random_details)
{
    dice d = {77};
    for (int i = 0; i < 60; i++) {
        sample_detail s = {rail(dice_between(&d, -4000, 4000)), hole_at(dice_between(&d, 0, 30), dice_between(&d, 0, .5), 1 + i % 2)};
        const double at = s.detail.at;
        char what[40];
        snprintf(what, sizeof what, "random %d", i);
        s.member.point_load = dice_between(&d, -300, 300);
        s.member.torque = i % 4 == 0 ? 0 : dice_between(&d, -2000, 2000);
        s.member.gap = i % 5 == 0 ? 0 : dice_between(&d, -.005, .005);
        s.member.moment_a = dice_between(&d, -500, 500);
        s.member.eccentricity = i % 2 * .05;
        s.member.miss_a = dice_between(&d, 0, .2);
        s.member.dressed = i % 7 * .001;
        s.detail.hole_clock = i % 3 == 0 ? RBOW_ANY_CLOCK : dice_between(&d, -7, 7);
        if (i % 6 == 1) s.detail = detail_of(RBOW_DETAIL_RING_WELD, at);
        if (i % 6 == 2) s.detail = sleeve_at(at, 1.1, .06, i / 6 % 2);
        if (i % 6 == 3) s.detail = socket_at(at, i / 6 % 2 ? 1.4 : 1.1, .06);
        if (i % 6 == 4) s.detail = detail_of(RBOW_DETAIL_PLACE, at);
        s.detail.throat = i / 12 % 2 ? .03 : RBOW_UNSET;
        ck_assert_int_gt(done_again(&s, i % 2 ? UNITS_SI : UNITS_US, what, 1e-4), 15);
    }
}
END_TEST

static bool begins(const char *step, const char *with)
{
    return strncmp(step, with, strlen(with)) == 0;
}

/* The value of the n-th step of this name under a heading; NaN where there is none. */
static double step_under(const char *heading, const char *step, bool last)
{
    bool under = false;
    double found = NAN;
    for (size_t k = 0; k < w.count; k++) {
        if (*w.rows[k].formula == '\0') under = begins(w.rows[k].step, heading) || (under && !begins(w.rows[k].step, "As ") && !begins(w.rows[k].step, "The ")
                                                                                   && !begins(w.rows[k].step, "Margin") && !begins(w.rows[k].step, "Fit"));
        else if (under && begins(w.rows[k].step, step) && (last || isnan(found))) found = w.rows[k].value;
    }
    return found;
}

static void same_use(const char *heading, const char *step, double want)
{
    if (isnan(want)) ck_assert(isnan(step_under(heading, step, true)));
    else near_within(step_under(heading, step, true), want, 1e-9, 1e-12);
}

/* At its load factor each kind of mode is used 1; and all are what rbow_detail_use says, from the forces of rbow_member_forces. */
START_TEST(the_uses_are_those_of_the_library)
{
    static sample_detail all[SAMPLES];
    const size_t count = samples_of(all);
    int ones = 0, loaded = 0, by_hand = 0;
    for (size_t i = 0; i < count; i++) {
        const rbow_detail_result r = result_of(&all[i]);
        const rbow_member taken = work(&all[i], &r, UNITS_US);
        rbow_section_forces f;
        double use[RBOW_DETAIL_MODES];
        if (rbow_member_forces(&taken, &steel, r.yield_factor, all[i].detail.at, &f) == RBOW_OK) {
            near_within(step_under("The load factor of yield", "utilisation", true), 1, 0, 1e-6);
            ones++;
        }
        if (rbow_member_forces(&taken, &steel, r.weld_factor, all[i].detail.at, &f) == RBOW_OK) {
            const double shear = step_under("The load factor of the weld", "utilisation of the rosettes", true);
            const double bearing = step_under("The load factor of the weld", "utilisation of the bearing", true);
            near_within(isnan(shear) ? step_under("The load factor of the weld", "utilisation of the weld", true) : fmax(shear, bearing), 1, 0, 1e-6);
            ones++;
        }
        if (rbow_member_forces(&taken, &steel, 1, all[i].detail.at, &f) == RBOW_OK) {
            ck_assert_int_eq(rbow_detail_use(&all[i].detail, &taken, &steel, &f, use), RBOW_OK);
            const char *heading = "As loaded";
            near_within(f.axial, r.axial, 1e-9, 1e-9);
            near_within(hypot(f.moment_up, f.moment_right), r.moment, 1e-6, 1e-9);
            same_use(heading, "utilisation of the weld", use[RBOW_DETAIL_BY_WELD]);
            same_use(heading, "utilisation of the rosettes", use[RBOW_DETAIL_BY_ROSETTES]);
            same_use(heading, "utilisation of the bearing", use[RBOW_DETAIL_BY_BEARING]);
            const bool tube = all[i].detail.kind == RBOW_DETAIL_PLACE || all[i].detail.kind == RBOW_DETAIL_SLEEVE;
            if (all[i].detail.kind != RBOW_DETAIL_RING_WELD)
                same_use(heading, tube ? "utilisation at this load factor" : "utilisation of yield", use[RBOW_DETAIL_BY_YIELD]);
            loaded++;
        }
        const bool welds = r.weld_factor / 1.5 < r.yield_factor / 1.25;
        const double derived = step_under("Stress at that place", "moment", false), factor = welds ? r.weld_factor : r.yield_factor;
        if (!isnan(derived)) { /* from the equation of each plane, not from the library's solution */
            ck_assert_int_eq(rbow_member_forces(&taken, &steel, factor, all[i].detail.at, &f), RBOW_OK);
            near_within(derived, hypot(f.moment_up, f.moment_right), 1e-6, 1e-6);
            by_hand++;
        }
        ck_assert(isinf(r.margin) ? isinf(step_under("Margin", "margin", true)) : true);
        if (isfinite(r.margin)) near_within(step_under("Margin", "margin", true), r.margin, 1e-12, 0);
        working_free(&w);
    }
    ck_assert_int_gt(ones, 14);
    ck_assert_int_gt(loaded, 12);
    ck_assert_int_gt(by_hand, 10);
}
END_TEST

/* The steps of a hole end at the section of rbow_net_section_of; in SI as well. */
START_TEST(the_net_section_is_that_of_the_library)
{
    for (int i = 0; i < 8; i++) {
        const sample_detail s = {rail(1000), hole_at(9, .05 + .07 * i, 1 + i % 2)};
        const rbow_detail_result r = result_of(&s);
        rbow_net_section n;
        ck_assert_int_eq(rbow_net_section_of(1.25, .058, s.detail.hole, s.detail.walls, &n), RBOW_OK);
        for (int si = 0; si < 2; si++) {
            const double in = si ? 25.4 : 1;
            work(&s, &r, si ? UNITS_SI : UNITS_US);
            near_within(step_under("Net section", "net area", true), n.area * in * in, 1e-12, 0);
            near_within(step_under("Net section", "net second moment, for moments toward", true), n.inertia_along * pow(in, 4), 1e-11, 0);
            near_within(step_under("Net section", "net second moment, for moments across", true), n.inertia_across * pow(in, 4), 1e-11, 0);
            near_within(step_under("Net section", "centroid", true), n.shift * in, 1e-11, 1e-15);
            working_free(&w);
        }
    }
}
END_TEST

/* The member taken has the axial force of the result, whatever part of the forced fit the result took. */
START_TEST(the_member_taken)
{
    dice d = {5};
    int fits[RBOW_FIT_COUNT] = {0};
    for (int i = 0; i < 60; i++) {
        sample_detail s = {rail(dice_between(&d, -3000, 3000)), hole_at(dice_between(&d, 2, 28), .2, 2)};
        s.member.gap = dice_between(&d, -.01, .01);
        s.member.miss_b = dice_between(&d, 0, .1);
        s.member.miss_b_clock = dice_between(&d, 0, 2 * pi);
        s.member.miss_a_clock = dice_between(&d, 0, 2 * pi);
        const rbow_detail_result r = result_of(&s);
        const rbow_member taken = detail_member_taken(&s.member, &steel, &r);
        rbow_section_forces f;
        double use[RBOW_DETAIL_MODES];
        if (rbow_member_forces(&taken, &steel, r.factor, s.detail.at, &f) != RBOW_OK) continue;
        ck_assert_int_eq(rbow_detail_use(&s.detail, &taken, &steel, &f, use), RBOW_OK);
        if (r.factor > 0) near_within(use[RBOW_DETAIL_BY_YIELD], 1, 0, 1e-6);
        fits[r.fit_taken]++;
    }
    ck_assert_int_gt(fits[RBOW_FIT_AS_BUILT] + fits[RBOW_FIT_RELAXED] + fits[RBOW_FIT_UNFORCED], 40);
    ck_assert_int_gt(fits[RBOW_FIT_AS_BUILT], 0);
    ck_assert_int_gt(fits[RBOW_FIT_RELAXED] + fits[RBOW_FIT_UNFORCED], 0);
}
END_TEST

/* Of a frame: the states are given. Here they are those of a member, so that both workings end alike. */
START_TEST(states_that_are_given)
{
    const sample_detail s = {rail(2500), detail_of(RBOW_DETAIL_RING_WELD, 10)};
    const rbow_detail_result r = result_of(&s);
    const rbow_member taken = detail_member_taken(&s.member, &steel, &r);
    detail_state states[DETAIL_STATES];
    for (int i = 0; i < DETAIL_STATES; i++)
        states[i].status = rbow_member_forces(&taken, &steel, detail_state_factor(&r, i), 10, &states[i].forces);
    ck_assert(frame_detail_working_of(&w, &s.detail, &taken, &steel, &r, states, UNITS_US));
    near_within(step_under("The load factor of the weld", "utilisation of the weld", true), 1, 0, 1e-6);
    ck_assert(isnan(step_under("Moment at that place", "moment", true)));
    working_free(&w);
    states[DETAIL_AT_WELD].status = RBOW_STRESS_OVERFLOW;
    ck_assert(!frame_detail_working_of(&w, &s.detail, &taken, &steel, &r, states, UNITS_US));
    working_free(&w);
}
END_TEST

START_TEST(arithmetic_itself)
{
    near_within(arithmetic_of("√(3² + (-4)²) × 2^4 / 8 − min(1, 2, -3)"), 13, 1e-15, 0);
    near_within(arithmetic_of("2 × sin((-30)°) × cos((-60)°)"), -.5, 1e-12, 0);
    near_within(arithmetic_of("−2 × sin(30°) + max(0, 3 − 4)"), -1, 1e-15, 0);
    ck_assert(isnan(arithmetic_of("by search")) && isnan(arithmetic_of("1 + ")) && isnan(arithmetic_of("(1")));
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, every_line_can_be_done_again);
    tcase_add_test(c, every_line_of_random_details);
    tcase_add_test(c, the_uses_are_those_of_the_library);
    tcase_add_test(c, the_net_section_is_that_of_the_library);
    tcase_add_test(c, the_member_taken);
    tcase_add_test(c, states_that_are_given);
    tcase_add_test(c, arithmetic_itself);
}

int main(void)
{
    return run_tests("working of details", fill);
}
