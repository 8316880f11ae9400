#include "working/working.h"

#include "working/calculation.h"
#include "working/column_steps.h"
#include "working/moment_steps.h"
#include "working/tube_steps.h"

#include <railbow/forced_fit.h>

static const char yield_rule[] = "equivalent stress (von Mises) in the outer fibre";
static const char interaction_rule[] = "Bruhn 1973, ch. C4: Rc + √(Rb² + Rst²) = 1, round tube";

/* ---- the locked-in force, and the weight ------------------------------------------------------------------ */

static void locked_in(calculation *c)
{
    const rbow_member *m = &c->m;
    const double e = c->k.elastic_modulus, area = c->tube.section.area;
    if (!(fabs(m->gap) > 0)) return;
    working_heading(c->w, "Locked-in axial force", "");
    rbow_fit_tension(m->gap, m->length, e * area, m->gap_stiffness, &c->tension);
    if (isinf(m->gap_stiffness))
        STEP(c, "locked-in tension", "T0 = gap E A / L, rigid surroundings", "# × # × # / #", c->tension, c->force,
             "Hooke's law", m->gap, e, area, m->length);
    else
        STEP(c, "locked-in tension", "T0 = gap / (L/(E A) + 1/k)", "# / (# / (# × #) + 1 / #)", c->tension, c->force,
             "Hooke's law", m->gap, m->length, e, area, m->gap_stiffness);
}

static void own_weight(const calculation *c)
{
    if (!(fabs(c->weight_load) > 0)) return;
    const double weight = shown_value(c, DIM_MASS, c->own_result->weight) * (c->units == UNITS_SI ? 9.80665 : 1);
    working_heading(c->w, "Own weight", "");
    if (c->units == UNITS_SI)
        STEP(c, "weight of the tube", "W = 9.80665 m/s² × density × A L", "9.80665 × # / 10^9 × # × #", weight, c->force, "material",
             shown_value(c, DIM_DENSITY, c->k.density), c->tube.section.area, c->m.length);
    else
        STEP(c, "weight of the tube", "W = density × A L", "# × # × #", weight, c->force, "material", c->k.density, c->tube.section.area,
             c->m.length);
    STEP(c, "across the tube", "w = W g cos(slope) / L", "# × # × cos(#°) / #", c->weight_load, c->spread, "statics", weight,
         c->m.vertical_g, c->m.slope * 180 / pi, c->m.length);
}

/* ---- the three checks ----------------------------------------------------------------------------------- */

typedef struct limit_words {
    const char *heading, *factor;
} limit_words;

static const limit_words words[] = {
    [RBOW_BY_COLUMN] = {"The column's load factor", "column factor"},
    [RBOW_BY_YIELD] = {"The load factor of yield", "yield factor"},
    [RBOW_BY_INTERACTION] = {"The load factor of push and bending together", "interaction factor"},
};

static void column_check(const calculation *c, const rbow_limit *l)
{
    const double tension = shown_value(c, DIM_FORCE, l->tension), push = c->m.compression;
    working_heading(c->w, words[RBOW_BY_COLUMN].heading, "");
    if (push > 0 && l->factor > 0)
        STEP(c, words[RBOW_BY_COLUMN].factor, "n_c = (Pcol + T) / C; locked-in tension is not counted as help", "(# + #) / #", l->factor, "",
             "column load over push", c->column_load, tension, push);
    else
        STEP(c, words[RBOW_BY_COLUMN].factor, l->factor > 0 ? "no push: no limit" : "the squeeze alone reaches it", "#",
             l->factor, "", "column load over push", l->factor);
}

static double axial_step(const calculation *c, const rbow_limit *l)
{
    const double tension = shown_value(c, DIM_FORCE, l->tension), axial = shown_value(c, DIM_FORCE, l->axial);
    STEP(c, "axial load, push positive", "P = λ C − T", "# × # − #", axial, c->force, "statics", l->factor, c->m.compression, tension);
    return axial;
}

static void shear_step(const calculation *c, const rbow_section *s, double torque, double shear)
{
    if (torque > 0)
        STEP(c, "shear of the torque", "τ = λ T (D/2) / (2 I)", "# × (# / 2) / (2 × #)", shear, c->stress,
             "mechanics of materials", torque, s->od, s->inertia);
}

static void yield_utilisation(const calculation *c, const rbow_strength *s, const rbow_actions *a, const rbow_stress *r)
{
    const double area = s->section.area, modulus = s->section.section_modulus;
    STEP(c, "stress of the compressed fibre", "σ_c = P/A + M/S", "# / # + # / #", r->pressed, c->stress, "mechanics of materials",
         a->axial, area, a->moment, modulus);
    STEP(c, "stress of the stretched fibre", "σ_t = M/S − P/A", "# / # − # / #", r->pulled, c->stress, "mechanics of materials",
         a->moment, modulus, a->axial, area);
    STEP(c, "utilisation of the compressed fibre", "√(max(σ_c, 0)² + 3 τ²) / Fc", "√(max(#, 0)² + 3 × #²) / #", r->utilisation_pressed, "",
         yield_rule, r->pressed, r->shear, s->compression_yield);
    STEP(c, "utilisation of the stretched fibre", "√(max(σ_t, 0)² + 3 τ²) / Ft", "√(max(#, 0)² + 3 × #²) / #", r->utilisation_pulled, "",
         yield_rule, r->pulled, r->shear, s->yield);
    STEP(c, "utilisation at this load factor; 1 is the limit", "the larger", "max(#, #)",
         fmax(r->utilisation_pressed, r->utilisation_pulled), "", yield_rule, r->utilisation_pressed, r->utilisation_pulled);
}

