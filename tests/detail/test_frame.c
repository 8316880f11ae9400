/* Details of a frame: against a single tube where the frame is one, against a dense scan of states, and beside the frame's own check. */
#include "detail/frame_details.h"

#include <railbow/life.h>

static rbow_detail_result checked(built *b, size_t tube, const rbow_detail *d)
{
    rbow_detail_result r;
    ck_assert_int_eq(rbow_frame_detail_check(b->solver, &b->run, tube, d, &r), RBOW_OK);
    return r;
}

/* One tube between held joints is a member with fixed ends, also where a detail stands at a point load. */
START_TEST(one_tube)
{
    rbow_material k = with_ultimate();
    for (int kind = 0; kind < RBOW_DETAIL_KIND_COUNT - 1; kind++) {
        for (int i = 0; i < 3; i++) {
            built b;
            begin(&b);
            const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED);
            const size_t c = add_joint(&b, 36, 0, 0, RBOW_HELD_FIXED & ~(unsigned)RBOW_HELD_X);
            rbow_frame_tube *t = add_tube(&b, a, c, 1.25, .058, &k);
            t->bow = .06;
            t->bow_clock = .5;
            push_joint(&b, c, i == 2 ? 3000 : -4000, 0, 0);
            rbow_frame_load *spread = &b.loads[b.run.load_count++];
            *spread = rbow_frame_load_default();
            spread->acts_on = RBOW_ACTS_ON_TUBE;
            spread->index = 0;
            spread->spread[RBOW_Z] = -20;
            spread->force[RBOW_Z] = -150; /* at the detail: the shear jumps there */
            spread->at = 14;
            ck_assert_int_eq(open_frame(&b), RBOW_OK);
            rbow_member m = rbow_member_default();
            m.point_load = -150;
            m.point_at = 14;
            m.od = 1.25;
            m.wall = .058;
            m.length = 36;
            m.end_a = m.end_b = RBOW_FIXED;
            m.compression = i == 2 ? -3000 : 4000;
            m.bow = .06;
            m.bow_clock = .5;
            m.spread_load = -20;
            m.spread_clock = 0;
            const rbow_detail d = detail_of(kind, i == 1 ? 0 : 14);
            rbow_detail_result one;
            const rbow_detail_result r = checked(&b, 0, &d);
            ck_assert_int_eq(rbow_detail_check(&d, &m, &k, &one), RBOW_OK);
            near_within(r.factor, one.factor, 2e-6, 0);
            near_within(r.margin, one.margin, 2e-6, 2e-6);
            near_within(r.moment, one.moment, 1e-6, 1e-6);
            near_within(r.shear, one.shear, 1e-6, 1e-6);
            ck_assert_int_eq(r.mode, one.mode);
            rbow_section_forces f, of_member;
            ck_assert_int_eq(rbow_frame_forces(b.solver, &b.run, -.4, RBOW_FRAME_AS_BUILT, 0, 14, &f), RBOW_OK);
            ck_assert_int_eq(rbow_member_forces(&m, &k, -.4, 14, &of_member), RBOW_OK);
            near_within(f.axial, of_member.axial, 1e-6, 0);
            near_within(f.moment_up, of_member.moment_up, 1e-6, 1e-6);
            near_within(f.shear_right, of_member.shear_right, 1e-6, 1e-6);
            free(b.memory);
        }
    }
}
END_TEST

static double highest_use(built *b, size_t tube, const rbow_detail *d, const rbow_material *k, double factor, int fit)
{
    rbow_member m = rbow_member_default();
    rbow_section_forces f;
    double use[RBOW_DETAIL_MODES], most = 0;
    m.od = b->tubes[tube].od;
    m.wall = b->tubes[tube].wall;
    m.length = d->at + 20; /* a weld zone at A alone reaches the details here */
    if (rbow_frame_forces(b->solver, &b->run, factor, fit, tube, d->at, &f) != RBOW_OK) return INFINITY;
    ck_assert_int_eq(rbow_detail_use(d, &m, k, &f, use), RBOW_OK);
    for (int i = 0; i < RBOW_DETAIL_MODES; i++) most = fmax(most, use[i]);
    return most;
}

