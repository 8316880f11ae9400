/* What the check of a member refuses, alone and together, and what it still allows. */
#include "members.h"

#include <gsl/gsl_errno.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

#define REAL(name) offsetof(rbow_member, name)

typedef struct real_fault {
    size_t field;
    double value;
    rbow_status want;
} real_fault;

static const real_fault real_faults[] = {
    {REAL(od), 0, RBOW_BAD_OD},
    {REAL(od), -1, RBOW_BAD_OD},
    {REAL(od), NAN, RBOW_BAD_OD},
    {REAL(od), INFINITY, RBOW_BAD_OD},
    {REAL(wall), 0, RBOW_BAD_WALL},
    {REAL(wall), -0.1, RBOW_BAD_WALL},
    {REAL(wall), 0.6251, RBOW_BAD_WALL},
    {REAL(wall), NAN, RBOW_BAD_WALL},
    {REAL(wall), INFINITY, RBOW_BAD_WALL},
    {REAL(wall), 0.007, RBOW_WALL_RULE}, /* D/t 178.6 > 174 */
    {REAL(length), 0, RBOW_BAD_LENGTH},
    {REAL(length), -1, RBOW_BAD_LENGTH},
    {REAL(length), NAN, RBOW_BAD_LENGTH},
    {REAL(length), INFINITY, RBOW_BAD_LENGTH},
    {REAL(end_a), -1, RBOW_BAD_END_A},
    {REAL(end_a), NAN, RBOW_BAD_END_A},
    {REAL(end_a), -INFINITY, RBOW_BAD_END_A},
    {REAL(end_a), RBOW_FREE, RBOW_BAD_END_A},
    {REAL(end_b), -1, RBOW_BAD_END_B},
    {REAL(end_b), NAN, RBOW_BAD_END_B},
    {REAL(end_b), -INFINITY, RBOW_BAD_END_B},
    {REAL(end_b), RBOW_FREE, RBOW_FREE_NEEDS_ROOT},
    {REAL(compression), NAN, RBOW_NOT_FINITE},
    {REAL(compression), INFINITY, RBOW_NOT_FINITE},
    {REAL(compression), -INFINITY, RBOW_NOT_FINITE},
    {REAL(eccentricity_clock), NAN, RBOW_NOT_FINITE},
    {REAL(moment_a), NAN, RBOW_NOT_FINITE},
    {REAL(moment_b), INFINITY, RBOW_NOT_FINITE},
    {REAL(moment_clock), NAN, RBOW_NOT_FINITE},
    {REAL(point_load), NAN, RBOW_NOT_FINITE},
    {REAL(point_clock), INFINITY, RBOW_NOT_FINITE},
    {REAL(spread_load), NAN, RBOW_NOT_FINITE},
    {REAL(spread_clock), NAN, RBOW_NOT_FINITE},
    {REAL(vertical_g), NAN, RBOW_NOT_FINITE},
    {REAL(torque), -INFINITY, RBOW_NOT_FINITE},
    {REAL(bow_clock), NAN, RBOW_NOT_FINITE},
    {REAL(miss_a_clock), NAN, RBOW_NOT_FINITE},
    {REAL(miss_b_clock), NAN, RBOW_NOT_FINITE},
    {REAL(gap), NAN, RBOW_NOT_FINITE},
    {REAL(gap), INFINITY, RBOW_NOT_FINITE},
    {REAL(eccentricity), -0.1, RBOW_BAD_ECCENTRICITY},
    {REAL(eccentricity), NAN, RBOW_BAD_ECCENTRICITY},
    {REAL(eccentricity), INFINITY, RBOW_BAD_ECCENTRICITY},
    {REAL(point_at), -0.1, RBOW_BAD_POINT_AT},
    {REAL(point_at), 30.001, RBOW_BAD_POINT_AT},
    {REAL(point_at), NAN, RBOW_BAD_POINT_AT},
    {REAL(slope), 1.5708, RBOW_BAD_SLOPE},
    {REAL(slope), -1.5708, RBOW_BAD_SLOPE},
    {REAL(slope), NAN, RBOW_BAD_SLOPE},
    {REAL(bow), -0.1, RBOW_BAD_BOW},
    {REAL(bow), NAN, RBOW_BAD_BOW},
    {REAL(bow), INFINITY, RBOW_BAD_BOW},
    {REAL(bow), 1.69, RBOW_BOW_TOO_STEEP}, /* pi 1.69/30 = 0.17698 > tan 10 deg = 0.17633 */
    {REAL(bow_at), 0, RBOW_BAD_BOW_AT},
    {REAL(bow_at), 30, RBOW_BAD_BOW_AT},
    {REAL(bow_at), -1, RBOW_BAD_BOW_AT},
    {REAL(bow_at), NAN, RBOW_BAD_BOW_AT},
    {REAL(miss_a), -0.1, RBOW_BAD_MISS_A},
    {REAL(miss_a), NAN, RBOW_BAD_MISS_A},
    {REAL(miss_a), 5.30, RBOW_MISS_A_TOO_STEEP}, /* 30 tan 10 deg = 5.2898 */
    {REAL(miss_b), -0.1, RBOW_BAD_MISS_B},
    {REAL(miss_b), INFINITY, RBOW_BAD_MISS_B},
    {REAL(miss_b), 5.30, RBOW_MISS_B_TOO_STEEP},
    {REAL(gap_stiffness), 0, RBOW_BAD_GAP_STIFFNESS},
    {REAL(gap_stiffness), -1, RBOW_BAD_GAP_STIFFNESS},
    {REAL(gap_stiffness), NAN, RBOW_BAD_GAP_STIFFNESS},
    {REAL(weld_zone), -0.1, RBOW_BAD_WELD_ZONE},
    {REAL(weld_zone), 30.001, RBOW_BAD_WELD_ZONE},
    {REAL(weld_zone), NAN, RBOW_BAD_WELD_ZONE},
    {REAL(dressed), -0.001, RBOW_BAD_DRESSED},
    {REAL(dressed), 0.049, RBOW_BAD_DRESSED},
    {REAL(dressed), NAN, RBOW_BAD_DRESSED},
    {REAL(factor), 0, RBOW_BAD_FACTOR},
    {REAL(factor), -1, RBOW_BAD_FACTOR},
    {REAL(factor), NAN, RBOW_BAD_FACTOR},
    {REAL(factor), INFINITY, RBOW_BAD_FACTOR},
    {REAL(factor_yield), 0, RBOW_BAD_FACTOR_YIELD},
    {REAL(factor_yield), -1, RBOW_BAD_FACTOR_YIELD},
    {REAL(factor_yield), NAN, RBOW_BAD_FACTOR_YIELD},
};

