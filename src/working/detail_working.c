#include "working/detail_working.h"

#include "working/column_steps.h"
#include "working/detail_steps.h"
#include "working/moment_steps.h"
#include "working/tube_steps.h"

/* ---- the member taken ------------------------------------------------------------------------------------------ */

rbow_member detail_member_taken(const rbow_member *member, const rbow_material *material, const rbow_detail_result *r)
{
    const double push = rbow_member_resolved(member, material).compression;
    const bool locked = fabs(r->axial - push) > 1e-12 * (fabs(push) + fabs(r->axial)); /* by the gap; relaxed has a part of the forced fit */
    rbow_result of = {.joints_taken = r->joints_taken, .bow_clock_taken = r->bow_clock_taken, .miss_a_clock_taken = r->miss_a_clock_taken,
                      .miss_b_clock_taken = r->miss_b_clock_taken, .eccentricity_clock_taken = r->eccentricity_clock_taken};
    of.fit_kept = (isnan(r->miss_a_clock_taken) ? 0u : (unsigned)RBOW_FIT_MISS_A) | (isnan(r->miss_b_clock_taken) ? 0u : (unsigned)RBOW_FIT_MISS_B)
        | (r->fit_taken == RBOW_FIT_AS_BUILT || locked ? (unsigned)RBOW_FIT_GAP : 0u);
    return rbow_member_taken(member, &of);
}

rbow_tube_size detail_tube_size(const detail_worked *d)
{
    const rbow_tube_size tube = {d->member->od, d->member->wall};
    return d->result->in_weld_zone ? rbow_weld_zone_size(tube, d->member->dressed) : tube;
}

double detail_asked_factor(const detail_worked *d)
{
    const rbow_member m = rbow_member_resolved(d->member, d->material);
    return d->result->yield_factor / m.factor_yield <= d->result->weld_factor / m.factor ? m.factor_yield : m.factor;
}

governing_detail detail_limit_of(const detail_worked *d)
{
    const double required = detail_asked_factor(d), factor = (1 + d->result->margin) * required;
    return (governing_detail){true, d->detail->kind, d->result->mode, isinf(d->result->factor) ? (double)INFINITY : factor, required};
}

double detail_state_factor(const rbow_detail_result *r, int state)
{
    return state == DETAIL_AT_YIELD ? r->yield_factor : state == DETAIL_AT_WELD ? r->weld_factor : 1;
}

/* ---- the detail in the units shown ------------------------------------------------------------------------------- */

static double shown_length(const calculation *c, double own)
{
    return is_unset(own) ? own : shown_value(c, DIM_LENGTH, own);
}

static rbow_detail in_shown_units(const calculation *c, const rbow_detail *own)
{
    rbow_detail d = *own;
    double *const lengths[] = {&d.at, &d.hole, &d.throat, &d.weld_od, &d.sleeve_od, &d.sleeve_wall, &d.stub_od, &d.stub_wall, &d.overlap, &d.rosette};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) *lengths[i] = shown_length(c, *lengths[i]);
    d.weld_strength = shown_value(c, DIM_STRESS, is_unset(own->weld_strength) ? RBOW_DETAIL_FILLER : own->weld_strength);
    return d;
}

static detail_forces forces_shown(const calculation *c, const rbow_section_forces *f)
{
    const double shear_up = shown_value(c, DIM_FORCE, f->shear_up), shear_right = shown_value(c, DIM_FORCE, f->shear_right);
    detail_forces s = {.of = {.axial = shown_value(c, DIM_FORCE, f->axial), .moment_up = shown_value(c, DIM_MOMENT, f->moment_up),
                              .moment_right = shown_value(c, DIM_MOMENT, f->moment_right), .torque = shown_value(c, DIM_MOMENT, f->torque),
                              .shear_up = shear_up, .shear_right = shear_right}};
    s.moment = hypot(s.of.moment_up, s.of.moment_right);
    s.torque = fabs(s.of.torque);
    s.shear = hypot(shear_up, shear_right);
    return s;
}

/* ---- forces at the place ------------------------------------------------------------------------------------------ */

typedef struct detail_run { /* what the states share */
    detail_calculation d;
    const detail_state *states;
    bool frame;
} detail_run;

static const char beam[] = "Timoshenko & Gere 1961, ch. 1";

