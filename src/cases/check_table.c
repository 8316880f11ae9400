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
    TEXT(check_row, "material", given.material, "name in the materials table"),
    WORD(check_row, "verdict", result.verdict, verdict_words, "holds if the margin is 0 or more, else short"),
    RESULT(margin, DIM_NONE, "smallest ratio of a load factor to the factor asked for, less 1; with --details of the tube and its details"),
    TEXT(check_row, "governs", governs, "check that sets the margin: column, yield, interaction or none, or the name of a detail"),
    RESULT(margin_as_built, DIM_NONE, "smallest margin of the tube itself with the whole forced fit"),
    RESULT(margin_unforced, DIM_NONE, "smallest margin of the tube itself without misses and gap"),
    RESULT(margin_best, DIM_NONE, "largest margin with the whole forced fit, for the best stiffness of welded joints"),
    WORD(check_row, "joints_taken", result.joints_taken, joints_words,
         "stiffness of the welded joints with the smallest margin: soft, stiff, soft/stiff or stiff/soft (A/B)"),
    RESULT(bow_clock_taken, DIM_ANGLE, "clock of the bow with the smallest margin, to 0.1 deg"),
    RESULT(miss_a_clock_taken, DIM_ANGLE, "clock of miss_a with the smallest margin, to 0.1 deg"),
    RESULT(miss_b_clock_taken, DIM_ANGLE, "clock of miss_b with the smallest margin, to 0.1 deg"),
    WORD(check_row, "fit_taken", result.fit_taken, fit_words,
         "forced fit with the smallest margin: as built, relaxed (part of it is gone) or unforced (all is gone)"),
    RESULT(yield_factor, DIM_NONE, "load factor at which the first fibre yields"),
    RESULT(column_factor, DIM_NONE, "load factor at which the push is the column load of the straight tube"),
    RESULT(interaction_factor, DIM_NONE, "load factor at which push and bending together are at their limit"),
    SECTION(area, DIM_AREA, "cross-section of the wall"),
    SECTION(inertia, DIM_INERTIA, "second moment of area, I"),
    SECTION(section_modulus, DIM_SECTION_MODULUS, "S = I/(od/2)"),
    SECTION(radius, DIM_LENGTH, "radius of gyration, r"),
    RESULT(weight, DIM_MASS, "weight of the tube"),
    RESULT(wall_reduction, DIM_NONE, "Q, the share of the compression yield that a thin wall can use"),
    RESULT(critical_load, DIM_FORCE, "elastic critical load of the straight tube with its joints"),
    RESULT(effective_length, DIM_LENGTH, "L', the length of a pinned tube with the same critical load"),
    RESULT(slenderness, DIM_NONE, "L'/r"),
    RESULT(column_stress, DIM_STRESS, "allowable stress by the column curve"),
    RESULT(column_load, DIM_FORCE, "column stress times area"),
    RESULT(fit_axial, DIM_FORCE, "axial force from the gap, compression positive"),
    RESULT(fit_moment, DIM_MOMENT, "largest moment without run load"),
    RESULT(fit_stress, DIM_STRESS, "equivalent stress without run load, where utilisation is largest"),
    RESULT(axial, DIM_FORCE, "axial force at load factor 1, compression positive"),
    RESULT(peak_moment, DIM_MOMENT, "largest moment at load factor 1"),
    RESULT(peak_moment_at, DIM_LENGTH, "distance of that moment from A"),
    RESULT(peak_stress, DIM_STRESS, "equivalent stress at load factor 1, where utilisation is largest"),
    RESULT(stress_use, DIM_NONE, "largest utilisation of yield at load factor 1"),
    RESULT(deflection, DIM_LENGTH, "largest movement from the stress-free shape, at load factor 1"),
    RESULT(deflection_clock, DIM_ANGLE, "clock of that movement"),
    TEXT(check_row, "remarks", remarks, "remarks, separated by semicolons"),
    TEXT(check_row, "note", given.note, "note of the load case"),
};

const field_list check_list = FIELD_LIST("result", check_fields, check_row);

const check_row *check_worst(const check_row *rows, size_t count)
{
    const check_row *worst = rows;
    for (size_t i = 1; i < count; i++)
        if (rows[i].result.margin < worst->result.margin) worst = &rows[i];
    return worst;
}

bool holds_by_fit(const check_row *r)
{
    return r->tube.margin < 0 && r->tube.margin_as_built >= 0;
}

double fit_cost(const check_row *r)
{
    return 100 * (r->result.margin_unforced - r->result.margin_as_built);
}

double asked_of_yield(const check_row *r)
{
    const rbow_member *m = &r->given.member;
    return m->factor_yield > 0 ? m->factor_yield : m->factor;
}

double deciding_factor(const check_row *r)
{
    if (r->detail.governs) return r->detail.factor;
    switch (r->result.governs) {
        case RBOW_BY_COLUMN: return r->result.column_factor;
        case RBOW_BY_YIELD: return r->result.yield_factor;
        case RBOW_BY_INTERACTION: return r->result.interaction_factor;
        default: return INFINITY;
    }
}

double asked_factor(const check_row *r)
{
    if (r->detail.governs) return r->detail.required;
    return r->result.governs == RBOW_BY_YIELD ? asked_of_yield(r) : r->given.member.factor;
}

/* ---- what to do about a case that is short ------------------------------------------------------------- */

static const field_word column_words[] = {
    {"miss_a", ADVICE_MISS_A}, {"miss_b", ADVICE_MISS_B}, {"gap", ADVICE_GAP}, {"bow", ADVICE_BOW}, {"wall", ADVICE_WALL}, {NULL, 0}};

static const field advice_fields[] = {
    TEXT(advice_row, "case", name, "name of the worst case; each row is a change that is enough alone"),
    WORD(advice_row, "column", column, column_words, "column to change"),
    NUMBER(advice_row, "now", now, DIM_LENGTH, "its present value"),
    NUMBER(advice_row, "to", to, DIM_LENGTH, "value that holds, rounded to the safe side; a miss, gap or bow may be smaller"),
    NUMBER(advice_row, "margin", margin, DIM_NONE, "margin of the case with this change alone"),
};

const field_list advice_list = FIELD_LIST("change", advice_fields, advice_row);

const char *advice_column(int column)
{
    return column_words[column].word;
}