static bool nothing_in(const rbow_result *r)
{
    const double all[] = {r->margin, r->margin_as_built, r->margin_unforced, r->margin_best, r->bow_clock_taken,
                          r->miss_a_clock_taken, r->miss_b_clock_taken, r->eccentricity_clock_taken, r->yield_factor, r->column_factor, r->interaction_factor,
                          r->section.od, r->section.area, r->weight, r->wall_reduction, r->critical_load,
                          r->effective_length, r->slenderness, r->column_stress, r->column_load, r->fit_axial,
                          r->fit_moment, r->fit_stress, r->axial, r->peak_moment, r->peak_moment_at, r->peak_stress,
                          r->stress_use, r->deflection, r->deflection_clock, r->governs_at};
    bool nothing = r->verdict == RBOW_SHORT && r->governs == RBOW_BY_NONE && r->remarks == 0;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) nothing = nothing && isnan(all[i]);
    return nothing;
}

static void refused(const rbow_member *m, const rbow_material *k, rbow_status want)
{
    rbow_status faults[4];
    rbow_result r;
    const size_t count = rbow_member_faults(m, k, faults, 4);
    ck_assert_msg(count == 1 && faults[0] == want, "%zu faults, first %d, want %d", count, count ? (int)faults[0] : 0,
                  (int)want);
    ck_assert_int_eq(rbow_member_check(m, k, &r), want);
    ck_assert(nothing_in(&r));
}

START_TEST(every_number_refused_alone)
{
    for (size_t i = 0; i < sizeof real_faults / sizeof *real_faults; i++) {
        const real_fault *f = &real_faults[i];
        rbow_member m = sound();
        if (f->field == REAL(miss_a) || f->field == REAL(miss_b)) m.end_a = m.end_b = RBOW_FIXED; /* which hold a miss */
        memcpy((char *)&m + f->field, &f->value, sizeof f->value);
        refused(&m, &steel, f->want);
    }
}
END_TEST

