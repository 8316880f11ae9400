/* A failed result holds no number: every status is provoked once, and the results that come with it are walked through, those
 * of check by its field list, the others double by double. */
#include "near.h"

#include "cases/check_table.h"
#include "mechanics/root.h"

#include <railbow/railbow.h>

#include <gsl/gsl_errno.h>
#include <string.h>

static const rbow_material steel = {
    .name = "steel", .wall_over = 0.01, .wall_up_to = 1, .elastic_modulus = 29e6, .density = 0.283, .yield = 75e3,
    .compression_yield = 75e3, .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
};

static rbow_member sound(void)
{
    rbow_member m = rbow_member_default();
    m.od = 1.25;
    m.wall = 0.058;
    m.length = 30;
    m.compression = 1000;
    m.end_a = m.end_b = RBOW_FIXED;
    return m;
}

/* ---- one member for each fault -------------------------------------------------------------------------- */

#define AT(member_) offsetof(rbow_member, member_)

typedef struct fault { /* up to two numbers of a sound member, changed */
    rbow_status status;
    size_t first, second;
    double value, other;
} fault;

static const fault faults[] = {
    {RBOW_NOT_FINITE, AT(torque), AT(torque), NAN, NAN},
    {RBOW_BAD_OD, AT(od), AT(od), 0, 0},
    {RBOW_BAD_WALL, AT(wall), AT(wall), 1, 1},
    {RBOW_WALL_RULE, AT(wall), AT(wall), 0.001, 0.001},
    {RBOW_BAD_LENGTH, AT(length), AT(length), -1, -1},
    {RBOW_BAD_END_A, AT(end_a), AT(end_a), -1, -1},
    {RBOW_BAD_END_B, AT(end_b), AT(end_b), -1, -1},
    {RBOW_FREE_NEEDS_ROOT, AT(end_b), AT(end_a), RBOW_FREE, 0},
    {RBOW_BAD_ECCENTRICITY, AT(eccentricity), AT(eccentricity), -1, -1},
    {RBOW_BAD_POINT_AT, AT(point_at), AT(point_at), 31, 31},
    {RBOW_BAD_SLOPE, AT(slope), AT(slope), 2, 2},
    {RBOW_BAD_BOW, AT(bow), AT(bow), -1, -1},
    {RBOW_BAD_BOW_AT, AT(bow_at), AT(bow_at), 30, 30},
    {RBOW_BOW_TOO_STEEP, AT(bow), AT(bow), 10, 10},
    {RBOW_BAD_MISS_A, AT(miss_a), AT(miss_a), -1, -1},
    {RBOW_MISS_A_TOO_STEEP, AT(miss_a), AT(miss_a), 10, 10},
    {RBOW_BAD_MISS_B, AT(miss_b), AT(miss_b), -1, -1},
    {RBOW_MISS_B_TOO_STEEP, AT(miss_b), AT(miss_b), 10, 10},
    {RBOW_MISS_A_NOT_HELD, AT(end_a), AT(miss_a), RBOW_PINNED, 0.1},
    {RBOW_MISS_B_NOT_HELD, AT(end_b), AT(miss_b), RBOW_PINNED, 0.1},
    {RBOW_BAD_GAP_STIFFNESS, AT(gap_stiffness), AT(gap_stiffness), 0, 0},
    {RBOW_BAD_WELD_ZONE, AT(weld_zone), AT(weld_zone), 31, 31},
    {RBOW_BAD_DRESSED, AT(dressed), AT(dressed), -1, -1},
    {RBOW_DRESSED_RULE, AT(dressed), AT(weld_zone), 0.0575, 1},
    {RBOW_BAD_FACTOR, AT(factor), AT(factor), 0, 0},
    {RBOW_BAD_FACTOR_YIELD, AT(factor_yield), AT(factor_yield), 0, 0},
    {RBOW_STRESS_OVERFLOW, AT(point_load), AT(point_load), 1e307, 1e307},
};

static void set_number(rbow_member *m, size_t at, double value)
{
    memcpy((char *)m + at, &value, sizeof value);
}

static rbow_member member_of(const fault *f)
{
    rbow_member m = sound();
    set_number(&m, f->first, f->value);
    set_number(&m, f->second, f->other);
    return m;
}

/* ---- no number is left ------------------------------------------------------------------------------------ */

/* Given: from, to  the doubles of a result, as bytes from its start */
static void ck_no_numbers(const void *result, size_t from, size_t to, const char *what)
{
    ck_assert_msg(to > from && (to - from) % sizeof(double) == 0, "%s", what);
    for (size_t at = from; at < to; at += sizeof(double)) {
        double value;
        memcpy(&value, (const char *)result + at, sizeof value);
        ck_assert_msg(isnan(value), "%s: %g at byte %zu", what, value, at);
    }
}

