/* A strut that was squeezed in between its joints by more than it stands: too long by more than its critical load, pi^2 EI/(L/2)^2 of
 * fixed ends, shortens it. No state exists at rest: every margin is -1, and no number looks like one of a state. */
#include "detail/frame_details.h"

#include <railbow/frame_cut.h>
#include <railbow/life.h>

static const double pi = 3.14159265358979323846, length = 60, elastic = 29e6;

static double inertia(void)
{
    return pi / 64 * (pow(1.25, 4) - pow(1.134, 4));
}

static double area(void)
{
    return pi / 4 * (1.25 * 1.25 - 1.134 * 1.134);
}

/* By which a tube is longer that is at its critical load between rigid joints. */
static double critical_gap(void)
{
    return 4 * pi * pi * elastic * inertia() / (length * length) * length / (elastic * area());
}

static rbow_member squeezed_member(double share)
{
    rbow_member m = rbow_member_default();
    m.od = 1.25, m.wall = .058, m.length = length;
    m.end_a = m.end_b = RBOW_FIXED;
    m.gap = -share * critical_gap();
    m.compression = 10;
    return m;
}

START_TEST(a_member)
{
    const rbow_material k = with_ultimate();
    for (int beyond = 0; beyond < 2; beyond++) {
        const rbow_member m = squeezed_member(beyond ? 1.001 : 0.999);
        rbow_result of_tube;
        ck_assert_int_eq(rbow_member_check(&m, &k, &of_tube), RBOW_OK);
        for (int kind = 0; kind < RBOW_DETAIL_KIND_COUNT; kind++) {
            rbow_detail d = detail_of(kind, 20);
            rbow_detail_result r;
            d.stub_od = 1.12, d.stub_wall = .095;
            ck_assert_int_eq(rbow_detail_check(&d, &m, &k, &r), RBOW_OK);
            if (beyond) {
                near_within(r.margin, -1, 0, 0);
                near_within(r.factor, 0, 0, 0);
                ck_assert_int_eq(r.mode, RBOW_DETAIL_BY_BUCKLING);
                ck_assert_int_eq(r.verdict, RBOW_SHORT);
                ck_assert((r.remarks & RBOW_DETAIL_UNSTABLE) != 0 && isnan(r.moment) && isnan(r.shear));
                near_within(r.axial, 10 + 1.001 * critical_gap() / length * elastic * area(), 1e-9, 0); /* this alone is known */
                near_within(of_tube.margin, -1, 0, 0);
            } else if (kind == RBOW_DETAIL_PLACE) ck_assert(r.margin > -1); /* 57 ksi, which others do not bear */
        }
    }
}
END_TEST

static void open_strut(built *b, const rbow_material *k, double share)
{
    begin(b);
    const size_t low = add_joint(b, 0, 0, 0, RBOW_HELD_FIXED), high = add_joint(b, 0, 0, length, RBOW_HELD_FIXED);
    rbow_frame_tube *t = add_tube(b, low, high, 1.25, .058, k);
    t->gap = -share * critical_gap();
    push_joint(b, high, 10, 0, 0);
    ck_assert_int_eq(open_frame(b), RBOW_OK);
}

START_TEST(a_frame_stands_below_it)
{
    const rbow_material k = with_ultimate();
    built b;
    double axial, end_of_path;
    open_strut(&b, &k, 0.999);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 0, RBOW_FRAME_AS_BUILT, NULL, &axial), RBOW_OK);
    near_within(axial, 0.999 * critical_gap() / length * elastic * area(), 1e-9, 0);
    ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_AS_BUILT, &end_of_path), RBOW_OK);
    ck_assert(end_of_path > 0);
    end(&b);
}
END_TEST