START_TEST(borders_that_are_allowed)
{
    const real_fault fine[] = {
        {REAL(wall), 0.625, RBOW_OK},          {REAL(wall), 1.25 / 174 * (1 + 1e-12), RBOW_OK},
        {REAL(point_at), 0, RBOW_OK},          {REAL(point_at), 30, RBOW_OK},
        {REAL(point_at), RBOW_UNSET, RBOW_OK}, {REAL(slope), pi / 2, RBOW_OK},
        {REAL(slope), -pi / 2, RBOW_OK},       {REAL(bow), 30 * tan(pi / 18) / pi * (1 - 1e-12), RBOW_OK},
        {REAL(miss_a), 30 * tan(pi / 18) * (1 - 1e-12), RBOW_OK},
        {REAL(miss_b), 30 * tan(pi / 18) * (1 - 1e-12), RBOW_OK},
        {REAL(bow_clock), RBOW_ANY_CLOCK, RBOW_OK}, {REAL(eccentricity_clock), RBOW_ANY_CLOCK, RBOW_OK},
        {REAL(miss_a_clock), RBOW_ANY_CLOCK, RBOW_OK}, {REAL(miss_b_clock), RBOW_ANY_CLOCK, RBOW_OK},
        {REAL(weld_zone), RBOW_UNSET, RBOW_OK}, {REAL(end_a), RBOW_SOFT_WELD, RBOW_OK},
        {REAL(end_b), RBOW_STIFF_WELD, RBOW_OK},
        {REAL(weld_zone), 30, RBOW_OK},        {REAL(dressed), 0.0489, RBOW_OK}, /* no weld zone: nothing is dressed */
        {REAL(bow_at), 1e-3, RBOW_OK},         {REAL(gap_stiffness), 1e-300, RBOW_OK},
        {REAL(factor), 1e-3, RBOW_OK},         {REAL(end_a), RBOW_WELDED, RBOW_OK},
        {REAL(end_a), RBOW_FIXED, RBOW_OK},    {REAL(end_b), RBOW_WELDED, RBOW_OK},
    };
    for (size_t i = 0; i < sizeof fine / sizeof *fine; i++) {
        rbow_member m = sound();
        if (fine[i].field == REAL(miss_a) || fine[i].field == REAL(miss_b)) m.end_a = m.end_b = 1e-3;
        memcpy((char *)&m + fine[i].field, &fine[i].value, sizeof(double));
        check(&m, &steel);
    }
}
END_TEST

START_TEST(words_refused)
{
    rbow_member m = sound();
    m.column_curve = -1;
    refused(&m, &steel, RBOW_BAD_CURVE);
    m.column_curve = RBOW_CURVE_COUNT;
    refused(&m, &steel, RBOW_BAD_CURVE);
    m = sound();
    m.bow_shape = -1;
    refused(&m, &steel, RBOW_BAD_BOW_SHAPE);
    m.bow_shape = RBOW_BOW_KINK + 1;
    refused(&m, &steel, RBOW_BAD_BOW_SHAPE);
}
END_TEST

START_TEST(steep_bows_by_shape)
{
    static const struct {
        int shape;
        double at, most; /* 30 tan 10 deg = 5.28981 over pi, 4, and to the nearer end 6 tan 10 deg */
    } bows[] = {{RBOW_BOW_SINE, 15, 1.68380}, {RBOW_BOW_ARC, 15, 1.32245}, {RBOW_BOW_KINK, 15, 2.64490}, {RBOW_BOW_KINK, 24, 1.05796}};
    for (size_t i = 0; i < sizeof bows / sizeof *bows; i++) {
        rbow_member m = sound();
        m.bow_shape = bows[i].shape;
        m.bow_at = bows[i].at;
        m.bow = bows[i].most - 1e-4;
        check(&m, &steel);
        m.bow = bows[i].most + 1e-4;
        refused(&m, &steel, RBOW_BOW_TOO_STEEP);
    }
}
END_TEST

/* Dressing takes from the diameter twice what it takes from the wall: (1.25 - 2 d)/(0.01 - d) = 0.45 29e6/60e3 = 217.5
 * at d = 0.925/215.5 = 0.0042923. */
START_TEST(dressed_too_thin)
{
    rbow_member m = sound();
    m.wall = 0.01;
    m.weld_zone = 1;
    m.dressed = 0.004292;
    check(&m, &steel);
    m.dressed = 0.004293;
    refused(&m, &steel, RBOW_DRESSED_RULE);
}
END_TEST

START_TEST(free_end_refusals)
{
    rbow_member root = sound();
    root.end_a = RBOW_FIXED;
    root.end_b = RBOW_FREE;
    root.compression = 100;
    rbow_member m = root;
    m.miss_b = 0.01;
    refused(&m, &steel, RBOW_MISS_B_FREE);
    m = root;
    m.gap = -0.001;
    refused(&m, &steel, RBOW_GAP_FREE);
    m = root;
    m.end_a = RBOW_PINNED;
    refused(&m, &steel, RBOW_FREE_NEEDS_ROOT);
    m.end_a = RBOW_WELDED;
    refused(&m, &steel, RBOW_FREE_NEEDS_ROOT);
    m.end_a = 1e-6;
    m.compression = 0;
    check(&m, &steel);
}
END_TEST

