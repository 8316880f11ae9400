#include "working/use_steps.h"

static const char yield_rule[] = "equivalent stress (von Mises) in the outer fibre";
static const char interaction_rule[] = "Bruhn 1973, ch. C4: Rc + √(Rb² + Rst²) = 1, round tube";

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

void use_steps(const calculation *c, int check, bool in_weld_zone, const rbow_actions *a, rbow_stress *r)
{
    const rbow_strength *s = in_weld_zone ? &c->weld : &c->tube;
    rbow_stress_of(s, a, r);
    shear_step(c, &s->section, a->torque, r->shear);
    if (check == RBOW_BY_YIELD)
        yield_utilisation(c, s, a, r);
    else
        interaction_utilisation(c, s, a, r);
}

void margin_steps(const calculation *c, const double factors[3], double margin)
{
    const rbow_member *m = &c->m;
    const bool own = fabs(m->factor_yield - m->factor) > 0; /* a separate factor asked for against yield */
    working_heading(c->w, "Margin", "");
    STEP(c, "load factor asked for", "n", "#", m->factor, "", "load case, or --factor", m->factor);
    if (own)
        STEP(c, "and against yield", "n_y", "#", m->factor_yield, "", c->given, m->factor_yield);
    STEP(c, "margin", own ? "min(yield factor/n_y, column factor/n, interaction factor/n) − 1"
                          : "min(yield factor/n, column factor/n, interaction factor/n) − 1", "min(# / #, # / #, # / #) − 1", margin, "",
         "least of the three", factors[0], m->factor_yield, factors[1], m->factor, factors[2], m->factor);
}
