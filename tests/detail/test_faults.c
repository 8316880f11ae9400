/* Every fault of a detail, and the remarks on its sizes. */
#include "details.h"

static void refused(const rbow_detail *d, const rbow_member *m, const rbow_material *k, rbow_status want)
{
    rbow_status all[8];
    rbow_detail_result r;
    double use[RBOW_DETAIL_MODES];
    const rbow_section_forces f = {.axial = 1};
    ck_assert_uint_ge(rbow_detail_faults(d, m, k, all, 8), 1);
    ck_assert_int_eq(all[0], want);
    ck_assert_int_eq(rbow_detail_check(d, m, k, &r), want);
    ck_assert(isnan(r.margin) && isnan(r.factor) && isnan(r.eccentricity_clock_taken) && r.verdict == RBOW_SHORT);
    ck_assert_int_eq(rbow_detail_use(d, m, k, &f, use), want);
    for (int i = 0; i < RBOW_DETAIL_MODES; i++) ck_assert(isnan(use[i]));
    ck_assert_str_ne(rbow_status_text(want), "unknown status");
}

#define REFUSED(make, field, value, want)                                                                      \
    do {                                                                                                       \
        rbow_detail d_ = make;                                                                                 \
        ck_assert_uint_eq(rbow_detail_faults(&d_, &m, &steel, NULL, 0), 0);                                    \
        d_.field = value;                                                                                      \
        refused(&d_, &m, &steel, want);                                                                        \
    } while (0)

START_TEST(faults)
{
    const rbow_member m = tube_of(1.25, .058, 36);
    const rbow_detail place = detail_of(RBOW_DETAIL_PLACE, 3), hole = hole_at(3, .25, 2), ring = detail_of(RBOW_DETAIL_RING_WELD, 0);
    const rbow_detail butt = sleeve_at(18, 1.125, .058, 1), loose = sleeve_at(18, 1.125, .058, 0), socket = socket_at(0, 1.375, .058);
    REFUSED(place, kind, RBOW_DETAIL_KIND_COUNT, RBOW_BAD_DETAIL_KIND);
    REFUSED(place, kind, -1, RBOW_BAD_DETAIL_KIND);
    REFUSED(place, at, 36.001, RBOW_BAD_DETAIL_AT);
    REFUSED(place, at, NAN, RBOW_BAD_DETAIL_AT);
    REFUSED(hole, hole, -.1, RBOW_BAD_HOLE);
    REFUSED(hole, hole, NAN, RBOW_BAD_HOLE);
    REFUSED(hole, hole, 1.134, RBOW_BAD_HOLE);
    REFUSED(hole, walls, 0, RBOW_BAD_WALLS);
    REFUSED(hole, hole_clock, INFINITY, RBOW_BAD_HOLE_CLOCK);
    REFUSED(ring, throat, 0, RBOW_BAD_THROAT);
    REFUSED(ring, weld_strength, -1, RBOW_BAD_WELD_STRENGTH);
    REFUSED(ring, weld_od, INFINITY, RBOW_BAD_WELD_OD);
    REFUSED(butt, sleeve_od, 1.14, RBOW_BAD_SLEEVE_OD);
    REFUSED(butt, sleeve_wall, .6, RBOW_BAD_SLEEVE_WALL);
    REFUSED(butt, sleeve_wall, .004, RBOW_SLEEVE_RULE); /* D/t 281, at most 0.45 x 29e6/60e3 = 217.5 */
    REFUSED(butt, overlap, 0, RBOW_BAD_OVERLAP);
    REFUSED(butt, rosettes, -1, RBOW_BAD_ROSETTES);
    REFUSED(butt, butt, 2, RBOW_BAD_BUTT);
    REFUSED(loose, rosettes, 0, RBOW_BAD_ROSETTES);
    REFUSED(loose, rosette, 0, RBOW_BAD_ROSETTE);
    REFUSED(socket, stub_od, 1.3, RBOW_BAD_STUB_OD); /* neither over nor into the tube */
    REFUSED(socket, stub_wall, 0, RBOW_BAD_STUB_WALL);
    REFUSED(socket, stub_wall, .005, RBOW_STUB_RULE);
    REFUSED(socket, throat, NAN, RBOW_BAD_THROAT);
    rbow_material k = steel;
    k.ultimate = NAN;
    refused(&loose, &m, &k, RBOW_NO_ULTIMATE);
    ck_assert_uint_eq(rbow_detail_faults(&butt, &m, &k, NULL, 0), 0);
    rbow_member bad = m;
    bad.od = -1;
    rbow_detail_result r;
    ck_assert_int_eq(rbow_detail_check(&place, &bad, &steel, &r), RBOW_BAD_OD);
}
END_TEST