static void axial_step(const detail_run *r, double factor, const detail_forces *f)
{
    const calculation *c = &r->d.c;
    if (r->frame) {
        STEP(c, "axial load, push positive", "P, from the state of the frame", "by solution", f->of.axial, c->force, "state of the frame", 0);
        return;
    }
    const double push = c->m.compression, tension = factor * push - f->of.axial;
    if (fabs(tension) > 1e-9 * fabs(f->of.axial))
        STEP(c, "axial load, push positive", "P = λ C − T0", "# × # − #", f->of.axial, c->force, "statics", factor, push, c->tension);
    else
        STEP(c, "axial load, push positive", "P = λ C", "# × #", f->of.axial, c->force, "statics", factor, push);
}

/* By the library's solution; in the governing state of a load case moment_steps derives it. */
static void moment_by_solution(const detail_run *r, const detail_forces *f)
{
    const calculation *c = &r->d.c;
    const char *source = r->frame ? "state of the frame" : beam;
    STEP(c, "moment there, up", "of the beam-column's equation", "by solution", f->of.moment_up, c->moment, source, 0);
    STEP(c, "moment there, right", "of the beam-column's equation", "by solution", f->of.moment_right, c->moment, source, 0);
    STEP(c, "moment", "M = √(M_up² + M_right²)", "√(#² + #²)", f->moment, c->moment, "statics", f->of.moment_up, f->of.moment_right);
}

static void moment_derived(const detail_run *r, double factor, const rbow_section_forces *own)
{
    const calculation *c = &r->d.c;
    const rbow_limit at = {.factor = factor, .axial = own->axial, .tension = factor * c->own_member->compression - own->axial,
                           .at = r->d.own_detail->at, .moment_up = own->moment_up, .moment_right = own->moment_right};
    moment_steps(c, &at, NULL);
}

static void other_force_steps(const detail_run *r, double factor, const detail_forces *f)
{
    const calculation *c = &r->d.c;
    if (r->frame)
        STEP(c, "torque", "T, from the state of the frame", "by solution", f->of.torque, c->moment, "state of the frame", 0);
    else if (f->torque > 0)
        STEP(c, "torque", "λ × the torque given", "# × #", f->of.torque, c->moment, "statics", factor, c->m.torque);
    if (!detail_has_ring(&r->d)) return;
    STEP(c, "shear there, up", "V = dM/dx", "by solution", f->of.shear_up, c->force, beam, 0);
    STEP(c, "shear there, right", "V = dM/dx", "by solution", f->of.shear_right, c->force, beam, 0);
    STEP(c, "shear", "V = √(V_up² + V_right²)", "√(#² + #²)", f->shear, c->force, "statics", f->of.shear_up, f->of.shear_right);
}

static detail_forces force_steps(const detail_run *r, int state, bool derived)
{
    const detail_forces f = forces_shown(&r->d.c, &r->states[state].forces);
    const double factor = detail_state_factor(r->d.own_result, state);
    axial_step(r, factor, &f);
    if (derived && !r->frame) moment_derived(r, factor, &r->states[state].forces);
    else moment_by_solution(r, &f);
    other_force_steps(r, factor, &f);
    return f;
}

/* ---- the load factors ----------------------------------------------------------------------------------------------- */

static void buckling_steps(const detail_run *r, double factor)
{
    const calculation *c = &r->d.c;
    double load;
    if (r->frame || !(factor > 0) || rbow_critical_load(c->bending_stiffness, c->m.length, c->stiffness_a, c->stiffness_b, &load) != RBOW_OK) {
        STEP(c, "load factor", "the tube buckles before the detail reaches a limit", "by search", factor, "", "end of the states", 0);
        return;
    }
    const double length = c->m.length, u = sqrt(load * length * length / c->bending_stiffness), push = c->m.compression;
    STEP(c, "buckling angle", "least u at which the joints hold no more", "by search", u, "", "Timoshenko & Gere 1961, ch. 2", 0);
    STEP(c, "elastic critical load", "Pcr = u² EI / L²", "#² × # / #²", load, c->force, "Timoshenko & Gere 1961, ch. 2", u, c->bending_stiffness,
         length);
    STEP(c, "load factor", "λ = (Pcr + T0) / C: the tube buckles before the detail reaches a limit", "(# + #) / #", factor, "",
         "critical load over push", load, c->tension, push);
}

