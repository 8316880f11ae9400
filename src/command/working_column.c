#include "command/working_desk.h"

static const char textbook[] = "mechanics of materials";
static const char same[] = "material";
static const char wall_rule[] = "AISC 360 table B4.1a, E7";
static const char stability[] = "Timoshenko & Gere, Theory of Elastic Stability, ch. 2";

static void wall_reduction(const desk *d, work_section *s, double yield, const char *const words[3])
{
    const double ratio = s->od / s->wall * yield / d->k.elastic_modulus;
    const bool whole = ratio <= 0.11;
    const double q = whole ? 1 : fmin(1, 0.038 / ratio + 2.0 / 3);
    STEP(d, words[0], "ρ = (D/t) Fy / E", "# / # × # / #", ratio, "", wall_rule, s->od, s->wall, yield,
         d->k.elastic_modulus);
    if (whole)
        STEP(d, words[1], "Q = 1, since ρ ≤ 0.11", "1", q, "", wall_rule, 0);
    else
        STEP(d, words[1], "Q = min(1, 0.038/ρ + 2/3)", "min(1, 0.038 / # + 2/3)", q, "", wall_rule, ratio);
    s->strength = q * yield;
    STEP(d, words[2], "Fc = Q Fy", "# × #", s->strength, d->stress, wall_rule, q, yield);
}

static void section(const desk *d, work_section *s)
{
    const double mean = s->od - s->wall;
    s->area = work_pi * s->wall * mean;
    STEP(d, "area", "A = π t (D − t)", "π × # × (# − #)", s->area, d->area, textbook, s->wall, s->od, s->wall);
    s->inertia = s->area * (mean * mean + s->wall * s->wall) / 8;
    STEP(d, "second moment of area", "I = A ((D − t)² + t²) / 8", "# × ((# − #)² + #²) / 8", s->inertia, d->inertia,
         textbook, s->area, s->od, s->wall, s->wall);
    s->modulus = s->inertia / (s->od / 2);
    STEP(d, "section modulus", "S = I / (D/2)", "# / (# / 2)", s->modulus, d->modulus, textbook, s->inertia, s->od);
}

static void weld_zone(desk *d)
{
    static const char *const words[] = {"wall ratio of the weld zone", "wall reduction of the weld zone",
                                        "compression strength of the weld zone"};
    const rbow_member *m = &d->m;
    work_section *s = &d->weld;
    *s = d->tube;
    if (!(m->weld_zone > 0)) return;
    working_heading(d->w, "Weld zone", "");
    STEP(d, "length of the weld zone", "from each joint", "#", m->weld_zone, d->length, "load case", m->weld_zone);
    STEP(d, "yield there", "Fw, both fibres", "#", d->k.weld_yield, d->stress, same, d->k.weld_yield);
    s->od = m->od - 2 * m->dressed;
    s->wall = m->wall - m->dressed;
    if (m->dressed > 0) {
        STEP(d, "outside diameter, dressed", "D − 2 g", "# − 2 × #", s->od, d->length, "load case", m->od, m->dressed);
        STEP(d, "wall, dressed", "t − g", "# − #", s->wall, d->length, "load case", m->wall, m->dressed);
        section(d, s);
    }
    wall_reduction(d, s, d->k.weld_yield, words);
    s->yield = d->k.weld_yield;
}

void work_tube(desk *d)
{
    static const char *const words[] = {"wall ratio", "wall reduction", "compression strength of the tube"};
    const rbow_member *m = &d->m;
    const rbow_material *k = &d->k;
    working_heading(d->w, "Material", k->source);
    STEP(d, "elastic modulus", "E", "#", k->elastic_modulus, d->stress, same, k->elastic_modulus);
    STEP(d, "yield", "Ft, tension", "#", k->yield, d->stress, same, k->yield);
    STEP(d, "compression yield", "Fy", "#", k->compression_yield, d->stress, same, k->compression_yield);
    working_heading(d->w, "Tube", "");
    STEP(d, "outside diameter", "D", "#", m->od, d->length, "load case", m->od);
    STEP(d, "wall", "t", "#", m->wall, d->length, "load case", m->wall);
    STEP(d, "length, joint to joint", "L", "#", m->length, d->length, "load case", m->length);
    d->tube = (work_section){.od = m->od, .wall = m->wall, .yield = k->yield};
    section(d, &d->tube);
    wall_reduction(d, &d->tube, k->compression_yield, words);
    weld_zone(d);
}

/* ---- the column ------------------------------------------------------------------------------------- */

