/* The working of details of a frame: states of the solver, with bows of known and of unknown clock. */
#include "frame/frames.h"

#include "working/detail_working.h"

#include <gsl/gsl_errno.h>

/* A tube between balls, bent into an S by couples at its joints: along it now one side of a bow is worse, now the other. */
static void bent_tube(built *b, const rbow_material *k, double clock, bool squeezed)
{
    begin(b);
    const unsigned held = RBOW_HELD_Y | RBOW_HELD_Z | RBOW_HELD_RX;
    const size_t a = add_joint(b, 0, 0, 0, held | RBOW_HELD_X), c = add_joint(b, 36, 0, 0, held);
    rbow_frame_tube *t = add_tube(b, a, c, 1.25, .058, k);
    t->bow = .08;
    t->bow_clock = clock;
    t->gap = squeezed ? -.004 : 0;
    push_joint(b, c, -1500, 0, 0);
    push_joint(b, a, 0, 0, 0)->moment[RBOW_Y] = 900;
    push_joint(b, c, 0, 0, 0)->moment[RBOW_Y] = 700;
    b->run.factor_yield = 1.2;
}

static working w;

static double step_of(const char *step)
{
    double value = NAN;
    for (size_t i = 0; i < w.count; i++)
        if (*w.rows[i].formula != '\0' && strcmp(w.rows[i].step, step) == 0) value = w.rows[i].value;
    return value;
}

START_TEST(details_of_a_frame)
{
    rbow_material k = steel;
    k.ultimate = 95e3;
    int worked = 0, signs = 0;
    for (int i = 0; i < 24; i++) {
        built b;
        bent_tube(&b, &k, i % 3 == 0 ? RBOW_ANY_CLOCK : i % 3 == 1 ? 0 : 3, i % 2 != 0);
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        rbow_detail d = rbow_detail_default();
        d.kind = i % RBOW_DETAIL_KIND_COUNT;
        d.at = 3 + i;
        d.hole = .25;
        d.walls = 1;
        d.overlap = 2;
        d.sleeve_od = d.stub_od = 1.125;
        d.sleeve_wall = d.stub_wall = .058;
        d.butt = 0;
        d.rosettes = 4;
        d.rosette = .375;
        rbow_member tube = rbow_member_default();
        tube.od = 1.25;
        tube.wall = .058;
        tube.length = 36;
        tube.factor = b.run.factor;
        tube.factor_yield = b.run.factor_yield;
        rbow_detail_result r;
        detail_state states[DETAIL_STATES];
        ck_assert_int_eq(rbow_frame_detail_check(b.solver, &b.run, 0, &d, &r), RBOW_OK);
        const int fit = r.fit_taken == RBOW_FIT_AS_BUILT ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED;
        for (int s = 0; s < DETAIL_STATES; s++)
            states[s].status = rbow_frame_forces(b.solver, &b.run, detail_state_factor(&r, s), fit, 0, d.at, &states[s].forces);
        ck_assert_msg(frame_detail_working_of(&w, &d, &tube, &k, &r, states, UNITS_US), "detail %d", i);
        if (i % 3 == 0) signs |= states[DETAIL_AS_LOADED].forces.moment_up > 0 ? 1 : 2;
        near_within(step_of("margin"), r.margin, 1e-9, 1e-9);
        ck_assert(isnan(step_of("moment at joint A")));
        worked++;
        working_free(&w);
        states[DETAIL_AT_YIELD].forces.axial *= 1.01;
        states[DETAIL_AT_WELD].forces.axial *= 1.01;
        ck_assert(!frame_detail_working_of(&w, &d, &tube, &k, &r, states, UNITS_US));
        working_free(&w);
        free(b.memory);
    }
    ck_assert_int_eq(worked, 24);
    ck_assert_int_eq(signs, 3);
}
END_TEST

/* A straight mast buckles before its details reach a limit: the states end there, and the working says so. */
START_TEST(the_path_ends_first)
{
    rbow_material k = steel;
    k.ultimate = 95e3;
    for (int kind = RBOW_DETAIL_HOLE; kind <= RBOW_DETAIL_RING_WELD; kind++) {
        built b;
        begin(&b);
        const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), c = add_joint(&b, 0, 0, 60, RBOW_HELD_NONE);
        add_tube(&b, a, c, 1.25, .058, &k);
        push_joint(&b, c, 0, 0, -200);
        b.run.factor_yield = 1.2;
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        rbow_detail d = rbow_detail_default();
        d.kind = kind;
        d.at = 20;
        d.hole = .25;
        rbow_member tube = rbow_member_default();
        tube.od = 1.25;
        tube.wall = .058;
        tube.length = 60;
        tube.factor = b.run.factor;
        tube.factor_yield = b.run.factor_yield;
        rbow_detail_result r;
        detail_state states[DETAIL_STATES];
        ck_assert_int_eq(rbow_frame_detail_check(b.solver, &b.run, 0, &d, &r), RBOW_OK);
        ck_assert_int_eq(r.mode, RBOW_DETAIL_BY_BUCKLING);
        for (int s = 0; s < DETAIL_STATES; s++)
            states[s].status = rbow_frame_forces(b.solver, &b.run, detail_state_factor(&r, s) * (1 - 1e-6), RBOW_FRAME_AS_BUILT, 0, d.at, &states[s].forces);
        ck_assert(frame_detail_working_of(&w, &d, &tube, &k, &r, states, UNITS_US));
        bool said = false;
        for (size_t i = 0; i < w.count; i++) said = said || strstr(w.rows[i].formula, "the tube buckles before the detail reaches a limit") != NULL;
        ck_assert(said);
        near_within(step_of("margin"), r.margin, 1e-9, 1e-9);
        working_free(&w);
        r.mode = RBOW_DETAIL_BY_YIELD; /* then a state that is used so little is not that of the result */
        ck_assert(kind == RBOW_DETAIL_RING_WELD || !frame_detail_working_of(&w, &d, &tube, &k, &r, states, UNITS_US));
        working_free(&w);
        end(&b);
    }
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, details_of_a_frame);
    tcase_add_test(c, the_path_ends_first);
}

int main(void)
{
    return run_tests("working of details of a frame", fill);
}
