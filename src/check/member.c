#include <railbow/member.h>

#include "mechanics/restraint.h"
#include "check/load_factors.h"
#include "check/maximum.h"

#include <gsl/gsl_math.h>

rbow_member rbow_member_default(void)
{
    return (rbow_member){
        .od = NAN,
        .wall = NAN,
        .length = NAN,
        .end_a = RBOW_PINNED,
        .end_b = RBOW_PINNED,
        .column_curve = RBOW_CURVE_OF_MATERIAL,
        .point_at = RBOW_UNSET,
        .bow_shape = RBOW_BOW_SINE,
        .bow_at = RBOW_UNSET,
        .gap_stiffness = INFINITY,
        .factor = 1.5,
        .factor_yield = RBOW_UNSET,
    };
}

size_t rbow_member_faults(const rbow_member *member, const rbow_material *material, rbow_status *faults,
                          size_t most)
{
    return rbow_faults_of(member, material, faults, most);
}

const char *rbow_remark_text(unsigned bit)
{
    switch (bit) {
        case RBOW_REMARK_UNSTABLE: return "unstable as loaded";
        case RBOW_REMARK_SET: return "built-in state takes a set";
        case RBOW_REMARK_SLENDER: return "slender";
        case RBOW_REMARK_SHORT_TUBE: return "short tube";
        case RBOW_REMARK_THIN_WALL: return "thin wall";
        case RBOW_REMARK_STIFF_ENDS: return "stiff ends";
        case RBOW_REMARK_NO_WELD_ZONE: return "no weld zone";
        case RBOW_REMARK_IDLE_ECCENTRICITY: return "no effect: eccentricity";
        case RBOW_REMARK_IDLE_MOMENT_A: return "no effect: moment_a";
        case RBOW_REMARK_IDLE_MOMENT_B: return "no effect: moment_b";
        case RBOW_REMARK_IDLE_POINT_LOAD: return "no effect: point_load";
        case RBOW_REMARK_IDLE_MISS_A: return "no effect: miss_a";
        case RBOW_REMARK_IDLE_MISS_B: return "no effect: miss_b";
        case RBOW_REMARK_IDLE_DRESSED: return "no effect: dressed";
        default: return NULL;
    }
}

static rbow_result nothing(void)
{
    const rbow_section section = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    return (rbow_result){
        .verdict = RBOW_SHORT, .margin = NAN, .governs = RBOW_BY_NONE, .margin_unforced = NAN,
        .yield_factor = NAN, .column_factor = NAN, .interaction_factor = NAN, .section = section,
        .weight = NAN, .wall_reduction = NAN, .critical_load = NAN, .effective_length = NAN,
        .slenderness = NAN, .column_stress = NAN, .column_load = NAN, .fit_axial = NAN,
        .fit_moment = NAN, .fit_stress = NAN, .axial = NAN, .peak_moment = NAN,
        .peak_moment_at = NAN, .peak_stress = NAN, .stress_use = NAN, .deflection = NAN,
        .deflection_clock = NAN, .governs_at = NAN,
    };
}

static void tell_column(const prepared *p, rbow_result *r)
{
    r->section = p->zones[ZONE_TUBE].section;
    r->weight = p->weight;
    r->wall_reduction = p->wall_reduction;
    r->critical_load = p->critical_load;
    r->effective_length = M_PI * sqrt(p->unit * p->member.length / p->critical_load);
    r->slenderness = r->effective_length / r->section.radius;
    r->column_stress = p->column_stress;
    r->column_load = p->column_load;
}

typedef struct judged {
    double margin;
    int governs;
} judged;

/* Ties go to the column, then to yield. */
static judged judge(const rbow_member *m, const load_factors *k)
{
    const double ratio[3] = {
        [RBOW_BY_COLUMN] = k->column / m->factor,
        [RBOW_BY_YIELD] = k->limits[LIMIT_YIELD].factor / m->factor_yield,
        [RBOW_BY_INTERACTION] = k->limits[LIMIT_INTERACTION].factor / m->factor,
    };
    judged j = {ratio[0], RBOW_BY_COLUMN};
    double least = ratio[0];
    for (int i = 1; i < 3; i++) {
        if (ratio[i] < j.margin * (1 - 1e-9)) j = (judged){ratio[i], i};
        least = fmin(least, ratio[i]);
    }
    if (isinf(least)) j.governs = RBOW_BY_NONE;
    j.margin = least - 1;
    return j;
}

