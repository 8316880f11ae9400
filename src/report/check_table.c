#include "report/check_table.h"

#include <string.h>

const field_word verdict_words[] = {{"holds", VERDICT_HOLDS}, {"short", VERDICT_SHORT}, {NULL, 0}};
const field_word governs_words[] = {{"column", GOVERNS_COLUMN},
                                    {"yield", GOVERNS_YIELD},
                                    {"interaction", GOVERNS_INTERACTION},
                                    {"none", GOVERNS_NONE},
                                    {NULL, 0}};

#define TEXT(name_, at, meaning_)                                                                              \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(check_row, at), .meaning = meaning_}
#define WORD(at, words_, meaning_)                                                                             \
    {.name = #at, .kind = FIELD_WORD, .offset = offsetof(check_row, at), .words = words_, .meaning = meaning_}
#define NUMBER(at, dimension_, meaning_)                                                                       \
    {.name = #at, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = offsetof(check_row, at),            \
     .meaning = meaning_}

static const field check_fields[] = {
    TEXT("case", name, "name of the row"),
    NUMBER(od, DIM_LENGTH, "outside diameter"),
    NUMBER(wall, DIM_LENGTH, "wall thickness"),
    TEXT("material", material, "name in the materials file"),
    WORD(verdict, verdict_words, "holds if the margin is 0 or more, else short"),
    NUMBER(margin, DIM_NONE, "least of each load factor over the one asked for, less 1"),
    WORD(governs, governs_words, "which check gives it: column, yield, interaction or none"),
    NUMBER(margin_unforced, DIM_NONE, "the margin without misses and gap"),
    NUMBER(yield_factor, DIM_NONE, "run load times this brings the first fibre to yield"),
    NUMBER(column_factor, DIM_NONE, "run load times this is the column load of the straight tube"),
    NUMBER(interaction_factor, DIM_NONE, "run load times this uses up column load and bending together"),
    NUMBER(area, DIM_AREA, "of the tube's wall"),
    NUMBER(inertia, DIM_INERTIA, "second moment of area I"),
    NUMBER(section_modulus, DIM_SECTION_MODULUS, "S = I/(od/2)"),
    NUMBER(radius, DIM_LENGTH, "radius of gyration r"),
    NUMBER(weight, DIM_MASS, "of this length"),
    NUMBER(wall_reduction, DIM_NONE, "share of the compression yield that a thin wall keeps"),
    NUMBER(critical_load, DIM_FORCE, "elastic critical load of the straight tube between its joints"),
    NUMBER(effective_length, DIM_LENGTH, "L', pinned length with that critical load"),
    NUMBER(slenderness, DIM_NONE, "L'/r"),
    NUMBER(column_stress, DIM_STRESS, "allowable stress of the column curve"),
    NUMBER(column_load, DIM_FORCE, "column stress times area"),
    NUMBER(fit_axial, DIM_FORCE, "locked in by the gap, compression positive"),
    NUMBER(fit_moment, DIM_MOMENT, "largest moment with no run load"),
    NUMBER(fit_stress, DIM_STRESS, "equivalent stress with no run load, where the use is highest"),
    NUMBER(axial, DIM_FORCE, "as loaded, compression positive"),
    NUMBER(peak_moment, DIM_MOMENT, "largest moment as loaded"),
    NUMBER(peak_moment_at, DIM_LENGTH, "where, from A"),
    NUMBER(peak_stress, DIM_STRESS, "equivalent stress as loaded, where the use is highest"),
    NUMBER(stress_use, DIM_NONE, "largest share of yield used as loaded"),
    NUMBER(deflection, DIM_LENGTH, "largest movement away from the stress-free shape, as loaded"),
    NUMBER(deflection_clock, DIM_ANGLE, "to which side it goes there"),
    TEXT("remarks", remarks, "what is worth a word, separated by semicolons"),
    TEXT("note", note, "from the load case"),
};

const field_list check_list = {
    .what = "result",
    .fields = check_fields,
    .count = sizeof check_fields / sizeof *check_fields,
    .record_size = sizeof(check_row),
};

#define PROPERTY(at, dimension_, meaning_)                                                                     \
    {.name = #at, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = offsetof(section_row, at),          \
     .meaning = meaning_}

static const field section_fields[] = {
    PROPERTY(od, DIM_LENGTH, "outside diameter"),
    PROPERTY(wall, DIM_LENGTH, "wall thickness"),
    PROPERTY(bore, DIM_LENGTH, "inside diameter"),
    PROPERTY(area, DIM_AREA, "of the wall"),
    PROPERTY(inertia, DIM_INERTIA, "second moment of area I"),
    PROPERTY(section_modulus, DIM_SECTION_MODULUS, "S = I/(od/2)"),
    PROPERTY(plastic_modulus, DIM_SECTION_MODULUS, "Z"),
    PROPERTY(polar_inertia, DIM_INERTIA, "J = 2I"),
    PROPERTY(radius, DIM_LENGTH, "radius of gyration r"),
    PROPERTY(weight_per_length, DIM_MASS_PER_LENGTH, "of steel"),
    PROPERTY(diameter_to_wall, DIM_NONE, "D/t"),
};

const field_list section_list = {
    .what = "section",
    .fields = section_fields,
    .count = sizeof section_fields / sizeof *section_fields,
    .record_size = sizeof(section_row),
};

bool holds_by_fit(const check_row *r)
{
    return r->margin >= 0 && r->margin_unforced < 0;
}

bool has_remark(const char *remarks, const char *remark)
{
    const size_t length = strlen(remark);
    for (const char *at = remarks; (at = strstr(at, remark)) != NULL; at += length) {
        const bool starts = at == remarks || at[-1] == ' ', ends = at[length] == '\0' || at[length] == ';';
        if (starts && ends) return true;
    }
    return false;
}