/* No state below the factor is beyond a limit, and one of both paths reaches it there. */
START_TEST(against_a_dense_scan)
{
    const rbow_material k = with_ultimate();
    for (int kind = 0; kind < RBOW_DETAIL_KIND_COUNT - 1; kind++) {
        for (size_t tube = 0; tube < 3; tube++) {
            built b;
            portal(&b, &k, kind % 2 == 0);
            ck_assert_int_eq(open_frame(&b), RBOW_OK);
            const rbow_detail d = detail_of(kind, tube == 1 ? 0 : 7.0 * (double)tube);
            const rbow_detail_result r = checked(&b, tube, &d);
            ck_assert(r.factor > 0 && isfinite(r.factor));
            for (int fit = 0; fit < 2; fit++)
                for (int i = 0; i < 40; i++)
                    ck_assert(highest_use(&b, tube, &d, &k, r.factor * (1 - 1e-6) * i / 39, fit) < 1 + 1e-6);
            const double at = fmax(highest_use(&b, tube, &d, &k, r.factor * (1 + 1e-6), 0), highest_use(&b, tube, &d, &k, r.factor * (1 + 1e-6), 1));
            ck_assert_msg(at > 1 - 1e-4, "kind %d of tube %zu: %.9g at its factor %.9g", kind, tube, at, r.factor);
            free(b.memory);
        }
    }
}
END_TEST

/* A place of a tube is never below the tube's own margin by yield; the check of the frame stays as it was. */
START_TEST(beside_the_tubes)
{
    const rbow_material k = with_ultimate();
    built b;
    portal(&b, &k, true);
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    rbow_frame_tube_result before[TUBES_MOST], after[TUBES_MOST];
    ck_assert_int_eq(rbow_frame_check(b.solver, &b.run, before, NULL, NULL), RBOW_OK);
    for (size_t tube = 0; tube < 4; tube++) {
        for (double at = 0; at < 30; at += 6) {
            const rbow_detail d = detail_of(RBOW_DETAIL_PLACE, at);
            ck_assert(checked(&b, tube, &d).margin >= before[tube].margin - 1e-6);
        }
    }
    ck_assert_int_eq(rbow_frame_check(b.solver, &b.run, after, NULL, NULL), RBOW_OK);
    for (size_t tube = 0; tube < 4; tube++) near_within(after[tube].margin, before[tube].margin, 0, 0);
    rbow_detail d = detail_of(RBOW_DETAIL_PLACE, -1);
    rbow_detail_result r;
    rbow_status status;
    ck_assert_int_eq(rbow_frame_detail_check(b.solver, &b.run, 0, &d, &r), RBOW_BAD_DETAIL_AT);
    ck_assert(isnan(r.margin));
    ck_assert_int_eq(rbow_frame_detail_check(b.solver, &b.run, 9, &d, &r), RBOW_OUT_OF_RANGE);
    ck_assert_uint_eq(rbow_frame_detail_faults(&b.frame, 9, &d, &status, 1), 1);
    free(b.memory);
}
END_TEST

static const rbow_sn_curve weld = {.kind = RBOW_SN_WELD, .log_a1 = 10.970, .m1 = 3, .log_a2 = 13.617, .m2 = 5, .knee_cycles = 1e7,
                                   .cutoff_cycles = NAN, .stress_unit = 145.03773773020923, .deviation = NAN};
static const rbow_sn_curve metal = {.kind = RBOW_SN_METAL, .a1 = 12.6, .a2 = -4.69, .a3 = .63, .a4 = 0, .stress_unit = 1000, .deviation = NAN};