static void factor_steps(const detail_run *r, int state, bool governs)
{
    const detail_calculation *d = &r->d;
    const bool yield = state == DETAIL_AT_YIELD;
    const double factor = detail_state_factor(d->own_result, state);
    working_heading(d->c.w, yield ? "The load factor of yield" : "The load factor of the weld", "");
    if (isinf(factor)) {
        STEP(&d->c, "load factor", "no load factor brings it there", "#", factor, "", "search", factor);
        return;
    }
    if (r->states[state].status != RBOW_OK) {
        buckling_steps(r, factor);
        return;
    }
    STEP(&d->c, "load factor", factor > 0 ? "λ at which the utilisation below reaches 1" : "0: what is locked in alone is at the limit or past it",
         "by search", factor, "", "root of the utilisation", 0);
    const detail_forces f = force_steps(r, state, governs);
    working_heading(d->c.w, yield ? "Utilisation of yield at this load factor" : "Utilisation of the weld at this load factor", "");
    if (yield) detail_yield_steps(d, &f);
    else detail_weld_steps(d, &f);
}

static void loaded_steps(const detail_run *r)
{
    const detail_calculation *d = &r->d;
    working_heading(d->c.w, "As loaded, at load factor 1", "");
    if (r->states[DETAIL_AS_LOADED].status != RBOW_OK) {
        STEP(&d->c, "axial load, push positive", "the tube has buckled: no equilibrium", "by solution",
             shown_value(&d->c, DIM_FORCE, d->own_result->axial), d->c.force, "end of the states", 0);
        return;
    }
    const detail_forces f = force_steps(r, DETAIL_AS_LOADED, false);
    if (detail_yields(d)) detail_yield_steps(d, &f);
    if (detail_has_ring(d) || detail_has_rosettes(d)) detail_weld_steps(d, &f);
}

static void margin_of(const detail_run *r)
{
    const detail_calculation *d = &r->d;
    const rbow_member *m = &d->c.m;
    const rbow_detail_result *k = d->own_result;
    working_heading(d->c.w, "Margin", "");
    if (detail_yields(d))
        STEP(&d->c, "load factor asked for against yield", "n_y", "#", m->factor_yield, "", d->c.given, m->factor_yield);
    if (detail_has_ring(d) || detail_has_rosettes(d))
        STEP(&d->c, "load factor asked for against the weld", "n", "#", m->factor, "", d->c.given, m->factor);
    if (!detail_yields(d))
        STEP(&d->c, "margin", "weld factor / n − 1", "# / # − 1", k->margin, "", "definition", k->weld_factor, m->factor);
    else if (!detail_has_ring(d) && !detail_has_rosettes(d))
        STEP(&d->c, "margin", "yield factor / n_y − 1", "# / # − 1", k->margin, "", "definition", k->yield_factor, m->factor_yield);
    else
        STEP(&d->c, "margin", "min(yield factor / n_y, weld factor / n) − 1", "min(# / #, # / #) − 1", k->margin, "", "the smaller of the two",
             k->yield_factor, m->factor_yield, k->weld_factor, m->factor);
}

/* ---- all of it ------------------------------------------------------------------------------------------------------ */

static void clock_step(const calculation *c, const char *step, double clock)
{
    if (!isnan(clock)) STEP(c, step, "clock, seen from A toward B", "#", clock * 180 / pi, "deg", "the worst, or as given", clock * 180 / pi);
}

static void taken_steps(const detail_run *r)
{
    const rbow_detail_result *k = r->d.own_result;
    const calculation *c = &r->d.c;
    const bool none = isnan(k->bow_clock_taken) && isnan(k->miss_a_clock_taken) && isnan(k->miss_b_clock_taken) && isnan(k->eccentricity_clock_taken);
    if (r->frame || none) return;
    working_heading(c->w, "Directions as taken for this detail", "");
    clock_step(c, "bow", k->bow_clock_taken);
    clock_step(c, "miss of socket A", k->miss_a_clock_taken);
    clock_step(c, "miss of socket B", k->miss_b_clock_taken);
    clock_step(c, "eccentricity of the push", k->eccentricity_clock_taken);
}

static bool stands_somewhere(const detail_run *r)
{
    return isfinite(r->d.own_result->factor);
}