static void interaction_utilisation(const calculation *c, const rbow_strength *s, const rbow_actions *a, const rbow_stress *r)
{
    STEP(c, "bending stress", "σ_b = M/S", "# / #", r->bending, c->stress, "mechanics of materials", a->moment,
         s->section.section_modulus);
    STEP(c, "utilisation at this load factor; 1 is the limit", "P/Pcol + √(σ_b² + 3 τ²) / Fc", "# / # + √(#² + 3 × #²) / #",
         r->interaction, "", interaction_rule, a->axial, s->column_load, r->bending, r->shear, s->compression_yield);
}

/* The steps of a load factor that no station determines. */
static void without_station(const calculation *c, int check, const rbow_limit *l)
{
    const double tension = shown_value(c, DIM_FORCE, l->tension), push = c->m.compression;
    const double load = check == RBOW_BY_YIELD ? c->critical_load : c->column_load;
    if (isinf(l->factor))
        STEP(c, words[check].factor, "no load factor brings it there", "#", l->factor, "", "search", l->factor);
    else if (push > 0 && l->factor > 0)
        STEP(c, words[check].factor, check == RBOW_BY_YIELD ? "(Pcr + T) / C: it buckles before a fibre yields" : "(Pcol + T) / C",
             "(# + #) / #", l->factor, "", "critical load over push", load, tension, push);
    else
        STEP(c, words[check].factor, "the locked-in state alone is at the limit", "#", l->factor, "", "search", l->factor);
}

static void stress_check(const calculation *c, int check, const rbow_limit *l, bool governs)
{
    const rbow_strength *s = l->in_weld_zone ? &c->weld : &c->tube;
    working_heading(c->w, words[check].heading, "");
    const bool buckles_first = l->factor > 0 && l->level < 1 - 1e-6;
    if (isnan(l->at) || buckles_first) {
        without_station(c, check, l);
        return;
    }
    STEP(c, words[check].factor, l->factor > 0 ? "λ at which the utilisation below reaches 1"
                                              : "0: what is locked in alone is at the limit or past it", "by search", l->factor, "", "root of the utilisation", 0);
    rbow_actions a = {.axial = axial_step(c, l), .moment = shown_value(c, DIM_MOMENT, hypot(l->moment_up, l->moment_right)),
                      .torque = shown_value(c, DIM_MOMENT, fabs(l->torque))};
    if (governs) {
        a.moment = moment_steps(c, l);
    } else {
        STEP(c, "place", "x, from A", "by search", shown_value(c, DIM_LENGTH, l->at), c->length, "largest use along the tube", 0);
        STEP(c, "moment there", "from the beam-column's equation; another check governs", "by solution", a.moment, c->moment, "as for the check that governs", 0);
    }
    rbow_stress r;
    rbow_stress_of(s, &a, &r);
    shear_step(c, &s->section, a.torque, r.shear);
    if (check == RBOW_BY_YIELD)
        yield_utilisation(c, s, &a, &r);
    else
        interaction_utilisation(c, s, &a, &r);
}

static void margin(const calculation *c, const rbow_result *r)
{
    const rbow_member *m = &c->m;
    working_heading(c->w, "Margin", "");
    const bool own = fabs(m->factor_yield - m->factor) > 0; /* a separate factor asked for against yield */
    STEP(c, "load factor asked for", "n", "#", m->factor, "", "load case, or --factor", m->factor);
    if (own)
        STEP(c, "and against yield", "n_y", "#", m->factor_yield, "", "load case", m->factor_yield);
    STEP(c, "margin", own ? "min(yield factor/n_y, column factor/n, interaction factor/n) − 1"
                          : "min(yield factor/n, column factor/n, interaction factor/n) − 1", "min(# / #, # / #, # / #) − 1", r->margin, "",
         "least of the three", r->yield_factor, m->factor_yield, r->column_factor, m->factor, r->interaction_factor, m->factor);
    if (!r->forced) return;
    STEP(c, "margin as built", "the worst joints and directions with all that is locked in", "by checking each", r->margin_as_built, "", "search", 0);
    STEP(c, "margin without misses and gap", "the worst joints and directions with nothing locked in", "by checking each",
         r->margin_unforced, "", "search", 0);
    if (isfinite(r->margin_unforced) && isfinite(r->margin_as_built))
        STEP(c, "what the forced fit costs", "their difference", "# − #", r->margin_unforced - r->margin_as_built, "", "difference",
             r->margin_unforced, r->margin_as_built);
}

bool working_of(working *w, const rbow_member *member, const rbow_material *material, const rbow_result *result,
                unit_system units)
{
    calculation c = calculation_of(w, member, material, result, units);
    rbow_limit limits[3];
    for (int check = RBOW_BY_COLUMN; check <= RBOW_BY_INTERACTION; check++)
        if (rbow_member_limit(member, material, check, &limits[check]) != RBOW_OK) return false;
    tube_steps(&c);
    column_steps(&c);
    joint_steps(&c);
    locked_in(&c);
    own_weight(&c);
    working_heading(c.w, "Run load", "");
    STEP(&c, "push as given", "C, pull negative", "#", c.m.compression, c.force, "load case", c.m.compression);
    column_check(&c, &limits[RBOW_BY_COLUMN]);
    stress_check(&c, RBOW_BY_INTERACTION, &limits[RBOW_BY_INTERACTION], result->governs == RBOW_BY_INTERACTION);
    stress_check(&c, RBOW_BY_YIELD, &limits[RBOW_BY_YIELD], result->governs == RBOW_BY_YIELD);
    margin(&c, result);
    return true;
}
