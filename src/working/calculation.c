#include "working/calculation.h"

#include "cases/case_table.h"
#include "cases/material_table.h"

/* The dimensions whose shown unit is not coherent with the others. */
static const unit *coherent(dimension dim, unit_system units)
{
    if (units == UNITS_SI && dim == DIM_FORCE_PER_LENGTH) return unit_find(dim, "N/mm", 4);
    return unit_shown(dim, units);
}

double shown_value(const calculation *c, dimension dim, double own)
{
    if (!isfinite(own) || dim == DIM_ANGLE || dim == DIM_NONE) return own;
    if (dim == DIM_ROTATIONAL_STIFFNESS) dim = DIM_MOMENT; /* the radian is 1 */
    return unit_from_own(coherent(dim, c->units), own);
}

/* Given: from, size  where the record lies in that of the list */
static void convert(const calculation *c, const field_list *list, size_t from, size_t size, void *record)
{
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        if ((f->kind != FIELD_NUMBER && f->kind != FIELD_EITHER) || f->dimension == DIM_DENSITY) continue;
        if (f->offset < from || f->offset >= from + size) continue;
        double *value = (double *)(void *)((char *)record + f->offset - from);
        if (fabs(*value) < DBL_MAX / 16) *value = shown_value(c, f->dimension, *value);
    }
}

calculation calculation_of(working *w, const rbow_member *m, const rbow_material *k, const rbow_result *r,
                           unit_system units)
{
    const bool si = units == UNITS_SI;
    calculation c = {.w = w, .units = units, .m = rbow_member_resolved(m, k), .k = *k, .own_member = m, .own_material = k, .own_result = r, .given = "load case",
              .length = unit_shown(DIM_LENGTH, units)->name, .force = unit_shown(DIM_FORCE, units)->name,
              .stress = unit_shown(DIM_STRESS, units)->name, .moment = unit_shown(DIM_MOMENT, units)->name,
              .area = unit_shown(DIM_AREA, units)->name, .inertia = unit_shown(DIM_INERTIA, units)->name,
              .modulus = unit_shown(DIM_SECTION_MODULUS, units)->name,
              .stiffness = si ? "N-mm/rad" : "in-lbf/rad", .spread = si ? "N/mm" : "lbf/in"};
    c.free_b = m->end_b >= RBOW_FREE && m->end_b <= RBOW_FREE;
    convert(&c, &case_list, offsetof(load_case, member), sizeof c.m, &c.m);
    convert(&c, &material_list, 0, sizeof c.k, &c.k);
    double level[2];
    rbow_clock_components(1, m->slope, level);
    c.weight_load = shown_value(&c, DIM_FORCE_PER_LENGTH, r->weight / m->length * m->vertical_g * level[0]);
    return c;
}
