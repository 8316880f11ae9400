/* Questions about forces and lives that have no answer: curves that are none, places and states that do not exist, numbers that are
 * too large. Nothing is returned with them. */
#include "detail/frame_details.h"

#include <railbow/life.h>

#include <stddef.h>

/* ---- curves ------------------------------------------------------------------------------------------------ */

/* The numbers of DNV-RP-C203 (2016, 2019), table 2-1, class D, and of MIL-HDBK-5H, figure 2.3.1.2.8(d) (from memory). */
static const rbow_sn_curve weld = {.kind = RBOW_SN_WELD, .log_a1 = 11.764, .m1 = 3, .log_a2 = 15.606, .m2 = 5, .knee_cycles = 1e7,
                                   .cutoff_cycles = 1e8, .stress_unit = 145.03773773020923, .deviation = NAN};
static const rbow_sn_curve metal = {.kind = RBOW_SN_METAL, .a1 = 12.6, .a2 = -4.69, .a3 = .63, .a4 = 0, .stress_unit = 1000, .deviation = NAN};

static void ck_curve(const rbow_sn_curve *c, double range, double most, double ratio, rbow_status want)
{
    double cycles = 1;
    ck_assert_int_eq(rbow_sn_cycles(c, range, most, ratio, &cycles), want);
    ck_assert(isnan(cycles) == (want != RBOW_OK));
}

#define OF(member) offsetof(rbow_sn_curve, member)

static void ck_unsound(const rbow_sn_curve *sound, size_t offset, double value)
{
    rbow_sn_curve c = *sound;
    ck_curve(&c, 1000, 1000, 0, RBOW_OK);
    *(double *)(void *)((char *)&c + offset) = value;
    ck_curve(&c, 1000, 1000, 0, RBOW_BAD_SN);
}

START_TEST(curves_that_are_none)
{
    static const struct {
        size_t offset;
        double value;
    } welds[] = {{OF(log_a1), NAN}, {OF(log_a1), INFINITY}, {OF(m1), 0}, {OF(m1), NAN}, {OF(m1), INFINITY}, {OF(log_a2), NAN}, {OF(log_a2), INFINITY},
                 {OF(m2), NAN}, {OF(m2), 0}, {OF(m2), INFINITY}, {OF(knee_cycles), NAN}, {OF(knee_cycles), 0}, {OF(cutoff_cycles), 0},
                 {OF(stress_unit), 0}, {OF(stress_unit), NAN}, {OF(stress_unit), INFINITY}},
      metals[] = {{OF(a1), NAN}, {OF(a2), 0}, {OF(a2), -INFINITY}, {OF(a2), NAN}, {OF(a3), -.1}, {OF(a3), 1.1}, {OF(a3), NAN}, {OF(a4), -1},
                  {OF(a4), INFINITY}, {OF(a4), NAN}, {OF(deviation), -.1}, {OF(stress_unit), -1}};
    for (size_t i = 0; i < sizeof welds / sizeof *welds; i++) ck_unsound(&weld, welds[i].offset, welds[i].value);
    for (size_t i = 0; i < sizeof metals / sizeof *metals; i++) ck_unsound(&metal, metals[i].offset, metals[i].value);
    rbow_sn_curve c = metal;
    c.kind = RBOW_SN_KIND_COUNT;
    ck_curve(&c, 1000, 1000, 0, RBOW_BAD_SN);
    c = weld;
    c.log_a2 = c.m2 = c.knee_cycles = c.cutoff_cycles = NAN; /* one branch without an end */
    ck_curve(&c, 1000, NAN, NAN, RBOW_OK);
}
END_TEST