START_TEST(a_frame_beyond_it)
{
    const rbow_material k = with_ultimate();
    built b;
    double axial, number;
    rbow_frame_lowest lowest;
    rbow_profile station = {.at = 20};
    open_strut(&b, &k, 1.001);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 0, RBOW_FRAME_AS_BUILT, NULL, &axial), RBOW_UNSTABLE);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 0, RBOW_FRAME_UNFORCED, NULL, &axial), RBOW_OK);
    ck_assert_int_eq(rbow_frame_profile(b.solver, &b.run, 1, RBOW_FRAME_AS_BUILT, 0, &station, 1), RBOW_UNSTABLE);
    ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_AS_BUILT, &number), RBOW_OK);
    near_within(number, 0, 0, 0);
    ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_UNFORCED, &number), RBOW_OK);
    ck_assert(number > 1);
    ck_assert_int_eq(rbow_frame_check(b.solver, &b.run, b.tube, b.joint, &b.whole), RBOW_OK);
    near_within(b.tube[0].margin, -1, 0, 0);
    near_within(b.tube[0].margin_as_built, -1, 0, 0);
    ck_assert(b.tube[0].margin_unforced > 0);
    ck_assert_int_eq(b.tube[0].governs, RBOW_FRAME_BY_FRAME);
    ck_assert_int_eq(b.tube[0].verdict, RBOW_SHORT);
    ck_assert(isnan(b.tube[0].axial) && isnan(b.tube[0].fit_axial) && isnan(b.joint[1].move[0]) && isnan(b.joint[1].react[0]));
    ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, INFINITY, &lowest), RBOW_OK);
    near_within(lowest.margin, -1, 0, 0);
    end(&b);
}
END_TEST

START_TEST(a_detail_of_a_frame_beyond_it)
{
    const rbow_material k = with_ultimate();
    const rbow_sn_curve weld = {.kind = RBOW_SN_WELD, .log_a1 = 12, .m1 = 3, .log_a2 = NAN, .m2 = NAN, .knee_cycles = NAN, .cutoff_cycles = NAN,
                                .stress_unit = 145, .deviation = NAN};
    built b;
    rbow_detail_result r;
    rbow_section_forces f;
    rbow_life_result life;
    open_strut(&b, &k, 1.001);
    const rbow_detail d = detail_of(RBOW_DETAIL_HOLE, 20);
    const rbow_frame_life_row row = {&b.run, 1, 0, 1};
    ck_assert_int_eq(rbow_frame_detail_check(b.solver, &b.run, 0, &d, &r), RBOW_OK);
    near_within(r.margin, -1, 0, 0);
    ck_assert_int_eq(r.mode, RBOW_DETAIL_BY_BUCKLING);
    ck_assert((r.remarks & RBOW_DETAIL_UNSTABLE) != 0 && isnan(r.moment) && r.verdict == RBOW_SHORT);
    ck_assert_int_eq(rbow_frame_forces(b.solver, &b.run, 1, RBOW_FRAME_AS_BUILT, 0, 20, &f), RBOW_UNSTABLE);
    ck_assert_int_eq(rbow_frame_life_of(b.solver, &row, 1, 0, &d, &weld, &life), RBOW_OK);
    ck_assert(isnan(life.runs) && (life.remarks & RBOW_LIFE_NO_STATE) != 0 && !isnan(life.runs_unforced));
    end(&b);
}
END_TEST

/* What never stood has no state to cut, and readings that ask for it are refused. */
START_TEST(a_cut_of_what_never_stood)
{
    const rbow_material k = with_ultimate();
    const rbow_frame_cut_place place = {0, 20};
    built b;
    rbow_frame_faces faces;
    open_strut(&b, &k, 1.001);
    void *memory = malloc(rbow_frame_cut_memory(&b.frame, NULL, 1));
    ck_assert_int_eq(rbow_frame_cut(&b.frame, NULL, &place, 1, memory, &faces, NULL, NULL), RBOW_UNSTABLE);
    ck_assert(isnan(faces.moved) && isnan(faces.opened));
    b.tubes[0].gap = 0;
    for (int angle = 0; angle < 2; angle++) {
        const rbow_frame_faces read = {.moved = 0, .moved_clock = NAN, .turned = angle ? 0 : (double)NAN, .turned_clock = NAN, .opened = -1.001 * critical_gap()};
        rbow_frame_released r;
        ck_assert_int_eq(rbow_frame_release(&b.frame, &place, &read, memory, &r, NULL), RBOW_UNSTABLE);
        ck_assert(isnan(r.fit_axial) && isnan(r.gap));
    }
    free(memory);
    end(&b);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, a_member);
    tcase_add_test(c, a_frame_stands_below_it);
    tcase_add_test(c, a_frame_beyond_it);
    tcase_add_test(c, a_detail_of_a_frame_beyond_it);
    tcase_add_test(c, a_cut_of_what_never_stood);
}

int main(void)
{
    return run_tests("at rest", fill);
}
