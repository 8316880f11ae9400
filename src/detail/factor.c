#include "detail/factor.h"

#include <math.h>

/* A detail is followed over the load factor as the tube is (first_crossing.c): its utilisations are convex in what acts, and what
 * acts curves over the load factor through the moments and the shear alone. */

static double highest(const detail_uses *u, int which)
{
    if (which == DETAIL_YIELD) return u->of[RBOW_DETAIL_BY_YIELD];
    double most = u->of[RBOW_DETAIL_BY_WELD];
    for (int i = RBOW_DETAIL_BY_ROSETTES; i < RBOW_DETAIL_MODES; i++)
        if (u->of[i] > most || isnan(u->of[i])) most = u->of[i];
    return most;
}

double rbow_detail_level(const detail_model *m, const rbow_section_forces *f, int which)
{
    const detail_uses u = rbow_detail_uses_of(m, f);
    return highest(&u, which);
}

/* Status: as rbow_forces_at. An overflow is NaN, which the search reports. */
static double one(const void *of, const prepared *p, limit which, double factor)
{
    const detail_model *m = of;
    rbow_section_forces f;
    const rbow_status status = rbow_forces_at(p, factor, m->detail.at, &f);
    return status == RBOW_UNSTABLE ? (double)INFINITY : status == RBOW_OK ? rbow_detail_level(m, &f, (int)which) : (double)NAN;
}

static double second_difference(const rbow_section_forces f[3], const detail_slopes *s)
{
    const double up = f[0].moment_up - 2 * f[1].moment_up + f[2].moment_up;
    const double right = f[0].moment_right - 2 * f[1].moment_right + f[2].moment_right;
    const double shear_up = f[0].shear_up - 2 * f[1].shear_up + f[2].shear_up;
    const double shear_right = f[0].shear_right - 2 * f[1].shear_right + f[2].shear_right;
    return s->moment * hypot(up, right) + s->shear * hypot(shear_up, shear_right);
}

static void eight(const void *of, const prepared *p, const double factor[BATCH], bool even, batch *out)
{
    const detail_model *m = of;
    const detail_slopes slopes = rbow_detail_slopes_of(m);
    rbow_section_forces f[BATCH];
    for (int i = 0; i < BATCH; i++) {
        const rbow_status status = rbow_forces_at(p, factor[i], m->detail.at, &f[i]);
        out->settled[i] = true;
        for (int k = 0; k < LIMITS; k++)
            out->utilisation[k][i] = status == RBOW_UNSTABLE ? (double)INFINITY : status == RBOW_OK ? rbow_detail_level(m, &f[i], k) : (double)NAN;
        if (status == RBOW_STRESS_OVERFLOW) out->settled[i] = false; /* the single evaluation reports it */
    }
    for (int i = 0; i < MIDDLES && even; i++) out->second_difference[i] = second_difference(&f[i], &slopes); /* NaN where a state is missing */
}

static const gauge of_detail = {eight, one};

/* At a place without a moment the search would follow the rounding of the others to load factors without a meaning. */
static const double largest = 1e6;

/* Up to `end`, a load factor. Just below the critical load factor the moments are as large as they become. */
static double first_of(path *along, limit which, double end)
{
    static const double next_to_buckling = 1 - 1e-10;
    const prepared *p = along->prepared;
    if (!rbow_has_run_load(p)) return rbow_first_crossing(along, which, 0, 0);
    if (!(p->member.compression > 0)) return rbow_first_crossing_from_rest(along, which, fmin(end, largest));
    const double critical = critical_factor(p);
    const double factor = rbow_first_crossing(along, which, 0, fmin(critical * next_to_buckling, end));
    return isfinite(factor) || end < critical ? factor : critical;
}

bool rbow_detail_has(const detail_model *m, int which)
{
    const rbow_section_forces none = {0, 0, 0, 0, 0, 0};
    return rbow_detail_level(m, &none, which) >= 0;
}

static bool buckles_at_rest(const prepared *p)
{
    return -p->tension >= p->critical_load;
}

static double required(const prepared *p, int which)
{
    return which == DETAIL_YIELD ? p->member.factor_yield : p->member.factor;
}

rbow_status rbow_detail_least_ratio(const void *of, const prepared *p, double most, double *ratio)
{
    const detail_model *m = of;
    path along = rbow_path_by(p, &of_detail, m);
    *ratio = 0;
    if (buckles_at_rest(p)) return RBOW_OK;
    double least = most;
    for (int k = 0; k < LIMITS; k++)
        if (rbow_detail_has(m, k)) least = fmin(least, first_of(&along, (limit)k, least * required(p, k)) / required(p, k));
    *ratio = least;
    return along.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}

int rbow_detail_mode_of(const detail_model *m, const rbow_section_forces *f, int which)
{
    if (which == DETAIL_YIELD) return RBOW_DETAIL_BY_YIELD;
    const detail_uses u = rbow_detail_uses_of(m, f);
    int mode = RBOW_DETAIL_BY_WELD;
    for (int i = mode + 1; i < RBOW_DETAIL_MODES; i++)
        if (u.of[i] > u.of[mode]) mode = i;
    return mode;
}

static int mode_at(const detail_model *m, const prepared *p, int which, double factor)
{
    rbow_section_forces f;
    if (isinf(factor)) return RBOW_DETAIL_BY_NONE;
    if (factor >= critical_factor(p) || rbow_forces_at(p, factor, m->detail.at, &f) != RBOW_OK) return RBOW_DETAIL_BY_BUCKLING;
    return rbow_detail_mode_of(m, &f, which);
}

rbow_status rbow_detail_factors(const detail_model *m, const prepared *p, detail_factors *out)
{
    path along = rbow_path_by(p, &of_detail, m);
    for (int k = 0; k < LIMITS; k++) {
        out->of[k] = !rbow_detail_has(m, k) ? (double)INFINITY : buckles_at_rest(p) ? 0 : first_of(&along, (limit)k, INFINITY);
        out->mode[k] = mode_at(m, p, k, out->of[k]);
    }
    return along.failed ? RBOW_STRESS_OVERFLOW : RBOW_OK;
}
