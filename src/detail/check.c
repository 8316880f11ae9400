#include "check/scenario.h"
#include "detail/factor.h"
#include "mechanics/no_result.h"
#include "mechanics/restraint.h"

#include <railbow/clock.h>

RESULT_WITH_WHOLE(rbow_detail_result, verdict, 6);

rbow_detail_result rbow_detail_no_answer(void)
{
    rbow_detail_result r;
    NO_RESULT_BEFORE(rbow_detail_result, &r, verdict);
    r.verdict = RBOW_SHORT;
    r.mode = RBOW_DETAIL_BY_NONE;
    return r;
}

/* Ties go to yield. */
void rbow_detail_tell_margin(const detail_factors *k, const double required[LIMITS], double lowest, rbow_detail_result *r)
{
    const double yield = k->of[DETAIL_YIELD] / required[DETAIL_YIELD], weld = k->of[DETAIL_WELD] / required[DETAIL_WELD];
    const int which = weld < yield * (1 - 1e-9) ? DETAIL_WELD : DETAIL_YIELD;
    r->yield_factor = k->of[DETAIL_YIELD];
    r->weld_factor = k->of[DETAIL_WELD];
    r->factor = fmin(r->yield_factor, r->weld_factor);
    r->margin = fmin(fmin(yield, weld), lowest) - 1;
    r->mode = isinf(fmin(yield, weld)) ? RBOW_DETAIL_BY_NONE : k->mode[which];
    r->verdict = r->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
    if (k->of[DETAIL_WELD] < 2 && k->mode[DETAIL_WELD] != RBOW_DETAIL_BY_BUCKLING) r->remarks |= RBOW_DETAIL_UNDER_TWO;
}

void rbow_detail_tell_forces(const detail_model *m, const rbow_section_forces *f, rbow_detail_result *r)
{
    r->axial = f->axial;
    r->torque = f->torque;
    r->moment = hypot(f->moment_up, f->moment_right);
    r->moment_clock = rbow_clock_of(f->moment_up, f->moment_right);
    r->shear = hypot(f->shear_up, f->shear_right);
    r->prying = rbow_detail_prying(m, r->moment);
}

void rbow_detail_tell_sizes(const rbow_detail *given, const detail_model *m, rbow_detail_result *r)
{
    r->remarks = rbow_detail_size_remarks(given, m);
    r->in_weld_zone = m->in_weld_zone;
    r->clearance = rbow_detail_clearance(m);
    r->play = rbow_detail_play(m);
}

static rbow_status tell_loaded(const detail_model *m, const prepared *p, rbow_detail_result *r)
{
    rbow_section_forces f;
    const rbow_status status = rbow_forces_at(p, 1, m->detail.at, &f);
    r->axial = axial_at(p, 1);
    r->torque = p->member.torque;
    if (status == RBOW_UNSTABLE) {
        r->remarks |= RBOW_DETAIL_UNSTABLE;
        return RBOW_OK;
    }
    if (status == RBOW_OK) rbow_detail_tell_forces(m, &f, r);
    return status;
}

static double clock_if(bool there, double clock)
{
    return there ? clock : (double)NAN;
}

static void tell_taken(const scenarios *s, const scenario *g, rbow_detail_result *r)
{
    const rbow_member *m = &s->corners[0].member;
    r->joints_taken = s->joints[g->corner];
    r->fit_taken = g->kept == s->fit ? RBOW_FIT_AS_BUILT : g->kept == 0 ? RBOW_FIT_UNFORCED : RBOW_FIT_RELAXED;
    r->bow_clock_taken = clock_if(m->bow > 0, g->clock[CLOCK_BOW]);
    r->miss_a_clock_taken = clock_if((g->kept & RBOW_FIT_MISS_A) != 0, g->clock[CLOCK_MISS_A]);
    r->miss_b_clock_taken = clock_if((g->kept & RBOW_FIT_MISS_B) != 0, g->clock[CLOCK_MISS_B]);
    r->eccentricity_clock_taken = clock_if(m->eccentricity > 0, g->clock[CLOCK_ECCENTRICITY]);
}

static rbow_status check_scenarios(const rbow_detail *given, const detail_model *m, scenarios *s, rbow_detail_result *r)
{
    scenario governs;
    detail_factors k;
    s->ratio = rbow_detail_least_ratio;
    s->ratio_of = m;
    s->several_minima = given->kind == RBOW_DETAIL_HOLE && !end_is(given->hole_clock, RBOW_ANY_CLOCK);
    rbow_status status = rbow_worst_case(s, &governs);
    if (status != RBOW_OK) return status;
    const prepared p = rbow_concrete(s, &governs);
    status = rbow_detail_factors(m, &p, &k);
    if (status != RBOW_OK) return status;
    const double required[LIMITS] = {[DETAIL_YIELD] = p.member.factor_yield, [DETAIL_WELD] = p.member.factor};
    rbow_detail_tell_sizes(given, m, r);
    tell_taken(s, &governs, r);
    rbow_detail_tell_margin(&k, required, governs.ratio, r);
    return tell_loaded(m, &p, r);
}

rbow_status rbow_detail_check(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                              rbow_detail_result *result)
{
    scenarios s;
    detail_model m;
    rbow_detail_result r = rbow_detail_no_answer();
    rbow_status status;
    *result = r;
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    status = rbow_scenarios_of(member, material, &s);
    if (status != RBOW_OK) return status;
    if (rbow_detail_faults_of(detail, &s.corners[0], material, &status, 1) > 0) return status;
    status = rbow_detail_model_of(detail, &s.corners[0], material, &m);
    if (status == RBOW_OK) status = check_scenarios(detail, &m, &s, &r);
    if (status == RBOW_OK) *result = r;
    return status;
}