/* The life in a frame of one tube is that of the member with fixed ends; a bow of unknown clock, in the plane of the load. */
START_TEST(life_of_one_tube)
{
    const rbow_material k = with_ultimate();
    for (int i = 0; i < 6; i++) {
        built b;
        begin(&b);
        const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), c = add_joint(&b, 36, 0, 0, RBOW_HELD_FIXED & ~(unsigned)RBOW_HELD_X);
        rbow_frame_tube *t = add_tube(&b, a, c, 1.25, .058, &k);
        t->bow = .06;
        t->bow_clock = i < 3 ? .5 : RBOW_ANY_CLOCK;
        push_joint(&b, c, -1500, 0, 0);
        rbow_frame_load *spread = &b.loads[b.run.load_count++];
        *spread = rbow_frame_load_default();
        spread->acts_on = RBOW_ACTS_ON_TUBE;
        spread->index = 0;
        spread->spread[RBOW_Z] = -6;
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        rbow_member m = rbow_member_default();
        m.od = 1.25;
        m.wall = .058;
        m.length = 36;
        m.end_a = m.end_b = RBOW_FIXED;
        m.compression = 1500;
        m.bow = .06;
        m.bow_clock = t->bow_clock;
        m.spread_load = -6;
        m.spread_clock = 0;
        const rbow_detail d = detail_of(i % 3 == 0 ? RBOW_DETAIL_HOLE : i % 3 == 1 ? RBOW_DETAIL_RING_WELD : RBOW_DETAIL_SLEEVE, 2);
        const rbow_sn_curve *curve = i % 3 == 0 ? &metal : &weld;
        const rbow_frame_life_row rows[] = {{&b.run, 10, 0, 1}, {&b.run, 3, -.4, .6}};
        const rbow_life_row of_member[] = {{&m, 10, 0, 1}, {&m, 3, -.4, .6}};
        rbow_life_result r, one;
        ck_assert_int_eq(rbow_frame_life_of(b.solver, rows, 2, 0, &d, curve, &r), RBOW_OK);
        ck_assert_int_eq(rbow_life_of(&d, of_member, 2, &k, curve, &one), RBOW_OK);
        ck_assert(isfinite(one.runs) && one.runs > 0);
        near_within(r.runs, one.runs, i < 3 ? 1e-5 : 1e-3, 0);
        near_within(r.range, one.range, i < 3 ? 1e-5 : 1e-3, 0);
        near_within(r.runs_unforced, r.runs, 1e-9, 0);
        ck_assert_int_eq(r.row, one.row);
        free(b.memory);
    }
}
END_TEST

/* A tube between balls, bent into an S by couples at its joints. */
static void s_shape(built *b, const rbow_material *k, double clock)
{
    begin(b);
    const unsigned held = RBOW_HELD_Y | RBOW_HELD_Z | RBOW_HELD_RX;
    const size_t a = add_joint(b, 0, 0, 0, held | RBOW_HELD_X), c = add_joint(b, 36, 0, 0, held);
    rbow_frame_tube *t = add_tube(b, a, c, 1.25, .058, k);
    t->bow = .08;
    t->bow_clock = clock;
    push_joint(b, c, -1500, 0, 0);
    push_joint(b, a, 0, 0, 0)->moment[RBOW_Y] = 900;
    push_joint(b, c, 0, 0, 0)->moment[RBOW_Y] = 700;
    ck_assert_int_eq(open_frame(b), RBOW_OK);
}

/* At a point load the side with more shear counts, whichever end is near it: a short tube on two supports by hand, M = F a b/L and
 * V = F b/L, in a ring of throat 0.03 in. */