/* The station at which the governing check reaches its limit, at its own load factor. */
static void tell_where(const prepared *p, const load_factors *k, rbow_result *r)
{
    if (r->governs != RBOW_BY_YIELD && r->governs != RBOW_BY_INTERACTION) return;
    const limit which = r->governs == RBOW_BY_YIELD ? LIMIT_YIELD : LIMIT_INTERACTION;
    const limit_factor *to = &k->limits[which];
    evaluation e;
    if (!to->at_a_place) return;
    rbow_evaluate(p, to->factor, to->tension, true, &e);
    if (!e.stands) return;
    r->governs_at = (e.limits[which].at + 0.5) * p->member.length;
    r->governs_in_weld_zone = e.limits[which].zone == ZONE_WELD;
}

static bool is_forced(const prepared *p)
{
    return fabs(p->member.gap) > 0 || p->member.miss_a > 0 || p->member.miss_b > 0;
}

static rbow_status tell_margins(const prepared *p, const evaluation *fit, const evaluation *loaded, rbow_result *r)
{
    load_factors k;
    rbow_status status = rbow_load_factors(p, fit, loaded, &k);
    if (status != RBOW_OK) return status;
    const judged as_built = judge(&p->member, &k);
    r->yield_factor = k.limits[LIMIT_YIELD].factor;
    r->column_factor = k.column;
    r->interaction_factor = k.limits[LIMIT_INTERACTION].factor;
    r->margin = as_built.margin;
    r->governs = as_built.governs;
    r->verdict = r->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
    r->margin_unforced = r->margin;
    r->runs = rbow_has_run_load(p);
    r->forced = is_forced(p);
    tell_where(p, &k, r);
    if (!r->forced) return RBOW_OK;

    const prepared unforced = rbow_without_fit(p);
    double ratio;
    const limit first = r->governs == RBOW_BY_YIELD ? LIMIT_YIELD : LIMIT_INTERACTION;
    status = rbow_least_ratio(&unforced, 1.3 * fmin(r->yield_factor, r->interaction_factor), first, &ratio);
    if (status == RBOW_OK) r->margin_unforced = ratio - 1;
    return status;
}

/* The state without run load. */
static void tell_fit(const prepared *p, const evaluation *fit, rbow_result *r)
{
    r->fit_axial = 0 - p->tension;
    if (!fit->stands) return; /* it buckles without run load */
    r->fit_moment = fit->moment.size * p->unit;
    r->fit_stress = fit->stress;
    if (fit->limits[LIMIT_YIELD].utilisation >= 1) r->remarks |= RBOW_REMARK_SET;
}

static double clock_of(const double vector[PLANES])
{
    const double clock = atan2(vector[RIGHT], vector[UP]);
    return clock < 0 ? clock + 2 * M_PI : clock;
}