static void all_steps(detail_run *r)
{
    detail_calculation *d = &r->d;
    const rbow_detail_result *k = d->own_result;
    const bool welds_govern = k->weld_factor / d->c.m.factor < k->yield_factor / d->c.m.factor_yield;
    tube_steps(&d->c);
    taken_steps(r);
    if (!r->frame && stands_somewhere(r)) bending_steps(&d->c);
    if (!r->frame) locked_in_steps(&d->c);
    if (!r->frame) own_weight_steps(&d->c);
    detail_size_steps(d);
    if (detail_yields(d)) factor_steps(r, DETAIL_AT_YIELD, !welds_govern);
    if (detail_has_ring(d) || detail_has_rosettes(d)) factor_steps(r, DETAIL_AT_WELD, welds_govern);
    loaded_steps(r);
    detail_fit_steps(d);
    margin_of(r);
}

static void begin(detail_run *r, working *w, const rbow_detail *detail, const rbow_member *m, const rbow_material *k, const rbow_result *whole,
                  const rbow_detail_result *result, unit_system units)
{
    r->d = (detail_calculation){.c = calculation_of(w, m, k, whole, units), .own_detail = detail, .own_result = result};
    r->d.c.place_given = true;
    r->d.d = in_shown_units(&r->d.c, detail);
}

bool detail_working_of(working *w, const rbow_detail *detail, const rbow_member *taken, const rbow_material *material,
                       const rbow_detail_result *result, unit_system units)
{
    rbow_result whole; /* its weight */
    detail_state states[DETAIL_STATES];
    if (rbow_member_check(taken, material, &whole) != RBOW_OK) return false;
    for (int i = 0; i < DETAIL_STATES; i++) {
        const double factor = detail_state_factor(result, i);
        states[i].status = rbow_member_forces(taken, material, factor, detail->at, &states[i].forces);
        if (states[i].status != RBOW_OK && states[i].status != RBOW_UNSTABLE && isfinite(factor)) return false;
    }
    detail_run r = {.states = states, .frame = false};
    begin(&r, w, detail, taken, material, &whole, result, units);
    all_steps(&r);
    return true;
}

/* The largest use of a kind of mode at its load factor: 1 but where the path ends before; NaN where it is not known. */
static double use_at(const rbow_detail *detail, const rbow_member *m, const rbow_material *k, const rbow_detail_result *r,
                     const detail_state *s, int state)
{
    double use[RBOW_DETAIL_MODES], most = 0;
    const double factor = detail_state_factor(r, state);
    if (s->status != RBOW_OK || !(factor > 0 && isfinite(factor))) return 1;
    if (rbow_detail_use(detail, m, k, &s->forces, use) != RBOW_OK) return NAN;
    for (int i = 0; i < RBOW_DETAIL_MODES; i++)
        if ((i == RBOW_DETAIL_BY_YIELD) == (state == DETAIL_AT_YIELD)) most = fmax(most, use[i]);
    return most;
}

/* Whether a load factor is the end of the path. The mode tells it of the one that sets the margin; the other is the end at most where
 * it is the larger one. */
static bool may_end_path(const rbow_detail_result *r, const rbow_member *m, int state)
{
    const bool welds_govern = r->weld_factor / m->factor < r->yield_factor / m->factor_yield;
    if (welds_govern == (state == DETAIL_AT_WELD)) return r->mode == RBOW_DETAIL_BY_BUCKLING;
    return state == DETAIL_AT_WELD ? r->weld_factor >= r->yield_factor : r->yield_factor >= r->weld_factor;
}

bool frame_detail_working_of(working *w, const rbow_detail *detail, const rbow_member *tube, const rbow_material *material,
                             const rbow_detail_result *result, const detail_state states[DETAIL_STATES], unit_system units)
{
    const rbow_result none = {.weight = 0};
    detail_state reached[DETAIL_STATES];
    detail_run r = {.states = reached, .frame = true};
    for (int i = 0; i < DETAIL_STATES; i++) {
        if (states[i].status != RBOW_OK && states[i].status != RBOW_UNSTABLE && isfinite(detail_state_factor(result, i))) return false;
        reached[i] = states[i];
    }
    for (int i = DETAIL_AT_YIELD; i <= DETAIL_AT_WELD; i++) {
        const double use = use_at(detail, tube, material, result, &states[i], i);
        const bool short_of_it = use < 1 - 1e-4 && may_end_path(result, tube, i);
        if (short_of_it) reached[i].status = RBOW_UNSTABLE; /* the last state of the path */
        else if (!(fabs(use - 1) < 1e-4)) return false;
    }
    begin(&r, w, detail, tube, material, &none, result, units);
    r.d.c.given = "tables of the frame";
    all_steps(&r);
    return true;
}