START_TEST(ring_at_a_point_load)
{
    const double pi = 3.14159265358979323846;
    const rbow_material k = with_ultimate();
    double runs[2];
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        built b;
        begin(&b);
        const unsigned held = RBOW_HELD_Y | RBOW_HELD_Z | RBOW_HELD_RX;
        const size_t a = add_joint(&b, 0, 0, 0, held | RBOW_HELD_X), c = add_joint(&b, 8, 0, 0, held);
        add_tube(&b, a, c, 1.25, .058, &k);
        rbow_detail d = detail_of(RBOW_DETAIL_RING_WELD, mirrored ? 7 : 1);
        d.throat = .03;
        rbow_frame_load *l = push_joint(&b, 0, 0, 0, -500);
        l->acts_on = RBOW_ACTS_ON_TUBE;
        l->at = d.at;
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        const rbow_frame_life_row row = {&b.run, 1, 0, 1};
        rbow_life_result r;
        ck_assert_int_eq(rbow_frame_life_of(b.solver, &row, 1, 0, &d, &weld, &r), RBOW_OK);
        near_within(r.range, hypot(500 * 7 / 8. / (pi * 1.25 * 1.25 / 4), sqrt(3) * 2 * 500 * 7 / 8. / (pi * 1.25)) / .03, 1e-6, 0);
        runs[mirrored] = r.runs;
        end(&b);
    }
    near_within(runs[0], runs[1], 1e-6, 0);
}
END_TEST

/* A bow of unknown clock takes the worse of both sides, wherever the detail is. */
START_TEST(both_sides)
{
    const rbow_material k = with_ultimate();
    built any, up, down;
    s_shape(&any, &k, RBOW_ANY_CLOCK);
    s_shape(&up, &k, 0);
    s_shape(&down, &k, acos(-1));
    int sides = 0;
    for (double at = 4; at < 36; at += 7) {
        const rbow_detail d = detail_of(RBOW_DETAIL_HOLE, at);
        const double one = checked(&up, 0, &d).margin, other = checked(&down, 0, &d).margin;
        near_within(checked(&any, 0, &d).margin, fmin(one, other), 1e-6, 1e-6);
        sides |= one < other ? 1 : 2;
        const rbow_frame_life_row rows[] = {{&any.run, 5, 0, .8}}, of_up[] = {{&up.run, 5, 0, .8}}, of_down[] = {{&down.run, 5, 0, .8}};
        rbow_life_result r, a, b;
        ck_assert_int_eq(rbow_frame_life_of(any.solver, rows, 1, 0, &d, &weld, &r), RBOW_OK);
        ck_assert_int_eq(rbow_frame_life_of(up.solver, of_up, 1, 0, &d, &weld, &a), RBOW_OK);
        ck_assert_int_eq(rbow_frame_life_of(down.solver, of_down, 1, 0, &d, &weld, &b), RBOW_OK);
        ck_assert(isfinite(a.runs) && isfinite(b.runs));
        near_within(r.runs, fmin(a.runs, b.runs), 1e-6, 0);
    }
    ck_assert_int_eq(sides, 3);
    free(any.memory);
    free(up.memory);
    free(down.memory);
}
END_TEST

/* A factor below 0 is the run with every load turned round. */
START_TEST(turned_loads)
{
    const rbow_material k = with_ultimate();
    built b;
    portal(&b, &k, true);
    rbow_frame_load *along = &b.loads[b.run.load_count++];
    *along = rbow_frame_load_default();
    along->acts_on = RBOW_ACTS_ON_TUBE;
    along->index = 1;
    along->spread[RBOW_X] = 12;
    along->spread[RBOW_Z] = -4;
    along->force[RBOW_X] = 50;
    along->force[RBOW_Z] = 30;
    along->at = 13;
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    for (size_t tube = 0; tube < 4; tube++) {
        rbow_section_forces got, want, again;
        ck_assert_int_eq(rbow_frame_forces(b.solver, &b.run, -.3, RBOW_FRAME_AS_BUILT, tube, 9, &got), RBOW_OK);
        rbow_frame_load turned[LOADS_MOST];
        memcpy(turned, b.loads, sizeof turned);
        for (size_t i = 0; i < b.run.load_count; i++)
            for (int a = 0; a < RBOW_AXES; a++) {
                turned[i].force[a] *= -1;
                turned[i].spread[a] *= -1;
                turned[i].moment[a] *= -1;
            }
        const rbow_frame_run run = {turned, b.run.load_count, 1, RBOW_UNSET};
        ck_assert_int_eq(rbow_frame_forces(b.solver, &run, .3, RBOW_FRAME_AS_BUILT, tube, 9, &want), RBOW_OK);
        near_within(got.axial, want.axial, 1e-9, 1e-6);
        near_within(got.moment_up, want.moment_up, 1e-9, 1e-6);
        near_within(got.moment_right, want.moment_right, 1e-9, 1e-6);
        near_within(got.torque, want.torque, 1e-9, 1e-6);
        near_within(got.shear_up, want.shear_up, 1e-9, 1e-6);
        ck_assert_int_eq(rbow_frame_forces(b.solver, &b.run, -.3, RBOW_FRAME_AS_BUILT, tube, 9, &again), RBOW_OK);
        near_within(again.axial, got.axial, 1e-12, 0);
    }
    free(b.memory);
}
END_TEST