#define CK_NO_NUMBERS(result, type, end) ck_no_numbers(result, 0, end, #type)

/* Returned: how many numbers of the result the table has */
static int ck_failed_check(const rbow_result *r, rbow_status status)
{
    check_row row;
    int numbers = 0;
    memset(&row, 0, sizeof row);
    row.result = *r;
    for (size_t i = 0; i < check_list.count; i++) {
        const field *f = &check_list.fields[i];
        double value;
        if (f->kind != FIELD_NUMBER || f->offset < offsetof(check_row, result)) continue;
        memcpy(&value, (const char *)&row + f->offset, sizeof value);
        ck_assert_msg(isnan(value), "%s: %s is %g", rbow_status_text(status), f->name, value);
        numbers++;
    }
    CK_NO_NUMBERS(r, rbow_result, offsetof(rbow_result, verdict));
    ck_assert(r->verdict == RBOW_SHORT && r->governs == RBOW_BY_NONE && r->remarks == 0 && r->governs_in_weld_zone == 0
              && r->fit_kept == 0 && r->fit_taken == 0 && r->joints_taken == 0
              && r->runs == 0 && r->forced == 0);
    return numbers;
}

static void ck_refused(const rbow_member *m, const rbow_material *k, rbow_status want)
{
    rbow_result r;
    rbow_margin margin;
    rbow_limit limit;
    rbow_profile profile = {.at = 1};
    memset(&r, 0, sizeof r);
    memset(&margin, 0, sizeof margin);
    memset(&limit, 0, sizeof limit);
    ck_assert_int_eq(rbow_member_check(m, k, &r), want);
    ck_assert_int_gt(ck_failed_check(&r, want), 25);
    ck_assert_int_eq(rbow_member_margin(m, k, &margin), want);
    CK_NO_NUMBERS(&margin, rbow_margin, offsetof(rbow_margin, governs));
    ck_assert(margin.governs == RBOW_BY_NONE && margin.unstable == 0);
    if (want == RBOW_STRESS_OVERFLOW) return; /* a place or a limit may still have numbers */
    ck_assert_int_eq(rbow_member_limit(m, k, RBOW_BY_YIELD, &limit), want);
    CK_NO_NUMBERS(&limit, rbow_limit, offsetof(rbow_limit, in_weld_zone));
    ck_assert_int_eq(rbow_member_profile(m, k, 1, 0, &profile, 1), want);
    ck_no_numbers(&profile, sizeof profile.at, sizeof profile, "rbow_profile");
}

/* ---- the statuses of the other functions ------------------------------------------------------------------ */

static void ck_releases(bool seen[])
{
    static const struct {
        rbow_status status;
        double end_a, end_b, cut_at;
    } cuts[] = {{RBOW_BAD_CUT, RBOW_FIXED, RBOW_FIXED, 20}, {RBOW_LOOSE_END_A, 0, RBOW_FIXED, 10}, {RBOW_LOOSE_END_B, RBOW_FIXED, 0, 10}};
    for (size_t i = 0; i < sizeof cuts / sizeof *cuts; i++) {
        const rbow_cut cut = {.od = 1, .wall = 0.1, .elastic_modulus = 29e6, .length = 20, .cut_at = cuts[i].cut_at,
                              .end_a = cuts[i].end_a, .end_b = cuts[i].end_b, .gap_stiffness = INFINITY};
        rbow_released r = {0};
        ck_assert_int_eq(rbow_release(&cut, &r), cuts[i].status);
        CK_NO_NUMBERS(&r, rbow_released, offsetof(rbow_released, joints_taken));
        seen[-cuts[i].status] = true;
    }
}

static void ck_out_of_range(bool seen[])
{
    const rbow_pull pull = {.od = 1, .wall = 0.1, .elastic_modulus = 29e6, .yield = 75e3, .weld_yield = 60e3, .length = 10, .set = -1};
    const rbow_column column = {.curve = RBOW_CURVE_COUNT};
    rbow_pulled pulled = {0};
    rbow_bore bore = {0, 0, 0, 0};
    rbow_column_terms terms = {0};
    rbow_section section = {0};
    ck_assert_int_eq(rbow_pull_straight(&pull, &pulled), RBOW_OUT_OF_RANGE);
    CK_NO_NUMBERS(&pulled, rbow_pulled, offsetof(rbow_pulled, beyond));
    ck_assert_int_eq(rbow_bore_fit(NULL, 0, &bore), RBOW_OUT_OF_RANGE);
    CK_NO_NUMBERS(&bore, rbow_bore, sizeof bore);
    ck_assert_int_eq(rbow_column_terms_of(&column, &terms), RBOW_OUT_OF_RANGE);
    CK_NO_NUMBERS(&terms, rbow_column_terms, offsetof(rbow_column_terms, range));
    ck_assert_int_eq(rbow_section_of(-1, 1, &section), RBOW_BAD_OD);
    CK_NO_NUMBERS(&section, rbow_section, sizeof section);
    seen[-RBOW_OUT_OF_RANGE] = true;
}