START_TEST(stresses_that_are_none)
{
    double cycles;
    ck_curve(&weld, -1, NAN, NAN, RBOW_OUT_OF_RANGE);
    ck_curve(&weld, NAN, NAN, NAN, RBOW_OUT_OF_RANGE);
    ck_curve(&weld, INFINITY, NAN, NAN, RBOW_OUT_OF_RANGE);
    ck_curve(&metal, NAN, INFINITY, 0, RBOW_OUT_OF_RANGE);
    ck_curve(&metal, NAN, 1000, 1.01, RBOW_OUT_OF_RANGE);
    ck_curve(&metal, NAN, 1000, NAN, RBOW_OUT_OF_RANGE);
    ck_curve(&metal, NAN, 1000, -INFINITY, RBOW_OUT_OF_RANGE);
    ck_curve(&metal, NAN, -1000, NAN, RBOW_OK); /* pushed alone: the ratio does not count */
    ck_assert_int_eq(rbow_sn_cycles(&weld, 0, NAN, NAN, &cycles), RBOW_OK);
    ck_assert(isinf(cycles));
}
END_TEST

/* Without a second branch the first goes on beyond the knee, up to the cut-off. */
START_TEST(one_branch_goes_on)
{
    rbow_sn_curve c = weld;
    double cycles;
    c.log_a2 = NAN;
    ck_assert_int_eq(rbow_sn_cycles(&c, 40 * c.stress_unit, NAN, NAN, &cycles), RBOW_BAD_SN); /* half of the second */
    c.m2 = c.knee_cycles = NAN;
    ck_assert_int_eq(rbow_sn_cycles(&c, 30 * c.stress_unit, NAN, NAN, &cycles), RBOW_OK);
    near_within(cycles, pow(10, 11.764) / 27000, 1e-12, 0);
    ck_assert_int_eq(rbow_sn_cycles(&c, 17 * c.stress_unit, NAN, NAN, &cycles), RBOW_OK); /* 1.18e8 */
    ck_assert(isinf(cycles));
}
END_TEST

/* ---- forces of a member ------------------------------------------------------------------------------------ */

static rbow_member bowed(void)
{
    rbow_member m = rbow_member_default();
    m.od = 1.25, m.wall = .058, m.length = 60, m.compression = 1000;
    m.bow = .1, m.miss_a = .2, m.miss_b = .1, m.eccentricity = .05;
    m.bow_clock = m.miss_a_clock = m.miss_b_clock = m.eccentricity_clock = 1;
    m.end_a = m.end_b = 1e5;
    return m;
}

static rbow_status forces_of(const rbow_member *m, double factor, double at)
{
    rbow_section_forces f = {.axial = 1};
    const rbow_status status = rbow_member_forces(m, &steel, factor, at, &f);
    ck_assert(isnan(f.axial) == (status != RBOW_OK) && isnan(f.moment_up) == (status != RBOW_OK) && isnan(f.shear_right) == (status != RBOW_OK));
    return status;
}

START_TEST(unknowns_that_are_left)
{
    rbow_member m = bowed();
    double *const clocks[] = {&m.bow_clock, &m.miss_a_clock, &m.miss_b_clock, &m.eccentricity_clock};
    double *const sizes[] = {&m.bow, &m.miss_a, &m.miss_b, &m.eccentricity}, *const ends[] = {&m.end_a, &m.end_b};
    ck_assert_int_eq(forces_of(&m, 1, 30), RBOW_OK);
    for (int i = 0; i < 4; i++) {
        const double size = *sizes[i];
        *clocks[i] = RBOW_ANY_CLOCK;
        ck_assert_int_eq(forces_of(&m, 1, 30), RBOW_OUT_OF_RANGE);
        *sizes[i] = 0; /* nothing has no direction */
        ck_assert_int_eq(forces_of(&m, 1, 30), RBOW_OK);
        *sizes[i] = size;
        *clocks[i] = 1;
    }
    for (int i = 0; i < 2; i++) {
        *ends[i] = RBOW_WELDED;
        ck_assert_int_eq(forces_of(&m, 1, 30), RBOW_OUT_OF_RANGE);
        *ends[i] = 1e5;
    }
}
END_TEST

