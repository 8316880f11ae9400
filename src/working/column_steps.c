#include "working/column_steps.h"

static const char textbook[] = "mechanics of materials";
static const char same[] = "material";
static const char stability[] = "Timoshenko & Gere, Theory of Elastic Stability, ch. 2";

static double end_step(const calculation *c, const char *step, double end)
{
    const double per_length = c->bending_stiffness / c->m.length;
    if (end <= RBOW_WELDED) {
        const double u = pi * sqrt(2.0), k = -u / tan(u / 2) * per_length;
        STEP(c, step, "k = −u/tan(u/2) EI/L, u = π√2: welded, fixity 2", "−π × √(2) / tan(π × √(2) / 2) × # / #", k,
             c->stiffness, "load case; Timoshenko & Gere ch. 2", c->bending_stiffness, c->m.length);
        return k;
    }
    STEP(c, step, isinf(end) ? "k, fixed: cannot turn" : end > 0 ? "k" : "k = 0, pinned: turns freely", "#", end,
         c->stiffness, "load case", end);
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
    STEP(c, "elastic critical load", "Pcr = u² EI / L²", "#² × # / #²", c->critical_load, c->force, "Timoshenko & Gere ch. 2", u,
         c->bending_stiffness, length);
}

static double elastic_stress(const calculation *c, double slenderness)
{
    const double stress = pi * pi * c->k.elastic_modulus / (slenderness * slenderness);
    STEP(c, "elastic column stress", "Fe = π² E / s²", "π² × # / #²", stress, c->stress, "Euler", c->k.elastic_modulus,
         slenderness);
    return stress;
}

typedef struct curve_values { /* the arguments of the formula of a curve */
    double slenderness, full, elastic; /* full: wall reduction times compression yield; elastic: Euler's stress */
    double imperfection;
    const char *source;
} curve_values;

static double johnson(const calculation *c, const curve_values *v)
{
    if (v->elastic < v->full / 2) {
        STEP(c, "column stress", "F = Fe, since Fe < Fc/2", "#", v->elastic, c->stress, v->source, v->elastic);
        return v->elastic;
    }
    const double e = c->k.elastic_modulus, stress = v->full * (1 - v->full * v->slenderness * v->slenderness / (4 * pi * pi * e));
    STEP(c, "column stress", "F = Fc (1 − Fc s² / (4 π² E))", "# × (1 − # × #² / (4 × π² × #))", stress, c->stress,
         v->source, v->full, v->full, v->slenderness, e);
    return stress;
}

static double three_halves(const calculation *c, const curve_values *v)
{
    const double q = v->full / c->k.compression_yield, intercept = q * c->k.column_intercept, e = c->k.elastic_modulus;
    STEP(c, "intercept", "Fi = Q × column intercept", "# × #", intercept, c->stress, same, q,
         c->k.column_intercept);
    const double transition = pi * sqrt(7 * e / (3 * intercept));
    STEP(c, "transition to Euler", "T = π √(7 E / (3 Fi))", "π × √(7 × # / (3 × #))", transition, "", v->source, e,
         intercept);
    if (v->slenderness >= transition) {
        const double stress = fmin(v->full, v->elastic);
        STEP(c, "column stress", "F = min(Fc, Fe), since s ≥ T", "min(#, #)", stress, c->stress, v->source, v->full, v->elastic);
        return stress;
    }
    const double stress = fmin(v->full, intercept * (1 - 4.0 / 7 * pow(v->slenderness / transition, 1.5)));
    STEP(c, "column stress", "F = min(Fc, Fi (1 − 4/7 (s/T)^1.5))", "min(#, # × (1 − 4/7 × (# / #)^1.5))", stress,
         c->stress, v->source, v->full, intercept, v->slenderness, transition);
    return stress;
}

static double aisc(const calculation *c, const curve_values *v)
{
    const bool inelastic = v->full / v->elastic <= 2.25;
    const double stress = inelastic ? pow(0.658, v->full / v->elastic) * v->full : 0.877 * v->elastic;
    if (inelastic)
        STEP(c, "column stress", "F = 0.658^(Fc/Fe) Fc, since Fc/Fe ≤ 2.25", "0.658^(# / #) × #", stress, c->stress,
             v->source, v->full, v->elastic, v->full);
    else
        STEP(c, "column stress", "F = 0.877 Fe, since Fc/Fe > 2.25", "0.877 × #", stress, c->stress, v->source, v->elastic);
    return stress;
}

