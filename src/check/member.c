#include <railbow/member.h>

#include "check/maximum.h"
#include "check/scenario.h"
#include "mechanics/no_result.h"
#include "mechanics/restraint.h"

#include <railbow/clock.h>

#include <float.h>
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
        .eccentricity_clock = RBOW_ANY_CLOCK,
        .bow_clock = RBOW_ANY_CLOCK,
        .bow_shape = RBOW_BOW_SINE,
        .bow_at = RBOW_UNSET,
        .miss_a_clock = RBOW_ANY_CLOCK,
        .miss_b_clock = RBOW_ANY_CLOCK,
        .gap_stiffness = INFINITY,
        .weld_zone = RBOW_UNSET,
        .factor = 1.5,
        .factor_yield = RBOW_UNSET,
    };
}

rbow_member rbow_member_resolved(const rbow_member *member, const rbow_material *material)
{
    rbow_member m = *member;
    m.point_at = or_middle(m.point_at, m.length);
    m.bow_at = or_middle(m.bow_at, m.length);
    if (end_is(m.factor_yield, RBOW_UNSET)) m.factor_yield = m.factor;
    m.weld_zone = weld_zone_taken(&m);
    if (m.column_curve == RBOW_CURVE_OF_MATERIAL) m.column_curve = (int)material->column_curve;
    return m;
}

/* As shares of the length; a load so near to a joint bends the tube by nothing but rounding. */
static const double same_place = 4 * DBL_EPSILON;

int rbow_member_point_is_idle(const rbow_member *m)
{
    const double share = m->point_at / m->length;
    return share <= same_place || (share >= 1 - same_place && !member_is_free(m));
}

rbow_bow rbow_member_bow(const rbow_member *m)
{
    return (rbow_bow){.shape = (rbow_bow_shape)m->bow_shape, .amplitude = m->bow, .length = m->length, .kink_at = m->bow_at};
}

rbow_weld_zone rbow_member_weld_zone(const rbow_member *m)
{
    return (rbow_weld_zone){.zone = m->weld_zone, .length = m->length, .free_b = member_is_free(m)};
}

size_t rbow_member_faults(const rbow_member *member, const rbow_material *material, rbow_status *faults,
                          size_t most)
{
    return rbow_faults_of(member, material, faults, most);
}

#define REMARK_TEXT(value, text)                                                                               \
    case value: return text;

const char *rbow_remark_text(unsigned bit)
{
    switch (bit) {
        RBOW_REMARK_LIST(REMARK_TEXT)
    }
    return NULL;
}

RESULT_WITH_WHOLE(rbow_result, verdict, 9);
RESULT_WITH_WHOLE(rbow_margin, governs, 2);

static rbow_result no_answer(void)
{
    rbow_result r;
    NO_RESULT_BEFORE(rbow_result, &r, verdict);
    r.verdict = RBOW_SHORT;
    r.governs = RBOW_BY_NONE;
    return r;
}

static void tell_column(const prepared *p, rbow_result *r)
{
    r->section = p->zones[ZONE_TUBE].strength.section;
    r->weight = p->weight;
    r->wall_reduction = p->wall_reduction;
    r->critical_load = p->column_critical_load;
    r->effective_length = p->effective_length;
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
    rbow_evaluate(p, to->factor, true, &e);
    if (!e.stands) return;
    r->governs_at = (e.limits[which].at + 0.5) * p->member.length;
    r->governs_in_weld_zone = e.limits[which].zone == ZONE_WELD;
}

/* The state without run load: as built, at the corner with the largest stress. */
static void tell_fit(const scenarios *s, const worst_cases *w, rbow_result *r)
{
    r->fit_axial = 0 - s->corners[0].tension;
    if (s->fit == 0) {
        r->fit_moment = r->fit_stress = 0;
        return;
    }
    for (int i = 0; i < s->corner_count; i++) {
        const prepared p = rbow_concrete(s, &w->as_built[i]);
        evaluation fit;
        rbow_evaluate(&p, 0, false, &fit);
        if (!fit.stands) { /* it buckles without run load */
            r->fit_moment = r->fit_stress = NAN;
            return;
        }
        if (fit.limits[LIMIT_YIELD].utilisation >= 1) r->remarks |= RBOW_REMARK_SET;
        if (fit.stress <= r->fit_stress) continue;
        r->fit_moment = fit.moment.size * p.unit;
        r->fit_stress = fit.stress;
    }
}