static rbow_status tell_loaded(const prepared *p, const evaluation *loaded, rbow_result *r)
{
    r->axial = axial_at(p, 1, p->tension);
    if (!loaded->stands) {
        r->remarks |= RBOW_REMARK_UNSTABLE;
        return RBOW_OK;
    }
    double movement[PLANES];
    const peak w = rbow_largest_movement(p, &loaded->solution, movement);
    r->peak_moment = loaded->moment.size * p->unit;
    r->peak_moment_at = (loaded->moment.at + 0.5) * p->member.length;
    r->peak_stress = loaded->stress;
    r->stress_use = loaded->limits[LIMIT_YIELD].utilisation;
    r->deflection = w.size * p->member.length;
    if (w.size > 0) r->deflection_clock = clock_of(movement);
    return isfinite(r->peak_stress) && isfinite(r->deflection) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

static void remark_if(rbow_result *r, bool so, unsigned remark)
{
    if (so) r->remarks |= remark;
}

static bool is_held_stiff(double end)
{
    return isinf(end) || end_is(end, RBOW_WELDED);
}

static void tell_remarks(const prepared *p, rbow_result *r)
{
    const rbow_member *m = &p->member;
    const bool free_b = end_is(m->end_b, RBOW_FREE);
    const bool turns_a = !isinf(p->stiffness_a), turns_b = free_b || !isinf(p->stiffness_b);
    const double fixity = m->length / r->effective_length;
    remark_if(r, r->slenderness > 150, RBOW_REMARK_SLENDER);
    remark_if(r, m->length / m->od < 10, RBOW_REMARK_SHORT_TUBE);
    remark_if(r, p->wall_reduction < 1 || p->weld_reduction < 1, RBOW_REMARK_THIN_WALL);
    remark_if(r, fixity * fixity > 2 * (1 + 1e-9), RBOW_REMARK_STIFF_ENDS);
    remark_if(r, (is_held_stiff(m->end_a) || is_held_stiff(m->end_b)) && !(m->weld_zone > 0),
              RBOW_REMARK_NO_WELD_ZONE);

    remark_if(r, m->eccentricity > 0 && !turns_a && !turns_b, RBOW_REMARK_IDLE_ECCENTRICITY);
    remark_if(r, fabs(m->moment_a) > 0 && !turns_a, RBOW_REMARK_IDLE_MOMENT_A);
    remark_if(r, fabs(m->moment_b) > 0 && !turns_b, RBOW_REMARK_IDLE_MOMENT_B);
    remark_if(r, fabs(m->point_load) > 0 && rbow_point_is_idle(m), RBOW_REMARK_IDLE_POINT_LOAD);
    remark_if(r, m->miss_a > 0 && !(p->stiffness_a > 0), RBOW_REMARK_IDLE_MISS_A);
    remark_if(r, m->miss_b > 0 && !free_b && !(p->stiffness_b > 0), RBOW_REMARK_IDLE_MISS_B);
    remark_if(r, m->dressed > 0 && !(m->weld_zone > 0), RBOW_REMARK_IDLE_DRESSED);
}

static bool is_number(const evaluation *e)
{
    return !e->stands || (isfinite(e->limits[LIMIT_YIELD].utilisation) && isfinite(e->limits[LIMIT_INTERACTION].utilisation));
}

/* Returned: p            the prepared member
 *           fit, loaded  the member at load factors 0 and 1, with its locked-in tension
 * Status:   RBOW_OK | the first of rbow_faults_of | those of rbow_prepare | RBOW_STRESS_OVERFLOW */
static rbow_status make_ready(const rbow_member *member, const rbow_material *material, prepared *p, evaluation *fit,
                              evaluation *loaded)
{
    rbow_status status;
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    status = rbow_prepare(member, material, p);
    if (status != RBOW_OK) return status;
    rbow_evaluate(p, 0, p->tension, false, fit);
    rbow_evaluate(p, 1, p->tension, true, loaded);
    return is_number(fit) && is_number(loaded) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

rbow_status rbow_member_margin(const rbow_member *member, const rbow_material *material, rbow_margin *margin)
{
    prepared p;
    load_factors k;
    evaluation fit, loaded;
    *margin = (rbow_margin){NAN, RBOW_BY_NONE, NAN, NAN, NAN, 0};
    rbow_status status = make_ready(member, material, &p, &fit, &loaded);
    if (status == RBOW_OK) status = rbow_load_factors(&p, &fit, &loaded, &k);
    if (status != RBOW_OK) return status;
    const judged j = judge(&p.member, &k);
    *margin = (rbow_margin){j.margin, j.governs, k.limits[LIMIT_YIELD].factor, k.column,
                            k.limits[LIMIT_INTERACTION].factor, !loaded.stands};
    return RBOW_OK;
}

rbow_status rbow_member_check(const rbow_member *member, const rbow_material *material, rbow_result *result)
{
    prepared p;
    evaluation fit, loaded;
    rbow_result r = nothing();
    rbow_status status = make_ready(member, material, &p, &fit, &loaded);
    if (status == RBOW_OK) {
        tell_column(&p, &r);
        tell_fit(&p, &fit, &r);
        tell_remarks(&p, &r);
        status = tell_loaded(&p, &loaded, &r);
    }
    if (status == RBOW_OK) status = tell_margins(&p, &fit, &loaded, &r);
    *result = status == RBOW_OK ? r : nothing();
    return status;
}