START_TEST(places_and_factors_that_are_none)
{
    rbow_member m = bowed();
    ck_assert_int_eq(forces_of(&m, 1, -1e-9), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(forces_of(&m, 1, 60.01), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(forces_of(&m, 1, NAN), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(forces_of(&m, NAN, 30), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(forces_of(&m, INFINITY, 30), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(forces_of(&m, 1e3, 30), RBOW_UNSTABLE);
    ck_assert_int_eq(forces_of(&m, -1, 30), RBOW_OK); /* pulled */
    m.spread_load = 1e10;
    ck_assert_int_eq(forces_of(&m, -1e299, 30), RBOW_STRESS_OVERFLOW);
    m.wall = 1;
    ck_assert_int_eq(forces_of(&m, 1, 30), RBOW_BAD_WALL);
}
END_TEST

/* Loads whose stresses are beyond all limits by hundreds of powers of ten: no margin, no life, and nothing that looks like one. */
START_TEST(loads_beyond_all_numbers)
{
    for (int what = 0; what < 4; what++)
        for (int kind = 0; kind < RBOW_DETAIL_KIND_COUNT; kind++) {
            rbow_member m = bowed();
            const rbow_material k = with_ultimate();
            rbow_detail d = detail_of(kind, 10);
            rbow_detail_result r;
            rbow_life_result life;
            const rbow_life_row row = {&m, 1, 0, 1};
            double *const loads[] = {&m.point_load, &m.spread_load, &m.torque, &m.compression};
            d.stub_od = 1.12, d.stub_wall = .095; /* into the tube */
            *loads[what] = what == 3 ? -1e180 : 1e180;
            ck_assert_int_eq(rbow_detail_check(&d, &m, &k, &r), RBOW_STRESS_OVERFLOW);
            ck_assert(isnan(r.margin) && isnan(r.factor) && isnan(r.moment) && r.verdict == RBOW_SHORT);
            ck_assert_int_eq(rbow_life_of(&d, &row, 1, &k, &weld, &life), RBOW_OK);
            ck_assert(isnan(life.runs) && (life.remarks & RBOW_LIFE_LOW_CYCLE) != 0);
        }
}
END_TEST

/* ---- forces and lives of a frame --------------------------------------------------------------------------- */

static void open_mast(built *b, double load)
{
    begin(b);
    const size_t foot = add_joint(b, 0, 0, 0, RBOW_HELD_FIXED), top = add_joint(b, 0, 0, 60, 0);
    add_tube(b, foot, top, 1.25, .058, &steel)->bow = .05;
    push_joint(b, top, 0, 0, -load);
    ck_assert_int_eq(open_frame(b), RBOW_OK);
}

static rbow_status frame_forces(built *b, double factor, int fit, size_t tube, double at)
{
    rbow_section_forces f = {.axial = 1};
    const rbow_status status = rbow_frame_forces(b->solver, &b->run, factor, fit, tube, at, &f);
    ck_assert(isfinite(f.axial + f.moment_up + f.moment_right + f.shear_up + f.shear_right) == (status == RBOW_OK));
    return status;
}

START_TEST(forces_of_a_frame)
{
    built b;
    open_mast(&b, 100);
    ck_assert_int_eq(frame_forces(&b, 1, RBOW_FRAME_AS_BUILT, 0, 60), RBOW_OK);
    ck_assert_int_eq(frame_forces(&b, NAN, RBOW_FRAME_AS_BUILT, 0, 1), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_forces(&b, 1, 2, 0, 1), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_forces(&b, 1, RBOW_FRAME_UNFORCED, 1, 1), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_forces(&b, 1, RBOW_FRAME_UNFORCED, 0, -1), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_forces(&b, 1, RBOW_FRAME_UNFORCED, 0, 61), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_forces(&b, 1, RBOW_FRAME_UNFORCED, 0, NAN), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_forces(&b, 1e3, RBOW_FRAME_AS_BUILT, 0, 1), RBOW_UNSTABLE);
    ck_assert_int_eq(frame_forces(&b, -1e3, RBOW_FRAME_AS_BUILT, 0, 1), RBOW_OK); /* pulled up */
    b.run.factor = -1;
    ck_assert_int_eq(frame_forces(&b, 1, RBOW_FRAME_AS_BUILT, 0, 1), RBOW_OUT_OF_RANGE);
    end(&b);
}
END_TEST

static rbow_status frame_life(built *b, rbow_frame_life_row row, size_t count, size_t tube, const rbow_detail *d, const rbow_sn_curve *c)
{
    rbow_life_result r = {.runs = 1};
    const rbow_status status = rbow_frame_life_of(b->solver, &row, count, tube, d, c, &r);
    ck_assert(isnan(r.runs) == (status != RBOW_OK) && isnan(r.range) == (status != RBOW_OK));
    return status;
}

START_TEST(lives_of_a_frame)
{
    built b;
    open_mast(&b, 100);
    const rbow_detail place = detail_of(RBOW_DETAIL_PLACE, 3), outside = detail_of(RBOW_DETAIL_PLACE, 61);
    rbow_detail loose = detail_of(RBOW_DETAIL_SLEEVE, 20);
    rbow_frame_life_row row = {&b.run, 1, 0, 1};
    rbow_sn_curve none = weld;
    none.m1 = 0;
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &weld), RBOW_OK);
    ck_assert_int_eq(frame_life(&b, row, 0, 0, &place, &weld), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_life(&b, row, 1, 1, &place, &weld), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &outside, &weld), RBOW_BAD_DETAIL_AT);
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &none), RBOW_BAD_SN);
    row.cycles = 0;
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &weld), RBOW_BAD_CYCLES);
    row.cycles = INFINITY;
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &weld), RBOW_BAD_CYCLES);
    row = (rbow_frame_life_row){&b.run, 1, NAN, 1};
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &weld), RBOW_BAD_CYCLE_LOW);
    row = (rbow_frame_life_row){&b.run, 1, 0, 0};
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &weld), RBOW_BAD_CYCLE_HIGH);
    row.high = 1;
    rbow_material k = with_ultimate();
    b.tubes[0].material = &k;
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &loose, &metal), RBOW_SN_NOT_WELD); /* it has rosettes */
    b.run.factor = 0;
    ck_assert_int_eq(frame_life(&b, row, 1, 0, &place, &weld), RBOW_OUT_OF_RANGE);
    end(&b);
}
END_TEST

