#include "command/working_desk.h"

static const char yield_rule[] = "equivalent stress (von Mises) in the outer fibre";
static const char interaction_rule[] = "aircraft handbooks: Rc + √(Rb² + Rst²) = 1, round tube";

/* ---- units ---------------------------------------------------------------------------------------------- */

/* The dimensions whose shown unit would not fit the others. */
static const unit *coherent(dimension dim, unit_system units)
{
    if (units == UNITS_SI && dim == DIM_FORCE_PER_LENGTH) return unit_find(dim, "N/mm", 4);
    return unit_shown(dim, units);
}

double work_shown(const desk *d, dimension dim, double own)
{
    if (!isfinite(own) || dim == DIM_ANGLE || dim == DIM_NONE) return own;
    if (dim == DIM_ROTATIONAL_STIFFNESS) dim = DIM_MOMENT; /* a radian is no unit of its own */
    return unit_from_own(coherent(dim, d->units), own);
}

static void convert(const desk *d, const field_list *list, size_t from, void *record)
{
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        if ((f->kind != FIELD_NUMBER && f->kind != FIELD_EITHER) || f->dimension == DIM_DENSITY) continue;
        double *value = (double *)(void *)((char *)record + f->offset - from);
        if (fabs(*value) < DBL_MAX / 4) *value = work_shown(d, f->dimension, *value);
    }
}

static double or_else(double value, double fallback)
{
    return value <= RBOW_UNSET ? fallback : value;
}

static desk desk_of(working *w, const rbow_member *m, const rbow_material *k, const rbow_result *r, unit_system units)
{
    const bool si = units == UNITS_SI;
    desk d = {.w = w, .units = units, .m = *m, .k = *k, .own_member = m, .own_material = k, .own_result = r,
              .length = unit_shown(DIM_LENGTH, units)->name, .force = unit_shown(DIM_FORCE, units)->name,
              .stress = unit_shown(DIM_STRESS, units)->name, .moment = unit_shown(DIM_MOMENT, units)->name,
              .area = unit_shown(DIM_AREA, units)->name, .inertia = unit_shown(DIM_INERTIA, units)->name,
              .modulus = unit_shown(DIM_SECTION_MODULUS, units)->name,
              .stiffness = si ? "N-mm/rad" : "in-lbf/rad", .spread = si ? "N/mm" : "lbf/in"};
    d.free_b = m->end_b >= RBOW_FREE && m->end_b <= RBOW_FREE;
    d.m.point_at = or_else(m->point_at, m->length / 2);
    d.m.bow_at = or_else(m->bow_at, m->length / 2);
    d.m.factor_yield = or_else(m->factor_yield, m->factor);
    if (d.m.column_curve == RBOW_CURVE_OF_MATERIAL) d.m.column_curve = (int)k->column_curve;
    convert(&d, &case_list, offsetof(load_case, member), &d.m);
    convert(&d, &material_list, 0, &d.k);
    d.weight_load = work_shown(&d, DIM_FORCE_PER_LENGTH, r->weight / m->length * m->vertical_g * cos(m->slope));
    return d;
}

/* ---- what is locked in, and the weight ------------------------------------------------------------------ */

static void locked_in(desk *d)
{
    const rbow_member *m = &d->m;
    const double e = d->k.elastic_modulus, area = d->tube.area;
    if (!(fabs(m->gap) > 0)) return;
    working_heading(d->w, "Locked-in axial force", "");
    d->tension = m->gap / (m->length / (e * area) + 1 / m->gap_stiffness);
    if (isinf(m->gap_stiffness))
        STEP(d, "locked-in tension", "T0 = gap E A / L, rigid surroundings", "# × # × # / #", d->tension, d->force,
             "Hooke's law", m->gap, e, area, m->length);
    else
        STEP(d, "locked-in tension", "T0 = gap / (L/(E A) + 1/k)", "# / (# / (# × #) + 1 / #)", d->tension, d->force,
             "Hooke's law", m->gap, m->length, e, area, m->gap_stiffness);
}