static double end_step(const desk *d, const char *step, double end)
{
    const double per_length = d->bending_stiffness / d->m.length;
    if (end <= RBOW_WELDED) {
        const double u = work_pi * sqrt(2.0), k = -u / tan(u / 2) * per_length;
        STEP(d, step, "k = −u/tan(u/2) EI/L, u = π√2: welded, fixity 2", "−π × √(2) / tan(π × √(2) / 2) × # / #", k,
             d->stiffness, "load case; Timoshenko & Gere ch. 2", d->bending_stiffness, d->m.length);
        return k;
    }
    STEP(d, step, isinf(end) ? "k, fixed: cannot turn" : end > 0 ? "k" : "k = 0, pinned: turns freely", "#", end,
         d->stiffness, "load case", end);
    return end;
}

static const char *characteristic(const desk *d)
{
    const bool fixed_a = isinf(d->stiffness_a), fixed_b = isinf(d->stiffness_b);
    if (d->free_b)
        return fixed_a ? "least u > 0 with cos u = 0" : "least u > 0 with u tan u = a, a = k_A L/EI";
    if (fixed_a && fixed_b) return "least u > 0 with 2 − 2 cos u − u sin u = 0";
    if (fixed_a || fixed_b)
        return "least u > 0 with u (sin u − u cos u) + a (2 − 2 cos u − u sin u) = 0, a = k L/EI of the other end";
    if (!(d->stiffness_a > 0 || d->stiffness_b > 0)) return "least u > 0 with sin u = 0";
    return "least u > 0 with u³ sin u + (a + b) u (sin u − u cos u) + a b (2 − 2 cos u − u sin u) = 0, "
           "a = k_A L/EI, b = k_B L/EI";
}

static void critical_load(desk *d)
{
    const double length = d->m.length;
    const double u = sqrt(work_shown(d, DIM_FORCE, d->own_result->critical_load) * length * length / d->bending_stiffness);
    STEP(d, "buckling angle", characteristic(d), "by search", u, "", stability, 0);
    d->critical_load = u * u * d->bending_stiffness / (length * length);
    STEP(d, "elastic critical load", "Pcr = u² EI / L²", "#² × # / #²", d->critical_load, d->force, "Timoshenko & Gere ch. 2", u,
         d->bending_stiffness, length);
}

static double euler(const desk *d, double slenderness)
{
    const double stress = work_pi * work_pi * d->k.elastic_modulus / (slenderness * slenderness);
    STEP(d, "elastic column stress", "Fe = π² E / s²", "π² × # / #²", stress, d->stress, "Euler", d->k.elastic_modulus,
         slenderness);
    return stress;
}

static double johnson(const desk *d, double s, double full, double elastic)
{
    static const char source[] = "Johnson's parabola, any machine-design text";
    if (elastic < full / 2) {
        STEP(d, "column stress", "F = Fe, since Fe < Fc/2", "#", elastic, d->stress, source, elastic);
        return elastic;
    }
    const double e = d->k.elastic_modulus, stress = full * (1 - full * s * s / (4 * work_pi * work_pi * e));
    STEP(d, "column stress", "F = Fc (1 − Fc s² / (4 π² E))", "# × (1 − # × #² / (4 × π² × #))", stress, d->stress,
         source, full, full, s, e);
    return stress;
}

static double three_halves(const desk *d, double s, double full, double elastic)
{
    static const char source[] = "aircraft tubing handbooks (ANC-5)";
    const double q = full / d->k.compression_yield, intercept = q * d->k.column_intercept, e = d->k.elastic_modulus;
    STEP(d, "intercept", "Fi = Q × column intercept", "# × #", intercept, d->stress, same, q,
         d->k.column_intercept);
    const double transition = work_pi * sqrt(7 * e / (3 * intercept));
    STEP(d, "transition to Euler", "T = π √(7 E / (3 Fi))", "π × √(7 × # / (3 × #))", transition, "", source, e,
         intercept);
    if (s >= transition) {
        const double stress = fmin(full, elastic);
        STEP(d, "column stress", "F = min(Fc, Fe), since s ≥ T", "min(#, #)", stress, d->stress, source, full, elastic);
        return stress;
    }
    const double stress = fmin(full, intercept * (1 - 4.0 / 7 * pow(s / transition, 1.5)));
    STEP(d, "column stress", "F = min(Fc, Fi (1 − 4/7 (s/T)^1.5))", "min(#, # × (1 − 4/7 × (# / #)^1.5))", stress,
         d->stress, source, full, intercept, s, transition);
    return stress;
}

