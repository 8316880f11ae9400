#include "cases/check_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <math.h>

#define RESULT(at, dimension_, meaning_) NUMBER(check_row, #at, result.at, dimension_, meaning_)
#define SECTION(at, dimension_, meaning_) NUMBER(check_row, #at, result.section.at, dimension_, meaning_)

static const field check_fields[] = {
    TEXT(check_row, "case", given.name, "name of the row"),
    NUMBER(check_row, "od", given.member.od, DIM_LENGTH, "outside diameter"),
    NUMBER(check_row, "wall", given.member.wall, DIM_LENGTH, "wall thickness"),
    TEXT(check_row, "material", given.material, "name in the materials file"),
    WORD(check_row, "verdict", result.verdict, verdict_words, "holds if the margin is 0 or more, else short"),
    RESULT(margin, DIM_NONE, "least of each load factor over the one asked for, less 1"),
    WORD(check_row, "governs", result.governs, governs_words, "which check gives it: column, yield, interaction or none"),
    RESULT(margin_as_built, DIM_NONE, "the lowest margin with all that is locked in"),
    RESULT(margin_unforced, DIM_NONE, "the lowest margin without misses and gap"),
    RESULT(margin_best, DIM_NONE, "the highest margin as built over what welded joints may be"),
    WORD(check_row, "joints_taken", result.joints_taken, joints_words, "how stiff the welded joints are where the margin is lowest: soft, stiff, soft/stiff or stiff/soft (A/B)"),
    RESULT(bow_clock_taken, DIM_ANGLE, "the bow's direction there, to 0.1 deg"),
    RESULT(miss_a_clock_taken, DIM_ANGLE, "the direction of miss_a there, to 0.1 deg"),
    RESULT(miss_b_clock_taken, DIM_ANGLE, "the direction of miss_b there, to 0.1 deg"),
    WORD(check_row, "fit_taken", result.fit_taken, fit_words, "what is locked in there: as built, relaxed (some of it gone) or unforced (all gone)"),
    RESULT(yield_factor, DIM_NONE, "run load times this brings the first fibre to yield"),
    RESULT(column_factor, DIM_NONE, "run load times this is the column load of the straight tube"),
    RESULT(interaction_factor, DIM_NONE, "run load times this uses up column load and bending together"),
    SECTION(area, DIM_AREA, "of the tube's wall"),
    SECTION(inertia, DIM_INERTIA, "second moment of area I"),
    SECTION(section_modulus, DIM_SECTION_MODULUS, "S = I/(od/2)"),
    SECTION(radius, DIM_LENGTH, "radius of gyration r"),
    RESULT(weight, DIM_MASS, "of this length"),
    RESULT(wall_reduction, DIM_NONE, "share of the compression yield that a thin wall keeps"),
    RESULT(critical_load, DIM_FORCE, "elastic critical load of the straight tube between its joints"),
    RESULT(effective_length, DIM_LENGTH, "L', pinned length with that critical load"),
    RESULT(slenderness, DIM_NONE, "L'/r"),
    RESULT(column_stress, DIM_STRESS, "allowable stress of the column curve"),
    RESULT(column_load, DIM_FORCE, "column stress times area"),
    RESULT(fit_axial, DIM_FORCE, "locked in by the gap, compression positive"),
    RESULT(fit_moment, DIM_MOMENT, "largest moment with no run load"),
    RESULT(fit_stress, DIM_STRESS, "equivalent stress with no run load, where the use is highest"),
    RESULT(axial, DIM_FORCE, "as loaded, compression positive"),
    RESULT(peak_moment, DIM_MOMENT, "largest moment as loaded"),
    RESULT(peak_moment_at, DIM_LENGTH, "where, from A"),
    RESULT(peak_stress, DIM_STRESS, "equivalent stress as loaded, where the use is highest"),
    RESULT(stress_use, DIM_NONE, "largest share of yield used as loaded"),
    RESULT(deflection, DIM_LENGTH, "largest movement away from the stress-free shape, as loaded"),
    RESULT(deflection_clock, DIM_ANGLE, "to which side it goes there"),
    TEXT(check_row, "remarks", remarks, "what is worth a word, separated by semicolons"),
    TEXT(check_row, "note", given.note, "from the load case"),
};

const field_list check_list = FIELD_LIST("result", check_fields, check_row);

bool holds_by_fit(const check_row *r)
{
    return r->result.margin < 0 && r->result.margin_as_built >= 0;
}

double asked_of_yield(const check_row *r)
{
    const rbow_member *m = &r->given.member;
    return m->factor_yield > 0 ? m->factor_yield : m->factor;
}

double deciding_factor(const check_row *r)
{
    switch (r->result.governs) {
        case RBOW_BY_COLUMN: return r->result.column_factor;
        case RBOW_BY_YIELD: return r->result.yield_factor;
        case RBOW_BY_INTERACTION: return r->result.interaction_factor;
        default: return INFINITY;
    }
}

double asked_factor(const check_row *r)
{
    return r->result.governs == RBOW_BY_YIELD ? asked_of_yield(r) : r->given.member.factor;
}