static rbow_status tell_loaded(const prepared *p, const evaluation *loaded, rbow_result *r)
{
    r->axial = axial_at(p, 1);
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
    if (w.size > 0) r->deflection_clock = rbow_clock_of(movement[UP], movement[RIGHT]);
    return isfinite(r->peak_stress) && isfinite(r->deflection) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

static void remark_if(rbow_result *r, bool so, unsigned remark)
{
    if (so) r->remarks |= remark;
}

/* Sizes that a slip of the unit or of the point makes. */
static bool is_odd_size(const rbow_member *m)
{
    return m->od < 0.25 || m->od > 6 || m->wall < 0.02 || m->wall > 0.5 || m->wall < m->od / 60 || m->wall > m->od / 4
        || m->length < 3 * m->od || m->length > 240 || m->bow > m->length / 20 || m->miss_a > m->length / 20
        || m->miss_b > m->length / 20;
}

unsigned rbow_tube_remarks(const rbow_member *m, const prepared *p)
{
    const double slenderness = p->effective_length / p->zones[ZONE_TUBE].strength.section.radius, fixity = m->length / p->effective_length;
    return (slenderness > 150 ? RBOW_REMARK_SLENDER : 0u) | (m->length / m->od < 10 ? RBOW_REMARK_SHORT_TUBE : 0u)
        | (p->wall_reduction < 1 || p->weld_reduction < 1 ? RBOW_REMARK_THIN_WALL : 0u)
        | (fixity * fixity > 2 * (1 + 1e-9) ? RBOW_REMARK_STIFF_ENDS : 0u)
        | (end_is(m->weld_zone, RBOW_UNSET) ? RBOW_REMARK_WELD_ZONE_TAKEN : 0u) | (!(m->bow > 0) ? RBOW_REMARK_NO_BOW : 0u)
        | (is_odd_size(m) ? RBOW_REMARK_SIZE : 0u);
}

/* Given: m  as given; p  its first corner */
static void tell_remarks(const rbow_member *m, const prepared *p, rbow_result *r)
{
    const bool free_b = member_is_free(m);
    const bool turns_a = is_welded(m->end_a) || !isinf(m->end_a), turns_b = free_b || is_welded(m->end_b) || !isinf(m->end_b);
    r->remarks |= rbow_tube_remarks(m, p);
    remark_if(r, m->eccentricity > 0 && !turns_a && !turns_b, RBOW_REMARK_IDLE_ECCENTRICITY);
    remark_if(r, fabs(m->moment_a) > 0 && !turns_a, RBOW_REMARK_IDLE_MOMENT_A);
    remark_if(r, fabs(m->moment_b) > 0 && !turns_b, RBOW_REMARK_IDLE_MOMENT_B);
    remark_if(r, fabs(m->point_load) > 0 && rbow_member_point_is_idle(&p->member), RBOW_REMARK_IDLE_POINT_LOAD);
    remark_if(r, !isinf(m->gap_stiffness) && !(fabs(m->gap) > 0), RBOW_REMARK_IDLE_GAP_STIFFNESS);
    remark_if(r, m->dressed > 0 && !(p->member.weld_zone > 0), RBOW_REMARK_IDLE_DRESSED);
}

static double clock_if(bool there, double clock)
{
    return there ? clock : (double)NAN;
}

/* Describes the concrete member that governs. */
static void tell_taken(const scenarios *s, const worst_cases *w, rbow_result *r)
{
    const scenario *g = &w->governs;
    const rbow_member *m = &s->corners[0].member;
    r->joints_taken = s->joints[g->corner];
    r->fit_kept = g->kept;
    r->fit_taken = g->kept == s->fit ? RBOW_FIT_AS_BUILT : g->kept == 0 ? RBOW_FIT_UNFORCED : RBOW_FIT_RELAXED;
    r->bow_clock_taken = clock_if(m->bow > 0, g->clock[CLOCK_BOW]);
    r->miss_a_clock_taken = clock_if((g->kept & RBOW_FIT_MISS_A) != 0, g->clock[CLOCK_MISS_A]);
    r->miss_b_clock_taken = clock_if((g->kept & RBOW_FIT_MISS_B) != 0, g->clock[CLOCK_MISS_B]);
    r->eccentricity_clock_taken = clock_if(m->eccentricity > 0, g->clock[CLOCK_ECCENTRICITY]);
    r->forced = s->fit != 0;
    r->margin_as_built = w->least_as_built - 1;
    r->margin_unforced = w->least_unforced - 1;
    r->margin_best = w->most_as_built - 1;
}

static bool is_number(const evaluation *e)
{
    return !e->stands || (isfinite(e->limits[LIMIT_YIELD].utilisation) && isfinite(e->limits[LIMIT_INTERACTION].utilisation));
}

/* The concrete member's factors.
 * Returned: loaded  it at load factor 1
 * Status:   RBOW_OK | RBOW_STRESS_OVERFLOW */
static rbow_status factors_of(const prepared *p, const scenario *one, evaluation *loaded, load_factors *k)
{
    rbow_evaluate(p, 1, true, loaded);
    *k = one->factors;
    if (!is_number(loaded)) return RBOW_STRESS_OVERFLOW;
    return one->solved ? RBOW_OK : rbow_load_factors(p, k);
}

/* Given: lowest  the margin of all scenarios, of which those within a tie of it may govern */
static void tell_margin(const prepared *p, const load_factors *k, double lowest, rbow_result *r)
{
    const judged j = judge(&p->member, k);
    r->yield_factor = k->limits[LIMIT_YIELD].factor;
    r->column_factor = k->column;
    r->interaction_factor = k->limits[LIMIT_INTERACTION].factor;
    r->margin = fmin(j.margin, lowest);
    r->governs = j.governs;
    r->verdict = r->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
    r->runs = rbow_has_run_load(p);
    tell_where(p, k, r);
}

rbow_status rbow_member_margin(const rbow_member *member, const rbow_material *material, rbow_margin *margin)
{
    scenarios s;
    scenario governs;
    load_factors k;
    evaluation loaded;
    NO_RESULT_BEFORE(rbow_margin, margin, governs);
    margin->governs = RBOW_BY_NONE;
    rbow_status status;
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    status = rbow_scenarios_of(member, material, &s);
    if (status == RBOW_OK) status = rbow_worst_case(&s, &governs);
    if (status != RBOW_OK) return status;
    const prepared p = rbow_concrete(&s, &governs);
    status = factors_of(&p, &governs, &loaded, &k);
    if (status != RBOW_OK) return status;
    const judged j = judge(&p.member, &k);
    *margin = (rbow_margin){.margin = fmin(j.margin, governs.ratio - 1), .governs = j.governs,
                            .yield_factor = k.limits[LIMIT_YIELD].factor, .column_factor = k.column,
                            .interaction_factor = k.limits[LIMIT_INTERACTION].factor, .unstable = !loaded.stands};
    return RBOW_OK;
}

static rbow_status check_scenarios(const rbow_member *member, const scenarios *s, rbow_result *r)
{
    worst_cases w;
    load_factors k;
    evaluation loaded;
    rbow_status status = rbow_worst_cases(s, &w);
    if (status != RBOW_OK) return status;
    const prepared p = rbow_concrete(s, &w.governs);
    status = factors_of(&p, &w.governs, &loaded, &k);
    if (status != RBOW_OK) return status;
    tell_column(&s->corners[0], r);
    tell_fit(s, &w, r);
    tell_remarks(member, &s->corners[0], r);
    tell_taken(s, &w, r);
    tell_margin(&p, &k, w.governs.ratio - 1, r);
    return tell_loaded(&p, &loaded, r);
}

rbow_status rbow_member_check(const rbow_member *member, const rbow_material *material, rbow_result *result)
{
    scenarios s;
    rbow_result r = no_answer();
    rbow_status status;
    *result = r;
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    status = rbow_scenarios_of(member, material, &s);
    if (status == RBOW_OK) status = check_scenarios(member, &s, &r);
    if (status == RBOW_OK) *result = r;
    return status;
}

static double end_taken(double end, bool stiff)
{
    return !end_is(end, RBOW_WELDED) ? end : stiff ? RBOW_STIFF_WELD : RBOW_SOFT_WELD;
}

static double known_clock(double clock)
{
    return isnan(clock) ? 0 : clock;
}

rbow_member rbow_member_taken(const rbow_member *member, const rbow_result *result)
{
    rbow_member m = *member;
    const int j = result->joints_taken;
    m.end_a = end_taken(m.end_a, j == RBOW_JOINTS_STIFF || j == RBOW_JOINTS_STIFF_SOFT);
    m.end_b = end_taken(m.end_b, j == RBOW_JOINTS_STIFF || j == RBOW_JOINTS_SOFT_STIFF);
    if (!(result->fit_kept & RBOW_FIT_MISS_A)) m.miss_a = 0;
    if (!(result->fit_kept & RBOW_FIT_MISS_B)) m.miss_b = 0;
    if (!(result->fit_kept & RBOW_FIT_GAP)) m.gap = 0;
    m.weld_zone = weld_zone_taken(member);
    m.bow_clock = known_clock(result->bow_clock_taken);
    m.miss_a_clock = known_clock(result->miss_a_clock_taken);
    m.miss_b_clock = known_clock(result->miss_b_clock_taken);
    m.eccentricity_clock = known_clock(result->eccentricity_clock_taken);
    return m;
}