/* A detail of a tube that is none: its faults cannot be asked, and no margin comes back. */
START_TEST(a_tube_that_is_none)
{
    built b;
    open_mast(&b, 100);
    const rbow_frame_detail on_none = {1, detail_of(RBOW_DETAIL_PLACE, 3)};
    rbow_frame_lowest lowest;
    size_t detail;
    rbow_detail_result r;
    ck_assert_uint_eq(rbow_frame_detail_faults(&b.frame, 1, &on_none.detail, NULL, 0), 1);
    ck_assert_int_eq(rbow_frame_details_check(b.solver, &b.run, &on_none, 1, &r), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(r.margin));
    ck_assert_int_eq(rbow_frame_details_margin(b.solver, &b.run, &on_none, 1, INFINITY, &lowest, &detail), RBOW_OUT_OF_RANGE);
    b.run.factor = 0;
    ck_assert_int_eq(rbow_frame_details_margin(b.solver, &b.run, NULL, 0, INFINITY, &lowest, &detail), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_frame_details_check(b.solver, &b.run, &(rbow_frame_detail){0, on_none.detail}, 1, &r), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(r.margin));
    end(&b);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, curves_that_are_none);
    tcase_add_test(c, stresses_that_are_none);
    tcase_add_test(c, one_branch_goes_on);
    tcase_add_test(c, unknowns_that_are_left);
    tcase_add_test(c, places_and_factors_that_are_none);
    tcase_add_test(c, loads_beyond_all_numbers);
    tcase_add_test(c, forces_of_a_frame);
    tcase_add_test(c, lives_of_a_frame);
    tcase_add_test(c, a_tube_that_is_none);
}

int main(void)
{
    return run_tests("refused", fill);
}