static void own_weight(const desk *d)
{
    if (!(fabs(d->weight_load) > 0)) return;
    const double weight = work_shown(d, DIM_MASS, d->own_result->weight) * (d->units == UNITS_SI ? 9.80665 : 1);
    working_heading(d->w, "Own weight", "");
    if (d->units == UNITS_SI)
        STEP(d, "weight of the tube", "W = 9.80665 m/s² × density × A L", "9.80665 × # / 10^9 × # × #", weight, d->force, "material",
             work_shown(d, DIM_DENSITY, d->k.density), d->tube.area, d->m.length);
    else
        STEP(d, "weight of the tube", "W = density × A L", "# × # × #", weight, d->force, "material", d->k.density, d->tube.area,
             d->m.length);
    STEP(d, "across the tube", "w = W g cos(slope) / L", "# × # × cos(#°) / #", d->weight_load, d->spread, "statics", weight,
         d->m.vertical_g, d->m.slope * 180 / work_pi, d->m.length);
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

static void column_check(const desk *d, const rbow_limit *l)
{
    const double tension = work_shown(d, DIM_FORCE, l->tension), push = d->m.compression;
    working_heading(d->w, words[RBOW_BY_COLUMN].heading, "");
    if (push > 0 && l->factor > 0)
        STEP(d, words[RBOW_BY_COLUMN].factor, "n_c = (Pcol + T) / C; locked-in tension is not counted as help", "(# + #) / #", l->factor, "",
             "column load over push", d->column_load, tension, push);
    else
        STEP(d, words[RBOW_BY_COLUMN].factor, l->factor > 0 ? "no push: no limit" : "the squeeze alone reaches it", "#",
             l->factor, "", "column load over push", l->factor);
}

static double axial_step(const desk *d, const rbow_limit *l)
{
    const double tension = work_shown(d, DIM_FORCE, l->tension), axial = work_shown(d, DIM_FORCE, l->axial);
    STEP(d, "axial load, push positive", "P = λ C − T", "# × # − #", axial, d->force, "statics", l->factor, d->m.compression, tension);
    return axial;
}

static double twist_step(const desk *d, const work_section *s, const rbow_limit *l)
{
    const double torque = work_shown(d, DIM_MOMENT, fabs(l->torque));
    if (!(torque > 0)) return 0;
    const double shear = torque * (s->od / 2) / (2 * s->inertia);
    STEP(d, "shear of the torque", "τ = λ T (D/2) / (2 I)", "# × (# / 2) / (2 × #)", shear, d->stress, "mechanics of materials",
         torque, s->od, s->inertia);
    return shear;
}

static void yield_use(const desk *d, const work_section *s, double moment, const rbow_limit *l)
{
    const double axial = work_shown(d, DIM_FORCE, l->axial), shear = twist_step(d, s, l);
    const double pressed = axial / s->area + moment / s->modulus, pulled = moment / s->modulus - axial / s->area;
    const double use_pressed = hypot(fmax(pressed, 0), sqrt(3.0) * shear) / s->strength;
    const double use_pulled = hypot(fmax(pulled, 0), sqrt(3.0) * shear) / s->yield;
    STEP(d, "stress of the pressed fibre", "σ_c = P/A + M/S", "# / # + # / #", pressed, d->stress, "mechanics of materials", axial,
         s->area, moment, s->modulus);
    STEP(d, "stress of the pulled fibre", "σ_t = M/S − P/A", "# / # − # / #", pulled, d->stress, "mechanics of materials", moment,
         s->modulus, axial, s->area);
    STEP(d, "use of the pressed fibre", "√(max(σ_c, 0)² + 3 τ²) / Fc", "√(max(#, 0)² + 3 × #²) / #", use_pressed, "", yield_rule,
         pressed, shear, s->strength);
    STEP(d, "use of the pulled fibre", "√(max(σ_t, 0)² + 3 τ²) / Ft", "√(max(#, 0)² + 3 × #²) / #", use_pulled, "", yield_rule,
         pulled, shear, s->yield);
    STEP(d, "use at this load factor; 1 is the limit", "the larger", "max(#, #)", fmax(use_pressed, use_pulled), "", yield_rule,
         use_pressed, use_pulled);
}

static void interaction_use(const desk *d, const work_section *s, double moment, const rbow_limit *l)
{
    const double axial = work_shown(d, DIM_FORCE, l->axial), shear = twist_step(d, s, l), bending = moment / s->modulus;
    STEP(d, "bending stress", "σ_b = M/S", "# / #", bending, d->stress, "mechanics of materials", moment, s->modulus);
    STEP(d, "use at this load factor; 1 is the limit", "P/Pcol + √(σ_b² + 3 τ²) / Fc", "# / # + √(#² + 3 × #²) / #",
         axial / d->column_load + hypot(bending, sqrt(3.0) * shear) / s->strength, "", interaction_rule, axial, d->column_load,
         bending, shear, s->strength);
}

/* Where there is no place to look at, the factor comes from something else. */
static void placeless(const desk *d, int check, const rbow_limit *l)
{
    const double tension = work_shown(d, DIM_FORCE, l->tension), push = d->m.compression;
    const double load = check == RBOW_BY_YIELD ? d->critical_load : d->column_load;
    if (isinf(l->factor))
        STEP(d, words[check].factor, "no load factor brings it there", "#", l->factor, "", "search", l->factor);
    else if (push > 0 && l->factor > 0)
        STEP(d, words[check].factor, check == RBOW_BY_YIELD ? "(Pcr + T) / C: it buckles before a fibre yields" : "(Pcol + T) / C",
             "(# + #) / #", l->factor, "", "critical load over push", load, tension, push);
    else
        STEP(d, words[check].factor, "the locked-in state alone is at the limit", "#", l->factor, "", "search", l->factor);
}

static void stress_check(const desk *d, int check, const rbow_limit *l, bool governs)
{
    const work_section *s = l->in_weld_zone ? &d->weld : &d->tube;
    working_heading(d->w, words[check].heading, "");
    const bool buckles_first = l->factor > 0 && l->level < 1 - 1e-6;
    if (isnan(l->at) || buckles_first) {
        placeless(d, check, l);
        return;
    }
    STEP(d, words[check].factor, l->factor > 0 ? "λ at which the use below reaches 1"
                                              : "0: what is locked in alone is at the limit or past it", "by search", l->factor, "", "root of the use", 0);
    axial_step(d, l);
    double moment = work_shown(d, DIM_MOMENT, hypot(l->moment_up, l->moment_right));
    if (governs) {
        moment = work_moment(d, l);
    } else {
        STEP(d, "place", "x, from A", "by search", work_shown(d, DIM_LENGTH, l->at), d->length, "largest use along the tube", 0);
        STEP(d, "moment there", "from the beam-column's equation; another check governs", "by solution", moment, d->moment, "as for the check that governs", 0);
    }
    if (check == RBOW_BY_YIELD)
        yield_use(d, s, moment, l);
    else
        interaction_use(d, s, moment, l);
}

static void margin(const desk *d, const rbow_result *r)
{
    const rbow_member *m = &d->m;
    working_heading(d->w, "Margin", "");
    const bool own = fabs(m->factor_yield - m->factor) > 0; /* a load factor of its own against yield */
    STEP(d, "load factor asked for", "n", "#", m->factor, "", "load case, or --factor", m->factor);
    if (own)
        STEP(d, "and against yield", "n_y", "#", m->factor_yield, "", "load case", m->factor_yield);
    STEP(d, "margin", own ? "min(yield factor/n_y, column factor/n, interaction factor/n) − 1"
                          : "min(yield factor/n, column factor/n, interaction factor/n) − 1", "min(# / #, # / #, # / #) − 1", r->margin, "",
         "least of the three", r->yield_factor, m->factor_yield, r->column_factor, m->factor, r->interaction_factor, m->factor);
    if (!(fabs(m->gap) > 0 || m->miss_a > 0 || m->miss_b > 0)) return;
    STEP(d, "margin without misses and gap", "the same case, nothing forced", "by checking it again", r->margin_unforced, "", "search", 0);
    if (isfinite(r->margin_unforced) && isfinite(r->margin))
        STEP(d, "what the forced fit costs", "their difference", "# − #", r->margin_unforced - r->margin, "", "difference",
             r->margin_unforced, r->margin);
}

bool working_of(working *w, const rbow_member *member, const rbow_material *material, const rbow_result *result,
                unit_system units)
{
    desk d = desk_of(w, member, material, result, units);
    rbow_limit limits[3];
    for (int check = RBOW_BY_COLUMN; check <= RBOW_BY_INTERACTION; check++)
        if (rbow_member_limit(member, material, check, &limits[check]) != RBOW_OK) return false;
    work_tube(&d);
    work_column(&d);
    locked_in(&d);
    own_weight(&d);
    working_heading(d.w, "Run load", "");
    STEP(&d, "push as given", "C, pull negative", "#", d.m.compression, d.force, "load case", d.m.compression);
    column_check(&d, &limits[RBOW_BY_COLUMN]);
    stress_check(&d, RBOW_BY_INTERACTION, &limits[RBOW_BY_INTERACTION], result->governs == RBOW_BY_INTERACTION);
    stress_check(&d, RBOW_BY_YIELD, &limits[RBOW_BY_YIELD], result->governs == RBOW_BY_YIELD);
    margin(&d, result);
    return true;
}
