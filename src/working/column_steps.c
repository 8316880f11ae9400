#include "working/column_steps.h"

static const char textbook[] = "mechanics of materials";
static const char same[] = "material";
static const char stability[] = "Timoshenko & Gere, Theory of Elastic Stability, 2nd ed. 1961, ch. 2";

static bool is_weld(double end, double word)
{
    return end <= word && end >= word;
}

/* The column load is that of soft welded ends. */
static double end_step(const calculation *c, const char *step, double end)
{
    if (is_weld(end, RBOW_WELDED) || is_weld(end, RBOW_SOFT_WELD) || is_weld(end, RBOW_STIFF_WELD)) {
        double k;
        rbow_end_stiffness(RBOW_SOFT_WELD, c->bending_stiffness, c->m.length, &k);
        STEP(c, step, "k = −u/tan(u/2) EI/L, u = π√2: welded, soft: fixity 2", "−π × √(2) / tan(π × √(2) / 2) × # / #", k,
             c->stiffness, "load case; Timoshenko & Gere 1961, ch. 2", c->bending_stiffness, c->m.length);
        return k;
    }
    STEP(c, step, isinf(end) ? "k, fixed: cannot turn" : end > 0 ? "k" : "k = 0, pinned: turns freely", "#", end,
         c->stiffness, c->given, end);
    return end;
}

static const char *characteristic(const calculation *c)
{
    const bool fixed_a = isinf(c->stiffness_a), fixed_b = isinf(c->stiffness_b);
    if (c->free_b)
        return fixed_a ? "least u > 0 with cos u = 0" : "least u > 0 with u tan u = a, a = k_A L/EI";
    if (fixed_a && fixed_b) return "least u > 0 with 2 − 2 cos u − u sin u = 0";
    if (fixed_a || fixed_b)
        return "least u > 0 with u (sin u − u cos u) + a (2 − 2 cos u − u sin u) = 0, a = k L/EI of the other end";
    if (!(c->stiffness_a > 0 || c->stiffness_b > 0)) return "least u > 0 with sin u = 0";
    return "least u > 0 with u³ sin u + (a + b) u (sin u − u cos u) + a b (2 − 2 cos u − u sin u) = 0, "
           "a = k_A L/EI, b = k_B L/EI";
}

static void critical_load(calculation *c)
{
    const double length = c->m.length;
    const double u = sqrt(shown_value(c, DIM_FORCE, c->own_result->critical_load) * length * length / c->bending_stiffness);
    STEP(c, "buckling angle", characteristic(c), "by search", u, "", stability, 0);
    c->critical_load = u * u * c->bending_stiffness / (length * length);
    STEP(c, "elastic critical load", "Pcr = u² EI / L²", "#² × # / #²", c->critical_load, c->force, "Timoshenko & Gere 1961, ch. 2", u,
         c->bending_stiffness, length);
}

/* ---- the curves: the words of each formula, under its name in RBOW_CURVE_LIST ----------------------------- */

typedef struct curve_values { /* a column in the units shown, and what its formula went through */
    rbow_column given;
    rbow_column_terms terms;
    double imperfection;
    const char *source;
} curve_values;

static void stress_step(const calculation *c, const curve_values *v, const char *formula, const char *numbers,
                        const double values[], size_t count)
{
    working_step(c->w, "column stress", formula, numbers, values, count, v->terms.stress, c->stress, v->source);
}

#define STRESS(formula_, numbers_, ...)                                                                         \
    stress_step(c, v, formula_, numbers_, (const double[]){__VA_ARGS__}, sizeof((const double[]){__VA_ARGS__}) / sizeof(double))

static void johnson(const calculation *c, const curve_values *v)
{
    const rbow_column_terms *t = &v->terms;
    if (t->range == RBOW_COLUMN_ELASTIC)
        STRESS("F = Fe, since Fe < Fc/2", "#", t->euler);
    else
        STRESS("F = Fc (1 − Fc s² / (4 π² E))", "# × (1 − # × #² / (4 × π² × #))", t->full, t->full, v->given.slenderness,
               v->given.elastic_modulus);
}