/* A pinned end, or a spring of no stiffness, would be checked as if nothing were forced. */
START_TEST(a_miss_needs_an_end_that_holds)
{
    static const double loose[] = {RBOW_PINNED, 0.0, -0.0};
    static const double holds[] = {1e-6, 1e5, RBOW_FIXED, RBOW_WELDED, RBOW_SOFT_WELD, RBOW_STIFF_WELD};
    for (size_t i = 0; i < sizeof loose / sizeof *loose; i++) {
        rbow_member m = sound();
        m.end_b = RBOW_FIXED;
        m.end_a = loose[i];
        m.miss_a = 1e-9;
        refused(&m, &steel, RBOW_MISS_A_NOT_HELD);
        m.miss_a = 0;
        m.miss_b = 0.05; /* at the other end it is held */
        check(&m, &steel);
        m.end_b = loose[i];
        refused(&m, &steel, RBOW_MISS_B_NOT_HELD);
    }
    for (size_t i = 0; i < sizeof holds / sizeof *holds; i++) {
        rbow_member m = sound();
        m.end_a = m.end_b = holds[i];
        m.miss_a = m.miss_b = 0.001;
        check(&m, &steel);
    }
}
END_TEST

START_TEST(dressed_refusals)
{
    rbow_member m = sound();
    m.weld_zone = 1;
    m.dressed = 0.0465; /* 1.157/.0025 = 463 > 0.45 x 29e6/60e3 = 217.5 */
    refused(&m, &steel, RBOW_DRESSED_RULE);
    m.dressed = 0;
    m.wall = 1.25 / 173;
    rbow_material k = steel;
    k.weld_yield = 80e3; /* allows 163: the wall itself, not its dressing, is too thin there */
    refused(&m, &k, RBOW_WALL_RULE);
    m.weld_zone = 0;
    check(&m, &k);
}
END_TEST

START_TEST(materials_refused)
{
    static const size_t fields[] = {offsetof(rbow_material, elastic_modulus), offsetof(rbow_material, density),
                                    offsetof(rbow_material, yield),           offsetof(rbow_material, compression_yield),
                                    offsetof(rbow_material, weld_yield),      offsetof(rbow_material, column_intercept)};
    static const double bad[] = {0, -1, NAN, INFINITY};
    static const int curves[] = {RBOW_CURVE_OF_MATERIAL, RBOW_CURVE_COUNT};
    const rbow_member m = sound();
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        for (size_t k = 0; k < sizeof bad / sizeof *bad; k++) {
            rbow_material material = steel;
            memcpy((char *)&material + fields[i], &bad[k], sizeof bad[k]);
            refused(&m, &material, RBOW_BAD_MATERIAL);
        }
    for (int i = 0; i < 2; i++) {
        rbow_material material = steel;
        material.column_curve = (rbow_curve)curves[i];
        refused(&m, &material, RBOW_BAD_MATERIAL);
    }
    rbow_material material = steel;
    material.ultimate = NAN; /* not known: no result uses it */
    check(&m, &material);
}
END_TEST

START_TEST(several_faults_in_order)
{
    static const rbow_status want[] = {RBOW_BAD_WALL,    RBOW_BAD_MATERIAL, RBOW_BAD_LENGTH, RBOW_BAD_END_A,
                                       RBOW_BAD_END_B,   RBOW_BAD_CURVE,    RBOW_NOT_FINITE, RBOW_BAD_ECCENTRICITY,
                                       RBOW_BAD_SLOPE,   RBOW_BAD_BOW,      RBOW_BAD_BOW_SHAPE, RBOW_BAD_MISS_A,
                                       RBOW_BAD_MISS_B,  RBOW_BAD_GAP_STIFFNESS, RBOW_BAD_WELD_ZONE, RBOW_BAD_DRESSED,
                                       RBOW_BAD_FACTOR,  RBOW_BAD_FACTOR_YIELD};
    enum { ALL = sizeof want / sizeof *want };
    rbow_member m = tube_of(1.25, -1, NAN);
    rbow_material k = steel;
    k.density = NAN;
    m.end_a = m.end_b = NAN;
    m.column_curve = 99;
    m.compression = m.torque = NAN; /* said once */
    m.eccentricity = m.bow = m.miss_a = m.miss_b = -1;
    m.slope = 2;
    m.bow_shape = 7;
    m.gap_stiffness = m.weld_zone = m.dressed = m.factor = m.factor_yield = NAN;
    rbow_status faults[ALL + 2];
    rbow_result r;
    ck_assert_uint_eq(rbow_member_faults(&m, &k, faults, ALL + 2), ALL);
    for (int i = 0; i < ALL; i++) ck_assert_msg(faults[i] == want[i], "%d: %d, want %d", i, (int)faults[i], (int)want[i]);
    faults[3] = RBOW_OK;
    ck_assert_uint_eq(rbow_member_faults(&m, &k, faults, 3), ALL); /* told how many, given room for three */
    ck_assert_int_eq(faults[3], RBOW_OK);
    ck_assert_uint_eq(rbow_member_faults(&m, &k, NULL, 0), ALL);
    ck_assert_int_eq(rbow_member_check(&m, &k, &r), RBOW_BAD_WALL);
    ck_assert(nothing_in(&r));
}
END_TEST

