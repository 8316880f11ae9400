#include <railbow/member.h>

#include "engine/ends.h"
#include "engine/factor.h"

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
    return frame_faults(member, material, faults, most);
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

static void tell_column(const frame *f, rbow_result *r)
{
    r->section = f->zones[ZONE_TUBE].section;
    r->weight = f->weight;
    r->wall_reduction = f->wall_reduction;
    r->critical_load = f->critical_load;
    r->effective_length = M_PI * sqrt(f->bending_stiffness / f->critical_load);
    r->slenderness = r->effective_length / r->section.radius;
    r->column_stress = f->column_stress;
    r->column_load = f->column_load;
}

typedef struct judged {
    double margin;
    int governs;
} judged;

/* Ties go to the column, then to yield. */
static judged judge(const rbow_member *m, const factors *k)
{
    const double ratio[3] = {
        [RBOW_BY_COLUMN] = k->column / m->factor,
        [RBOW_BY_YIELD] = k->yield.factor / m->factor_yield,
        [RBOW_BY_INTERACTION] = k->interaction.factor / m->factor,
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

/* Where along the tube the check that governs is reached, at its own load factor. */
static void tell_where(const frame *f, const factors *k, rbow_result *r)
{
    const reach *to = r->governs == RBOW_BY_YIELD ? &k->yield : &k->interaction;
    if (r->governs != RBOW_BY_YIELD && r->governs != RBOW_BY_INTERACTION) return;
    r->governs_at = to->at * f->member.length;
    r->governs_in_weld_zone = to->zone == ZONE_WELD;
}

static bool is_forced(const frame *f)
{
    return fabs(f->member.gap) > 0 || f->member.miss_a > 0 || f->member.miss_b > 0;
}

static rbow_status tell_margins(const frame *f, const sight *fit, const sight *loaded, rbow_result *r)
{
    factors k;
    rbow_status status = factors_of(f, fit, loaded, &k);
    if (status != RBOW_OK) return status;
    const judged as_built = judge(&f->member, &k);
    r->yield_factor = k.yield.factor;
    r->column_factor = k.column;
    r->interaction_factor = k.interaction.factor;
    r->margin = as_built.margin;
    r->governs = as_built.governs;
    r->verdict = r->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
    r->margin_unforced = r->margin;
    r->runs = frame_runs(f);
    r->forced = is_forced(f);
    tell_where(f, &k, r);
    if (!r->forced) return RBOW_OK;

    const frame unforced = frame_unforced(f);
    double ratio;
    const double near = 1.2 * fmin(k.yield.factor, k.interaction.factor); /* in line it mostly carries a little more */
    status = least_ratio_of(&unforced, isfinite(near) ? near : 0, &ratio);
    if (status == RBOW_OK) r->margin_unforced = ratio - 1;
    return status;
}

/* The state that stands in the car with no run load. */
static void tell_fit(const frame *f, const sight *fit, rbow_result *r)
{
    r->fit_axial = 0 - f->tension;
    if (!fit->stands) return; /* it buckles where it stands */
    r->fit_moment = fit->stress.moment * f->unit;
    r->fit_stress = fit->stress.stress;
    if (fit->stress.use >= 1) r->remarks |= RBOW_REMARK_SET;
}

static double clock_of(pair vector)
{
    const double clock = atan2(vector[RIGHT], vector[UP]);
    return clock < 0 ? clock + 2 * M_PI : clock;
}

static rbow_status tell_loaded(const frame *f, const sight *loaded, rbow_result *r)
{
    r->axial = frame_axial(f, 1, f->tension);
    if (!loaded->stands) {
        r->remarks |= RBOW_REMARK_UNSTABLE;
        return RBOW_OK;
    }
    const stress_peak *p = &loaded->stress;
    pair movement;
    const peak w = peak_movement(f, &loaded->state, p->moment, &movement);
    r->peak_moment = p->moment * f->unit;
    r->peak_moment_at = p->moment_at * f->member.length;
    r->peak_stress = p->stress;
    r->stress_use = p->use;
    r->deflection = w.size * f->member.length;
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

static void tell_remarks(const frame *f, rbow_result *r)
{
    const rbow_member *m = &f->member;
    const bool free_b = end_is(m->end_b, RBOW_FREE);
    const bool turns_a = !isinf(f->stiffness_a), turns_b = free_b || !isinf(f->stiffness_b);
    const double fixity = m->length / r->effective_length;
    remark_if(r, r->slenderness > 150, RBOW_REMARK_SLENDER);
    remark_if(r, m->length / m->od < 10, RBOW_REMARK_SHORT_TUBE);
    remark_if(r, f->wall_reduction < 1 || f->weld_reduction < 1, RBOW_REMARK_THIN_WALL);
    remark_if(r, fixity * fixity > 2 * (1 + 1e-9), RBOW_REMARK_STIFF_ENDS);
    remark_if(r, (is_held_stiff(m->end_a) || is_held_stiff(m->end_b)) && !(m->weld_zone > 0),
              RBOW_REMARK_NO_WELD_ZONE);

    remark_if(r, m->eccentricity > 0 && !turns_a && !turns_b, RBOW_REMARK_IDLE_ECCENTRICITY);
    remark_if(r, fabs(m->moment_a) > 0 && !turns_a, RBOW_REMARK_IDLE_MOMENT_A);
    remark_if(r, fabs(m->moment_b) > 0 && !turns_b, RBOW_REMARK_IDLE_MOMENT_B);
    remark_if(r, fabs(m->point_load) > 0 && frame_point_is_idle(m), RBOW_REMARK_IDLE_POINT_LOAD);
    remark_if(r, m->miss_a > 0 && !(f->stiffness_a > 0), RBOW_REMARK_IDLE_MISS_A);
    remark_if(r, m->miss_b > 0 && !free_b && !(f->stiffness_b > 0), RBOW_REMARK_IDLE_MISS_B);
    remark_if(r, m->dressed > 0 && !(m->weld_zone > 0), RBOW_REMARK_IDLE_DRESSED);
}

rbow_status rbow_member_margin(const rbow_member *member, const rbow_material *material, rbow_margin *margin)
{
    frame f;
    factors k;
    sight fit, loaded;
    *margin = (rbow_margin){NAN, RBOW_BY_NONE, NAN, NAN, NAN, 0};
    rbow_status status = factors_ready(member, material, &f, &fit, &loaded);
    if (status == RBOW_OK) status = factors_of(&f, &fit, &loaded, &k);
    if (status != RBOW_OK) return status;
    const judged j = judge(&f.member, &k);
    *margin = (rbow_margin){j.margin, j.governs, k.yield.factor, k.column, k.interaction.factor, !loaded.stands};
    return RBOW_OK;
}

rbow_status rbow_member_check(const rbow_member *member, const rbow_material *material, rbow_result *result)
{
    frame f;
    sight fit, loaded;
    rbow_result r = nothing();
    rbow_status status = factors_ready(member, material, &f, &fit, &loaded);
    if (status == RBOW_OK) {
        tell_column(&f, &r);
        tell_fit(&f, &fit, &r);
        tell_remarks(&f, &r);
        status = tell_loaded(&f, &loaded, &r);
    }
    if (status == RBOW_OK) status = tell_margins(&f, &fit, &loaded, &r);
    *result = status == RBOW_OK ? r : nothing();
    return status;
}
