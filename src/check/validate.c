#include "check/fault_list.h"
#include "check/prepare.h"

#include <railbow/forced_fit.h>
#include <railbow/weld_zone.h>

#include <gsl/gsl_math.h>
#include <math.h>

static bool not_negative(double v)
{
    return v >= 0 && isfinite(v);
}

/* Beyond 10 degrees the error of small-slope theory in lengths exceeds one per cent. */
static const double steepest = 0.17632698070846498; /* tan 10 deg */

/* A bow is steepest at an end. */
static double bow_steepness(const rbow_member *m, double kink_at)
{
    rbow_bow bow = rbow_member_bow(m);
    rbow_bow_load load;
    bow.kink_at = kink_at;
    rbow_bow_equivalent(&bow, 0, &load);
    return fmax(fabs(load.slope_a), fabs(load.slope_b));
}

static bool material_is_sound(const rbow_material *k)
{
    return positive(k->elastic_modulus) && positive(k->density) && positive(k->yield)
        && positive(k->compression_yield) && positive(k->weld_yield) && positive(k->column_intercept)
        && k->column_curve > RBOW_CURVE_OF_MATERIAL && k->column_curve < RBOW_CURVE_COUNT;
}

static bool end_is_sound(double end)
{
    return end >= 0 || is_welded(end);
}

static bool holds_a_moment(double end)
{
    return end > 0 || is_welded(end);
}

static bool wall_in_rule(rbow_tube_size tube, double modulus, double yield)
{
    double reduction;
    return rbow_wall_reduction(tube.od / tube.wall, modulus, yield, &reduction) == RBOW_OK;
}

static void tube_faults(fault_list *list, const rbow_member *m, const rbow_material *k)
{
    const bool od = positive(m->od), wall = od && positive(m->wall) && m->wall <= m->od / 2;
    const bool material = material_is_sound(k);
    const rbow_tube_size tube = {m->od, m->wall};
    need(list, od, RBOW_BAD_OD);
    need(list, wall || !od, RBOW_BAD_WALL);
    need(list, material, RBOW_BAD_MATERIAL);
    if (wall && material)
        need(list, wall_in_rule(tube, k->elastic_modulus, k->compression_yield), RBOW_WALL_RULE);
    need(list, positive(m->length), RBOW_BAD_LENGTH);
    need(list, end_is_sound(m->end_a), RBOW_BAD_END_A);
    need(list, end_is_sound(m->end_b) || member_is_free(m), RBOW_BAD_END_B);
    if (member_is_free(m) && end_is_sound(m->end_a)) need(list, m->end_a > 0, RBOW_FREE_NEEDS_ROOT);
    need(list, m->column_curve >= 0 && m->column_curve < RBOW_CURVE_COUNT, RBOW_BAD_CURVE);
}

static void load_faults(fault_list *list, const rbow_member *m)
{
    const double plain[] = {
        m->compression, m->eccentricity_clock, m->moment_a,     m->moment_b,     m->moment_clock, m->point_load,
        m->point_clock, m->spread_load,        m->spread_clock, m->vertical_g,   m->torque,       m->bow_clock,
        m->miss_a_clock, m->miss_b_clock,      m->gap, /* RBOW_ANY_CLOCK is finite */
    };
    bool finite = true;
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) finite = finite && isfinite(plain[i]);
    need(list, finite, RBOW_NOT_FINITE);
    need(list, not_negative(m->eccentricity), RBOW_BAD_ECCENTRICITY);
    if (positive(m->length)) {
        const double at = or_middle(m->point_at, m->length);
        need(list, at >= 0 && at <= m->length, RBOW_BAD_POINT_AT);
    }
    const double upright = M_PI / 2 * (1 + 1e-15);
    need(list, m->slope >= -upright && m->slope <= upright, RBOW_BAD_SLOPE);
}

static void fit_faults(fault_list *list, const rbow_member *m)
{
    const bool length = positive(m->length), bow = not_negative(m->bow);
    const double at = or_middle(m->bow_at, m->length);
    const bool shape = m->bow_shape >= 0 && m->bow_shape < RBOW_BOW_SHAPE_COUNT;
    const bool bow_at = !length || (at > 0 && at < m->length);
    need(list, bow, RBOW_BAD_BOW);
    need(list, shape, RBOW_BAD_BOW_SHAPE);
    need(list, bow_at, RBOW_BAD_BOW_AT);
    if (length && bow && shape && bow_at) need(list, bow_steepness(m, at) <= steepest, RBOW_BOW_TOO_STEEP);
    need(list, not_negative(m->miss_a), RBOW_BAD_MISS_A);
    need(list, not_negative(m->miss_b), RBOW_BAD_MISS_B);
    if (length && not_negative(m->miss_a)) need(list, rbow_fit_slope(m->miss_a, m->length) <= steepest, RBOW_MISS_A_TOO_STEEP);
    if (length && not_negative(m->miss_b)) need(list, rbow_fit_slope(m->miss_b, m->length) <= steepest, RBOW_MISS_B_TOO_STEEP);
    if (member_is_free(m)) {
        need(list, !(m->miss_b > 0), RBOW_MISS_B_FREE);
        need(list, !(fabs(m->gap) > 0), RBOW_GAP_FREE);
    }
    if (end_is_sound(m->end_a) && m->miss_a > 0) need(list, holds_a_moment(m->end_a), RBOW_MISS_A_NOT_HELD);
    if (end_is_sound(m->end_b) && m->miss_b > 0) need(list, holds_a_moment(m->end_b), RBOW_MISS_B_NOT_HELD);
    need(list, m->gap_stiffness > 0, RBOW_BAD_GAP_STIFFNESS);
}

static void weld_faults(fault_list *list, const rbow_member *m, const rbow_material *k)
{
    const bool wall = positive(m->od) && positive(m->wall) && m->wall <= m->od / 2;
    const bool unset = end_is(m->weld_zone, RBOW_UNSET);
    const bool weld_zone = unset || (not_negative(m->weld_zone) && !(positive(m->length) && m->weld_zone > m->length));
    const bool dressed = not_negative(m->dressed) && !(wall && m->dressed >= m->wall);
    const rbow_tube_size tube = {m->od, m->wall};
    need(list, weld_zone, RBOW_BAD_WELD_ZONE);
    need(list, dressed, RBOW_BAD_DRESSED);
    /* undressed, a wall that is too thin for the tube has been named already */
    if (wall && weld_zone && dressed && (m->weld_zone > 0 || unset) && material_is_sound(k)
        && (m->dressed > 0 || wall_in_rule(tube, k->elastic_modulus, k->compression_yield)))
        need(list,
             wall_in_rule(rbow_weld_zone_size(tube, m->dressed), k->elastic_modulus, k->weld_yield),
             m->dressed > 0 ? RBOW_DRESSED_RULE : RBOW_WALL_RULE);
    need(list, positive(m->factor), RBOW_BAD_FACTOR);
    need(list, positive(m->factor_yield) || end_is(m->factor_yield, RBOW_UNSET), RBOW_BAD_FACTOR_YIELD);
}

size_t rbow_faults_of(const rbow_member *member, const rbow_material *material, rbow_status *faults, size_t most)
{
    fault_list list = {faults, 0, most};
    tube_faults(&list, member, material);
    load_faults(&list, member);
    fit_faults(&list, member);
    weld_faults(&list, member, material);
    return list.count;
}