static void three_halves(const calculation *c, const curve_values *v)
{
    const rbow_column_terms *t = &v->terms;
    STEP(c, "intercept", "Fi = Q × column intercept", "# × #", t->intercept, c->stress, same, v->given.wall_reduction,
         v->given.column_intercept);
    STEP(c, "transition to Euler", "T = π √(7 E / (3 Fi))", "π × √(7 × # / (3 × #))", t->transition, "", v->source,
         v->given.elastic_modulus, t->intercept);
    if (t->range == RBOW_COLUMN_ELASTIC)
        STRESS("F = min(Fc, Fe), since s ≥ T", "min(#, #)", t->full, t->euler);
    else
        STRESS("F = min(Fc, Fi (1 − 4/7 (s/T)^1.5))", "min(#, # × (1 − 4/7 × (# / #)^1.5))", t->full, t->intercept,
               v->given.slenderness, t->transition);
}

static void euler(const calculation *c, const curve_values *v)
{
    STRESS("F = min(Fc, Fe)", "min(#, #)", v->terms.full, v->terms.euler);
}

static void aisc(const calculation *c, const curve_values *v)
{
    const rbow_column_terms *t = &v->terms;
    if (t->range == RBOW_COLUMN_INELASTIC)
        STRESS("F = 0.658^(Fc/Fe) Fc, since Fc/Fe ≤ 2.25", "0.658^(# / #) × #", t->full, t->euler, t->full);
    else
        STRESS("F = 0.877 Fe, since Fc/Fe > 2.25", "0.877 × #", t->euler);
}

static void european(const calculation *c, const curve_values *v)
{
    const rbow_column_terms *t = &v->terms;
    const double s = t->relative_slenderness;
    STEP(c, "relative slenderness", "λ = √(Fc/Fe)", "√(# / #)", s, "", v->source, t->full, t->euler);
    if (t->range == RBOW_COLUMN_YIELD) {
        STRESS("F = Fc, since λ ≤ 0.2", "#", t->full);
        return;
    }
    STEP(c, "auxiliary value", "φ = 0.5 (1 + α (λ − 0.2) + λ²)", "0.5 × (1 + # × (# − 0.2) + #²)", t->phi, "", v->source,
         v->imperfection, s, s);
    STRESS("F = Fc / (φ + √(φ² − λ²)), at most Fc", "# × min(1, 1 / (# + √(#² − #²)))", t->full, t->phi, t->phi, s);
}

static void curve_steps(const calculation *c, rbow_curve curve, curve_values *v)
{
    switch (curve) {
#define BY_FORMULA(value_, formula_, name_, imperfection_, source_)                                            \
    case value_:                                                                                               \
        v->imperfection = imperfection_;                                                                       \
        v->source = source_;                                                                                   \
        formula_(c, v);                                                                                        \
        return;
        RBOW_CURVE_LIST(BY_FORMULA)
        case RBOW_CURVE_OF_MATERIAL:
        case RBOW_CURVE_COUNT: return;
    }
}

static double column_stress(const calculation *c, double slenderness)
{
    curve_values v = {.given = {.curve = (rbow_curve)c->m.column_curve, .elastic_modulus = c->k.elastic_modulus,
                                .compression_yield = c->k.compression_yield, .column_intercept = c->k.column_intercept,
                                .wall_reduction = c->own_result->wall_reduction, .slenderness = slenderness}};
    rbow_column_terms_of(&v.given, &v.terms);
    STEP(c, "elastic column stress", "Fe = π² E / s²", "π² × # / #²", v.terms.euler, c->stress, "Euler",
         v.given.elastic_modulus, slenderness);
    curve_steps(c, v.given.curve, &v);
    return v.terms.stress;
}