static double aisc(const desk *d, double full, double elastic)
{
    static const char source[] = "AISC 360 E3, nominal";
    const bool inelastic = full / elastic <= 2.25;
    const double stress = inelastic ? pow(0.658, full / elastic) * full : 0.877 * elastic;
    if (inelastic)
        STEP(d, "column stress", "F = 0.658^(Fc/Fe) Fc, since Fc/Fe ≤ 2.25", "0.658^(# / #) × #", stress, d->stress,
             source, full, elastic, full);
    else
        STEP(d, "column stress", "F = 0.877 Fe, since Fc/Fe > 2.25", "0.877 × #", stress, d->stress, source, elastic);
    return stress;
}

static double european(const desk *d, int curve, double full, double elastic)
{
    static const char source[] = "EN 1993-1-1 6.3.1.2, table 6.1";
    static const double imperfections[] = {0.13, 0.21, 0.34, 0.49, 0.76};
    const double imperfection = imperfections[curve - RBOW_CURVE_EN_A0], s = sqrt(full / elastic);
    STEP(d, "relative slenderness", "λ = √(Fc/Fe)", "√(# / #)", s, "", source, full, elastic);
    if (s <= 0.2) {
        STEP(d, "column stress", "F = Fc, since λ ≤ 0.2", "#", full, d->stress, source, full);
        return full;
    }
    const double phi = 0.5 * (1 + imperfection * (s - 0.2) + s * s);
    STEP(d, "help value", "φ = 0.5 (1 + α (λ − 0.2) + λ²)", "0.5 × (1 + # × (# − 0.2) + #²)", phi, "", source,
         imperfection, s, s);
    const double stress = full * fmin(1, 1 / (phi + sqrt(phi * phi - s * s)));
    STEP(d, "column stress", "F = Fc / (φ + √(φ² − λ²)), at most Fc", "# × min(1, 1 / (# + √(#² − #²)))", stress,
         d->stress, source, full, phi, phi, s);
    return stress;
}

static double column_stress(const desk *d, double s)
{
    const int curve = d->m.column_curve;
    const double full = d->tube.strength, elastic = euler(d, s);
    switch (curve) {
        case RBOW_CURVE_JOHNSON: return johnson(d, s, full, elastic);
        case RBOW_CURVE_THREE_HALVES: return three_halves(d, s, full, elastic);
        case RBOW_CURVE_AISC: return aisc(d, full, elastic);
        case RBOW_CURVE_EULER:
            STEP(d, "column stress", "F = min(Fc, Fe)", "min(#, #)", fmin(full, elastic), d->stress, "Euler", full,
                 elastic);
            return fmin(full, elastic);
        default: return european(d, curve, full, elastic);
    }
}

void work_column(desk *d)
{
    const double length = d->m.length;
    working_heading(d->w, "Column", "");
    d->bending_stiffness = d->k.elastic_modulus * d->tube.inertia;
    STEP(d, "bending stiffness", "EI", "# × #", d->bending_stiffness, d->units == UNITS_SI ? "N-mm^2" : "lbf-in^2",
         textbook, d->k.elastic_modulus, d->tube.inertia);
    d->stiffness_a = end_step(d, "stiffness of joint A", d->m.end_a);
    if (d->free_b)
        d->stiffness_b = RBOW_FREE;
    else
        d->stiffness_b = end_step(d, "stiffness of joint B", d->m.end_b);
    critical_load(d);
    const double effective = work_pi * sqrt(d->bending_stiffness / d->critical_load);
    STEP(d, "effective length", "L' = π √(EI / Pcr)", "π × √(# / #)", effective, d->length, "Timoshenko & Gere ch. 2",
         d->bending_stiffness, d->critical_load);
    const double radius = sqrt(d->tube.inertia / d->tube.area), slenderness = effective / radius;
    STEP(d, "radius of gyration", "r = √(I/A)", "√(# / #)", radius, d->length, textbook, d->tube.inertia, d->tube.area);
    STEP(d, "slenderness", "s = L'/r", "# / #", slenderness, "", textbook, effective, radius);
    STEP(d, "fixity", "c = (L/L')²", "(# / #)²", length * length / (effective * effective), "", textbook, length, effective);
    d->column_stress = column_stress(d, slenderness);
    d->column_load = d->column_stress * d->tube.area;
    STEP(d, "column load", "Pcol = F A", "# × #", d->column_load, d->force, textbook, d->column_stress, d->tube.area);
}