/* Straight struts that buckle: the path ends before a detail reaches its limit. */
START_TEST(the_end_of_the_path)
{
    const rbow_material k = with_ultimate();
    built b;
    begin(&b);
    const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_PINNED | RBOW_HELD_RX), c = add_joint(&b, 80, 0, 0, RBOW_HELD_Y | RBOW_HELD_Z);
    add_tube(&b, a, c, 1.25, .058, &k);
    push_joint(&b, c, -1000, 0, 0);
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    double end;
    ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_AS_BUILT, &end), RBOW_OK);
    const rbow_detail d = detail_of(RBOW_DETAIL_HOLE, 40);
    const rbow_detail_result r = checked(&b, 0, &d);
    ck_assert(isfinite(end));
    near_within(r.factor, end, 1e-6, 0);
    ck_assert_int_eq(r.mode, RBOW_DETAIL_BY_BUCKLING);
    free(b.memory);
}
END_TEST

/* A tube forced into a frame: where the metal leads the fit costs life; more cycles never last longer; faults. */
START_TEST(life_of_a_forced_frame)
{
    const rbow_material k = with_ultimate();
    built b;
    portal(&b, &k, true);
    for (size_t i = 0; i < b.run.load_count; i++)
        for (int axis = 0; axis < RBOW_AXES; axis++) b.loads[i].force[axis] *= .3;
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    const rbow_detail hole = detail_of(RBOW_DETAIL_HOLE, 5);
    double last = INFINITY;
    for (double cycles = 1; cycles < 1e4; cycles *= 10) {
        const rbow_frame_life_row row = {&b.run, cycles, 0, 1};
        rbow_life_result r;
        ck_assert_int_eq(rbow_frame_life_of(b.solver, &row, 1, 1, &hole, &metal, &r), RBOW_OK);
        ck_assert(isfinite(r.runs) && r.runs < last);
        ck_assert(r.runs < r.runs_unforced && r.forced_costs > 1);
        last = r.runs;
    }
    rbow_frame_life_row row = {&b.run, 0, 0, 1};
    rbow_life_result r;
    ck_assert_int_eq(rbow_frame_life_of(b.solver, &row, 1, 1, &hole, &metal, &r), RBOW_BAD_CYCLES);
    ck_assert(isnan(r.runs));
    row = (rbow_frame_life_row){&b.run, 1, 0, 1e5};
    ck_assert_int_eq(rbow_frame_life_of(b.solver, &row, 1, 1, &hole, &metal, &r), RBOW_OK);
    ck_assert_uint_ne(r.remarks & RBOW_LIFE_NO_STATE, 0);
    ck_assert(isnan(r.runs));
    free(b.memory);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, one_tube);
    tcase_add_test(c, against_a_dense_scan);
    tcase_add_test(c, beside_the_tubes);
    tcase_add_test(c, life_of_one_tube);
    tcase_add_test(c, life_of_a_forced_frame);
    tcase_add_test(c, ring_at_a_point_load);
    tcase_add_test(c, both_sides);
    tcase_add_test(c, turned_loads);
    tcase_add_test(c, the_end_of_the_path);
}

int main(void)
{
    return run_tests("details of a frame", fill);
}