START_TEST(free_end_with_everything_wrong)
{
    static const rbow_status want[] = {RBOW_FREE_NEEDS_ROOT, RBOW_BAD_POINT_AT, RBOW_BAD_BOW_AT, RBOW_MISS_A_TOO_STEEP,
                                       RBOW_MISS_B_TOO_STEEP, RBOW_MISS_B_FREE, RBOW_GAP_FREE, RBOW_MISS_A_NOT_HELD,
                                       RBOW_DRESSED_RULE};
    enum { ALL = sizeof want / sizeof *want };
    rbow_member m = sound();
    m.end_b = RBOW_FREE;
    m.point_at = 31;
    m.bow_at = 31;
    m.miss_a = m.miss_b = 6;
    m.gap = 1;
    m.weld_zone = 1;
    m.dressed = 0.0485;
    rbow_status faults[ALL + 2];
    ck_assert_uint_eq(rbow_member_faults(&m, &steel, faults, ALL + 2), ALL);
    for (int i = 0; i < ALL; i++) ck_assert_msg(faults[i] == want[i], "%d: %d, want %d", i, (int)faults[i], (int)want[i]);
}
END_TEST

START_TEST(default_member_lacks_its_tube)
{
    const rbow_member m = rbow_member_default();
    rbow_status faults[4];
    ck_assert_uint_eq(rbow_member_faults(&m, &steel, faults, 4), 2);
    ck_assert_int_eq(faults[0], RBOW_BAD_OD);
    ck_assert_int_eq(faults[1], RBOW_BAD_LENGTH);
    near_within(m.factor, 1.5, 0, 0);
}
END_TEST

/* No plausible number behind a stress that cannot be represented. */
START_TEST(loads_beyond_numbers)
{
    static const double huge[] = {1e150, 1e200, 1e300, 1e308};
    static const size_t fields[] = {REAL(moment_a), REAL(point_load), REAL(spread_load), REAL(torque), REAL(vertical_g)};
    rbow_result r;
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        for (size_t k = 0; k < sizeof huge / sizeof *huge; k++) {
            rbow_member m = sound();
            memcpy((char *)&m + fields[i], &huge[k], sizeof huge[k]);
            ck_assert_uint_eq(rbow_member_faults(&m, &steel, NULL, 0), 0);
            const rbow_status status = rbow_member_check(&m, &steel, &r);
            if (status == RBOW_OK)
                ck_assert(isfinite(r.stress_use) && r.stress_use > 1e100 && r.margin < 0);
            else
                ck_assert((status == RBOW_STRESS_OVERFLOW || status == RBOW_NO_CONVERGENCE) && nothing_in(&r));
        }
    rbow_member m = sound();
    m.moment_a = 1e200;
    ck_assert_int_eq(rbow_member_check(&m, &steel, &r), RBOW_STRESS_OVERFLOW);
    ck_assert(nothing_in(&r));
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, every_number_refused_alone);
    tcase_add_test(cases, borders_that_are_allowed);
    tcase_add_test(cases, words_refused);
    tcase_add_test(cases, steep_bows_by_shape);
    tcase_add_test(cases, dressed_too_thin);
    tcase_add_test(cases, free_end_refusals);
    tcase_add_test(cases, a_miss_needs_an_end_that_holds);
    tcase_add_test(cases, dressed_refusals);
    tcase_add_test(cases, materials_refused);
    tcase_add_test(cases, several_faults_in_order);
    tcase_add_test(cases, free_end_with_everything_wrong);
    tcase_add_test(cases, default_member_lacks_its_tube);
    tcase_add_test(cases, loads_beyond_numbers);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/validate", fill);
}
