#include "working/tube_steps.h"

#include <railbow/forced_fit.h>

static const char textbook[] = "mechanics of materials";
static const char same[] = "material";
static const char wall_rule[] = "ANSI/AISC 360-16 table B4.1a, E7.2";

void wall_reduction_steps(const calculation *c, rbow_strength *s, double yield, const char *const words[3])
{
    const rbow_section *tube = &s->section;
    const double ratio = tube->diameter_to_wall * yield / c->k.elastic_modulus;
    double q;
    rbow_wall_reduction(tube->diameter_to_wall, c->k.elastic_modulus, yield, &q);
    STEP(c, words[0], "ρ = (D/t) Fy / E", "# / # × # / #", ratio, "", wall_rule, tube->od, tube->wall, yield,
         c->k.elastic_modulus);
    if (ratio <= RBOW_WALL_RATIO_WHOLE)
        STEP(c, words[1], "Q = 1, since ρ ≤ 0.11", "1", q, "", wall_rule, 0);
    else
        STEP(c, words[1], "Q = min(1, 0.038/ρ + 2/3)", "min(1, 0.038 / # + 2/3)", q, "", wall_rule, ratio);
    s->compression_yield = q * yield;
    STEP(c, words[2], "Fc = Q Fy", "# × #", s->compression_yield, c->stress, wall_rule, q, yield);
}

void section_steps(const calculation *c, rbow_tube_size tube, rbow_section *s)
{
    rbow_section_of(tube.od, tube.wall, s);
    STEP(c, "area", "A = π t (D − t)", "π × # × (# − #)", s->area, c->area, textbook, s->wall, s->od, s->wall);
    STEP(c, "second moment of area", "I = A ((D − t)² + t²) / 8", "# × ((# − #)² + #²) / 8", s->inertia, c->inertia,
         textbook, s->area, s->od, s->wall, s->wall);
    STEP(c, "section modulus", "S = I / (D/2)", "# / (# / 2)", s->section_modulus, c->modulus, textbook, s->inertia, s->od);
}

static void weld_zone(calculation *c)
{
    static const char *const words[] = {"wall ratio of the weld zone", "wall reduction of the weld zone",
                                        "compression strength of the weld zone"};
    const rbow_member *m = &c->m;
    const rbow_tube_size size = rbow_weld_zone_size((rbow_tube_size){m->od, m->wall}, m->dressed);
    rbow_strength *s = &c->weld;
    *s = c->tube;
    if (!(m->weld_zone > 0)) return;
    working_heading(c->w, "Weld zone", "");
    STEP(c, "length of the weld zone", "from each joint", "#", m->weld_zone, c->length, c->given, m->weld_zone);
    STEP(c, "yield there", "Fw, both fibres", "#", c->k.weld_yield, c->stress, same, c->k.weld_yield);
    if (m->dressed > 0) {
        STEP(c, "outside diameter, dressed", "D − 2 g", "# − 2 × #", size.od, c->length, c->given, m->od, m->dressed);
        STEP(c, "wall, dressed", "t − g", "# − #", size.wall, c->length, c->given, m->wall, m->dressed);
        section_steps(c, size, &s->section);
    }
    wall_reduction_steps(c, s, c->k.weld_yield, words);
    s->yield = c->k.weld_yield;
}

void tube_steps(calculation *c)
{
    static const char *const words[] = {"wall ratio", "wall reduction", "compression strength of the tube"};
    const rbow_member *m = &c->m;
    const rbow_material *k = &c->k;
    working_heading(c->w, "Material", k->source);
    STEP(c, "elastic modulus", "E", "#", k->elastic_modulus, c->stress, same, k->elastic_modulus);
    STEP(c, "yield", "Ft, tension", "#", k->yield, c->stress, same, k->yield);
    STEP(c, "compression yield", "Fy", "#", k->compression_yield, c->stress, same, k->compression_yield);
    working_heading(c->w, "Tube", "");
    STEP(c, "outside diameter", "D", "#", m->od, c->length, c->given, m->od);
    STEP(c, "wall", "t", "#", m->wall, c->length, c->given, m->wall);
    STEP(c, "length, joint to joint", "L", "#", m->length, c->length, c->given, m->length);
    c->tube.yield = k->yield;
    section_steps(c, (rbow_tube_size){m->od, m->wall}, &c->tube.section);
    wall_reduction_steps(c, &c->tube, k->compression_yield, words);
    weld_zone(c);
}

double weight_step(const calculation *c)
{
    const double weight = shown_value(c, DIM_MASS, c->own_result->weight) * (c->units == UNITS_SI ? 9.80665 : 1);
    if (c->units == UNITS_SI)
        STEP(c, "weight of the tube", "W = 9.80665 m/s² × density × A L", "9.80665 × # / 10^9 × # × #", weight, c->force, same,
             shown_value(c, DIM_DENSITY, c->k.density), c->tube.section.area, c->m.length);
    else
        STEP(c, "weight of the tube", "W = density × A L", "# × # × #", weight, c->force, same, c->k.density, c->tube.section.area,
             c->m.length);
    return weight;
}

void locked_in_steps(calculation *c)
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

void own_weight_steps(const calculation *c)
{
    if (!(fabs(c->weight_load) > 0)) return;
    working_heading(c->w, "Own weight", "");
    const double weight = weight_step(c);
    STEP(c, "across the tube", "w = W g cos(slope) / L", "# × # × cos(#°) / #", c->weight_load, c->spread, "statics", weight,
         c->m.vertical_g, c->m.slope * 180 / pi, c->m.length);
}