static double european(const calculation *c, const curve_values *v)
{
    const double s = sqrt(v->full / v->elastic);
    STEP(c, "relative slenderness", "λ = √(Fc/Fe)", "√(# / #)", s, "", v->source, v->full, v->elastic);
    if (s <= 0.2) {
        STEP(c, "column stress", "F = Fc, since λ ≤ 0.2", "#", v->full, c->stress, v->source, v->full);
        return v->full;
    }
    const double phi = 0.5 * (1 + v->imperfection * (s - 0.2) + s * s);
    STEP(c, "help value", "φ = 0.5 (1 + α (λ − 0.2) + λ²)", "0.5 × (1 + # × (# − 0.2) + #²)", phi, "", v->source,
         v->imperfection, s, s);
    const double stress = v->full * fmin(1, 1 / (phi + sqrt(phi * phi - s * s)));
    STEP(c, "column stress", "F = Fc / (φ + √(φ² − λ²)), at most Fc", "# × min(1, 1 / (# + √(#² − #²)))", stress,
         c->stress, v->source, v->full, phi, phi, s);
    return stress;
}

static double euler(const calculation *c, const curve_values *v)
{
    const double stress = fmin(v->full, v->elastic);
    STEP(c, "column stress", "F = min(Fc, Fe)", "min(#, #)", stress, c->stress, v->source, v->full, v->elastic);
    return stress;
}

/* The steps of the curve's own formula. */
static double column_stress(const calculation *c, double slenderness)
{
    curve_values v = {.slenderness = slenderness, .full = c->tube.strength, .elastic = elastic_stress(c, slenderness)};
    switch ((rbow_curve)c->m.column_curve) {
#define BY_FORMULA(value_, formula_, name_, imperfection_, source_)                                            \
    case value_:                                                                                               \
        v.imperfection = imperfection_;                                                                        \
        v.source = source_;                                                                                    \
        return formula_(c, &v);
        RBOW_CURVE_LIST(BY_FORMULA)
        case RBOW_CURVE_OF_MATERIAL:
        case RBOW_CURVE_COUNT: break;
    }
    return NAN;
}

void column_steps(calculation *c)
{
    const double length = c->m.length;
    working_heading(c->w, "Column", "");
    c->bending_stiffness = c->k.elastic_modulus * c->tube.inertia;
    STEP(c, "bending stiffness", "EI", "# × #", c->bending_stiffness, c->units == UNITS_SI ? "N-mm^2" : "lbf-in^2",
         textbook, c->k.elastic_modulus, c->tube.inertia);
    c->stiffness_a = end_step(c, "stiffness of joint A", c->m.end_a);
    if (c->free_b)
        c->stiffness_b = RBOW_FREE;
    else
        c->stiffness_b = end_step(c, "stiffness of joint B", c->m.end_b);
    critical_load(c);
    const double effective = pi * sqrt(c->bending_stiffness / c->critical_load);
    STEP(c, "effective length", "L' = π √(EI / Pcr)", "π × √(# / #)", effective, c->length, "Timoshenko & Gere ch. 2",
         c->bending_stiffness, c->critical_load);
    const double radius = sqrt(c->tube.inertia / c->tube.area), slenderness = effective / radius;
    STEP(c, "radius of gyration", "r = √(I/A)", "√(# / #)", radius, c->length, textbook, c->tube.inertia, c->tube.area);
    STEP(c, "slenderness", "s = L'/r", "# / #", slenderness, "", textbook, effective, radius);
    STEP(c, "fixity", "c = (L/L')²", "(# / #)²", length * length / (effective * effective), "", textbook, length, effective);
    c->column_stress = column_stress(c, slenderness);
    c->column_load = c->column_stress * c->tube.area;
    STEP(c, "column load", "Pcol = F A", "# × #", c->column_load, c->force, textbook, c->column_stress, c->tube.area);
}
