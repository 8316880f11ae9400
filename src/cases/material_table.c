#include "cases/material_table.h"

#include "cases/case_words.h"

#include <math.h>

#define STRENGTH(name_, rule_, fallback_, meaning_)                                                            \
    {.name = #name_, .kind = FIELD_NUMBER, .dimension = DIM_STRESS, .offset = offsetof(rbow_material, name_),  \
     .fallback = NAN, .most = INFINITY, .rule = FIELD_ABOVE | (rule_), .fallback_text = fallback_,             \
     .meaning = meaning_}

static const field material_fields[] = {
    {.name = "material", .kind = FIELD_TEXT, .offset = offsetof(rbow_material, name), .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "name that load cases use; several rows may share it if they serve different walls"},
    {.name = "wall_over", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(rbow_material, wall_over),
     .most = INFINITY, .fallback_text = "0", .meaning = "the row serves walls above this value"},
    {.name = "wall_up_to", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH,
     .offset = offsetof(rbow_material, wall_up_to), .fallback = INFINITY, .most = INFINITY, .rule = FIELD_ABOVE,
     .fallback_text = "no limit", .meaning = "and walls up to this value"},
    STRENGTH(elastic_modulus, FIELD_REQUIRED, "", "modulus of elasticity, E"),
    STRENGTH(shear_modulus, 0, "elastic_modulus/2.6", "shear modulus, G; for the record, no result uses it"),
    {.name = "density", .kind = FIELD_NUMBER, .dimension = DIM_DENSITY, .offset = offsetof(rbow_material, density),
     .most = INFINITY, .rule = FIELD_REQUIRED | FIELD_ABOVE, .fallback_text = "", .meaning = "weight per volume"},
    STRENGTH(yield, FIELD_REQUIRED, "", "tension yield"),
    STRENGTH(compression_yield, 0, "yield", "compression yield"),
    STRENGTH(ultimate, 0, "not known", "tension ultimate; for the record, no result uses it"),
    STRENGTH(weld_yield, 0, "yield", "yield of both fibres in a weld zone"),
    STRENGTH(column_intercept, 0, "compression_yield", "stress of the three-halves curve at slenderness 0"),
    {.name = "column_curve", .kind = FIELD_WORD, .offset = offsetof(rbow_material, column_curve),
     .fallback = RBOW_CURVE_JOHNSON, .words = curve_words, .fallback_text = "johnson",
     .meaning = "column curve of load cases that name none"},
    {.name = "source", .kind = FIELD_TEXT, .offset = offsetof(rbow_material, source), .fallback_text = "",
     .meaning = "source of the numbers"},
};

const field_list material_list = {
    .what = "material",
    .fields = material_fields,
    .count = sizeof material_fields / sizeof *material_fields,
    .record_size = sizeof(rbow_material),
};