/* The stiffness of one end as the concrete member takes it, where that is not the column's. */
static double taken_step(const calculation *c, const char *step, double end, double soft)
{
    if (!is_weld(end, RBOW_STIFF_WELD)) return soft;
    STEP(c, step, "k, welded, taken as rigid: the worse of soft and rigid for this case", "#", INFINITY, c->stiffness, "scenario",
         INFINITY);
    return INFINITY;
}

void joint_steps(calculation *c)
{
    if (!is_weld(c->m.end_a, RBOW_STIFF_WELD) && !is_weld(c->m.end_b, RBOW_STIFF_WELD)) return;
    working_heading(c->w, "Joints as taken for the bending", "");
    c->stiffness_a = taken_step(c, "stiffness of joint A", c->m.end_a, c->stiffness_a);
    if (!c->free_b) c->stiffness_b = taken_step(c, "stiffness of joint B", c->m.end_b, c->stiffness_b);
    double load;
    if (rbow_critical_load(c->bending_stiffness, c->m.length, c->stiffness_a, c->stiffness_b, &load) != RBOW_OK) return;
    const double u = sqrt(load * c->m.length * c->m.length / c->bending_stiffness);
    STEP(c, "buckling angle", characteristic(c), "by search", u, "", stability, 0);
    c->critical_load = load;
    STEP(c, "elastic critical load", "Pcr = u² EI / L²", "#² × # / #²", load, c->force, "Timoshenko & Gere 1961, ch. 2", u,
         c->bending_stiffness, c->m.length);
}

/* From the effective length to the column load. */
static void slenderness_steps(calculation *c, double effective)
{
    const double length = c->m.length;
    const rbow_section *tube = &c->tube.section;
    const double slenderness = effective / tube->radius;
    STEP(c, "radius of gyration", "r = √(I/A)", "√(# / #)", tube->radius, c->length, textbook, tube->inertia, tube->area);
    STEP(c, "slenderness", "s = L'/r", "# / #", slenderness, "", textbook, effective, tube->radius);
    STEP(c, "fixity", "c = (L/L')²", "(# / #)²", length * length / (effective * effective), "", textbook, length, effective);
    const double stress = column_stress(c, slenderness);
    c->column_load = c->tube.column_load = c->weld.column_load = stress * tube->area;
    STEP(c, "column load", "Pcol = F A", "# × #", c->column_load, c->force, textbook, stress, tube->area);
}

static void stiffness_steps(calculation *c, const char *heading)
{
    working_heading(c->w, heading, "");
    c->bending_stiffness = c->k.elastic_modulus * c->tube.section.inertia;
    STEP(c, "bending stiffness", "EI", "# × #", c->bending_stiffness, c->units == UNITS_SI ? "N-mm^2" : "lbf-in^2",
         textbook, c->k.elastic_modulus, c->tube.section.inertia);
    c->stiffness_a = end_step(c, "stiffness of joint A", c->m.end_a);
    if (c->free_b)
        c->stiffness_b = RBOW_FREE;
    else
        c->stiffness_b = end_step(c, "stiffness of joint B", c->m.end_b);
}

void column_steps(calculation *c)
{
    stiffness_steps(c, "Column");
    critical_load(c);
    const double effective = rbow_effective_length(c->bending_stiffness, c->critical_load);
    STEP(c, "effective length", "L' = π √(EI / Pcr)", "π × √(# / #)", effective, c->length, "Timoshenko & Gere 1961, ch. 2",
         c->bending_stiffness, c->critical_load);
    slenderness_steps(c, effective);
}

void bending_steps(calculation *c)
{
    stiffness_steps(c, "Bending stiffness and joints");
    joint_steps(c);
}

void frame_column_steps(calculation *c, double fixity)
{
    const double effective = c->m.length / sqrt(fixity);
    stiffness_steps(c, "Column");
    STEP(c, "fixity as given", "c", "#", fixity, "", c->given, fixity);
    STEP(c, "effective length", "L' = L / √c", "# / √(#)", effective, c->length, "Timoshenko & Gere 1961, ch. 2", c->m.length, fixity);
    slenderness_steps(c, effective);
}