START_TEST(all_faults_at_once)
{
    const rbow_member m = tube_of(1.25, .058, 36);
    rbow_detail d = sleeve_at(18, 1.125, .058, 0);
    d.overlap = d.rosette = NAN;
    d.throat = -1;
    rbow_status all[8];
    ck_assert_uint_eq(rbow_detail_faults(&d, &m, &steel, all, 8), 3);
    ck_assert_int_eq(all[0], RBOW_BAD_THROAT);
    ck_assert_int_eq(all[1], RBOW_BAD_OVERLAP);
    ck_assert_int_eq(all[2], RBOW_BAD_ROSETTE);
}
END_TEST

static unsigned remarks_of(const rbow_detail *d)
{
    rbow_member m = tube_of(1.25, .058, 36);
    rbow_detail_result r;
    m.compression = 100;
    ck_assert_int_eq(rbow_detail_check(d, &m, &steel, &r), RBOW_OK);
    return r.remarks;
}

/* FAA AC 43.13-1B 4-92, 4-95, 4-97 (read, in part second hand): fit within 1/16 in, reach 1 1/2 D = 1.875 in, wall at least the
 * tube's. AISC 360 J2.3b (from memory): hole from t + 5/16 = 0.3705 in to t + 7/16, pitch 4 d = 1.5 in of a girth of 3.927 in. */
START_TEST(remarks)
{
    rbow_detail d = sleeve_at(18, 1.134, .058, 0);
    d.rosettes = 2;
    ck_assert_uint_eq(remarks_of(&d), 0);
    d.sleeve_od = 1.07;
    ck_assert_uint_eq(remarks_of(&d), RBOW_DETAIL_LOOSE | RBOW_DETAIL_PLAYS);
    d.sleeve_od = 1.134;
    d.overlap = 1.8;
    ck_assert_uint_eq(remarks_of(&d), RBOW_DETAIL_SHORT_OVERLAP);
    d.overlap = 1.9;
    d.sleeve_wall = .049;
    ck_assert_uint_eq(remarks_of(&d), RBOW_DETAIL_THIN_SLEEVE);
    d.sleeve_wall = .058;
    d.rosettes = 3;
    ck_assert_uint_eq(remarks_of(&d), RBOW_DETAIL_ROSETTE);
    d.rosettes = 2;
    d.rosette = .36;
    ck_assert_uint_eq(remarks_of(&d), RBOW_DETAIL_ROSETTE);
    rbow_detail ring = detail_of(RBOW_DETAIL_RING_WELD, 0);
    ck_assert_uint_eq(remarks_of(&ring), RBOW_DETAIL_THROAT_TAKEN);
    ring.throat = .058;
    ck_assert_uint_eq(remarks_of(&ring), 0);
    ring.throat = .07;
    ck_assert_uint_eq(remarks_of(&ring), RBOW_DETAIL_THICK_THROAT);
    ring.throat = .01; /* 0.6 x 70 ksi x 0.0393 in^2 = 1649 lbf */
    ck_assert_uint_eq(remarks_of(&ring), 0);
    ring.throat = .001;
    ck_assert_uint_eq(remarks_of(&ring), RBOW_DETAIL_UNDER_TWO);
}
END_TEST

START_TEST(names)
{
    ck_assert_str_eq(rbow_detail_kind_name(RBOW_DETAIL_RING_WELD), "ring weld");
    ck_assert_str_eq(rbow_detail_mode_name(RBOW_DETAIL_BY_BEARING), "bearing");
    ck_assert_ptr_null(rbow_detail_kind_name(RBOW_DETAIL_KIND_COUNT));
    ck_assert_ptr_null(rbow_detail_mode_name(-1));
    for (int i = 0; i < RBOW_DETAIL_REMARK_COUNT; i++) ck_assert_ptr_nonnull(rbow_detail_remark_text(1u << i));
    ck_assert_ptr_null(rbow_detail_remark_text(1u << RBOW_DETAIL_REMARK_COUNT));
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, faults);
    tcase_add_test(c, all_faults_at_once);
    tcase_add_test(c, remarks);
    tcase_add_test(c, names);
}

int main(void)
{
    return run_tests("faults of details", fill);
}