/* Above its critical load a beam has no station. */
static void ck_unstable(bool seen[])
{
    const rbow_beam beam = {.bending_stiffness = 1, .length = 1, .compression = 10, .critical_load = 9, .bow_at = 0.5};
    const rbow_loading load = {.spread_load = 1};
    rbow_prepared prepared;
    rbow_solution solution = {{0}};
    rbow_station station = {0, 0, 0, 0};
    ck_assert_int_eq(rbow_beam_prepare(&beam, &prepared), RBOW_UNSTABLE);
    rbow_beam_solve(&prepared, &load, &solution);
    CK_NO_NUMBERS(&solution, rbow_solution, sizeof solution);
    rbow_beam_at(&prepared, &solution, 0.5, &station);
    CK_NO_NUMBERS(&station, rbow_station, sizeof station);
    seen[-RBOW_UNSTABLE] = true;
}

static double not_a_number(double x, void *context)
{
    (void)context;
    return x * (double)NAN;
}

/* No sound input of a public function is known that leads there; the search itself does with a function that is not a number. */
static void ck_no_convergence(bool seen[])
{
    const bracket b = {0, 1, 1, -1};
    double root = 0;
    ck_assert_int_eq(rbow_root_between(not_a_number, NULL, &b, 0, &root), RBOW_NO_CONVERGENCE);
    ck_assert(isnan(root));
    seen[-RBOW_NO_CONVERGENCE] = true;
}

/* ---- all ------------------------------------------------------------------------------------------------- */

static void ck_members(bool seen[])
{
    for (size_t i = 0; i < sizeof faults / sizeof *faults; i++) {
        const rbow_member m = member_of(&faults[i]);
        ck_refused(&m, &steel, faults[i].status);
        seen[-faults[i].status] = true;
    }
    rbow_member m = sound();
    m.column_curve = RBOW_CURVE_COUNT;
    ck_refused(&m, &steel, RBOW_BAD_CURVE);
    m = sound();
    m.bow_shape = RBOW_BOW_SHAPE_COUNT;
    ck_refused(&m, &steel, RBOW_BAD_BOW_SHAPE);
    m = sound();
    m.end_a = RBOW_FIXED;
    m.end_b = RBOW_FREE;
    m.miss_b = 0.1;
    ck_refused(&m, &steel, RBOW_MISS_B_FREE);
    m.miss_b = 0;
    m.gap = 0.01;
    ck_refused(&m, &steel, RBOW_GAP_FREE);
    rbow_material bad = steel;
    bad.density = NAN;
    m = sound();
    ck_refused(&m, &bad, RBOW_BAD_MATERIAL);
    seen[-RBOW_BAD_CURVE] = seen[-RBOW_BAD_BOW_SHAPE] = seen[-RBOW_MISS_B_FREE] = seen[-RBOW_GAP_FREE] = seen[-RBOW_BAD_MATERIAL] = true;
}

START_TEST(every_status_is_provoked)
{
    bool seen[120] = {false};
    rbow_result r;
    const rbow_member m = sound();
    ck_assert_int_eq(rbow_member_check(&m, &steel, &r), RBOW_OK);
    seen[RBOW_OK] = isfinite(r.margin);
    ck_members(seen);
    ck_releases(seen);
    ck_out_of_range(seen);
    ck_unstable(seen);
    ck_no_convergence(seen);
    seen[-RBOW_NO_MEMORY] = true; /* tests/command/memory.py refuses allocations */
    int known = 0; /* the one that the program gives where the list of materials has no row */
    seen[-RBOW_WALL_NOT_SERVED] = rbow_material_find(&steel, 1, "steel", 2, &known) == NULL && known == 1;
#define CK_ELSEWHERE(name, value, input, text) seen[-(value)] = true; /* provoked by tests/frame and tests/detail/test_faults.c */
    RBOW_FRAME_STATUS_LIST(CK_ELSEWHERE)
    RBOW_DETAIL_STATUS_LIST(CK_ELSEWHERE)
    RBOW_SHOP_STATUS_LIST(CK_ELSEWHERE) /* tests/shop */
#define CK_SEEN(name, value, input, text) ck_assert_msg(seen[-(value)], #name " was not provoked");
    RBOW_STATUS_LIST(CK_SEEN)
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, every_status_is_provoked);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("failed_results", fill);
}
