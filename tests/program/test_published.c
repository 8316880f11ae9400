/* The library against what books print: tests/reference/published.csv, one value a row, each with its source.
 *
 * With the argument "proof" it prints the table: source, published, ours, difference, met or not. */
#include "near.h"

#include "cases/case_table.h"
#include "cases/material_table.h"
#include "mechanics/plastic.h"
#include "program/materials.h"
#include "program/measure.h"
#include "program/exit_status.h"

#include <railbow/railbow.h>

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* ---- a row, and its inputs ---------------------------------------------------------------------------- */

typedef struct printed {
    const char *quantity, *inputs, *value, *tolerance, *title, *edition, *where, *standing, *remark;
} printed;

#define TEXT_FIELD(name_, member_, rule_)                                                                      \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(printed, member_), .rule = rule_}

static const field printed_fields[] = {
    TEXT_FIELD("quantity", quantity, FIELD_REQUIRED), TEXT_FIELD("inputs", inputs, 0),
    TEXT_FIELD("value", value, FIELD_REQUIRED),       TEXT_FIELD("tolerance", tolerance, FIELD_REQUIRED),
    TEXT_FIELD("title", title, FIELD_REQUIRED),       TEXT_FIELD("edition", edition, 0),
    TEXT_FIELD("place", where, FIELD_REQUIRED),       TEXT_FIELD("standing", standing, FIELD_REQUIRED),
    TEXT_FIELD("remark", remark, 0),
};
static const field_list printed_list = {"published value", printed_fields, sizeof printed_fields / sizeof *printed_fields,
                                        sizeof(printed)};

typedef struct inputs { /* of load_case, of rbow_material, and what neither has */
    load_case given;
    rbow_material steel;
    const materials *shipped;
    char material[40];
    double share, slenderness, relative_slenderness, relative_length, relative_bow, relative_a, relative_b;
    double diameter_to_wall;
    double bar_width, bar_height; /* in: of a rectangle */
} inputs;

#define EXTRA(name_) {.name = #name_, .kind = FIELD_NUMBER, .offset = offsetof(inputs, name_)}
#define EXTRA_LENGTH(name_) {.name = #name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(inputs, name_)}
static const field extra_fields[] = {
    EXTRA(share), EXTRA(slenderness), EXTRA(relative_slenderness), EXTRA(relative_length), EXTRA(relative_bow),
    EXTRA(relative_a), EXTRA(relative_b), EXTRA(diameter_to_wall),
    EXTRA_LENGTH(bar_width), EXTRA_LENGTH(bar_height),
};
static const field_list extra_list = {"other input", extra_fields, sizeof extra_fields / sizeof *extra_fields,
                                      sizeof(inputs)};

static bool read_word(const field *f, const char *word, double *value)
{
    for (const field_word *w = f->words; w != NULL && w->word != NULL; w++)
        if (strcmp(w->word, word) == 0) {
            *value = w->value;
            return true;
        }
    return false;
}

/* A number with its unit, or in that of the program's own answers. */
static bool reads_as(const char *written, dimension d, double *value)
{
    measure m;
    return measure_read(written, strlen(written), d, &m) && measure_in(&m, unit_shown(d, UNITS_US), value);
}

static bool set_from(const field_list *list, void *record, const char *name, const char *written)
{
    double value;
    const field *f = field_find(list, name);
    if (f == NULL || f->kind == FIELD_TEXT) return false;
    if (read_word(f, written, &value)) field_set_word(f, record, value);
    else if (f->kind != FIELD_WORD && reads_as(written, f->dimension, &value)) field_set(f, record, value);
    else return false;
    return true;
}

static void set_input(inputs *in, const char *name, const char *written)
{
    if (strcmp(name, "material") == 0) {
        snprintf(in->material, sizeof in->material, "%s", written);
        return;
    }
    const bool known = set_from(&extra_list, in, name, written) || set_from(&case_list, &in->given, name, written)
        || set_from(&material_list, &in->steel, name, written);
    ck_assert_msg(known, "input '%s=%s'", name, written);
}

static void inputs_default(inputs *in, const materials *shipped)
{
    *in = (inputs){.shipped = shipped, .share = NAN, .slenderness = NAN, .relative_slenderness = NAN,
                   .relative_length = NAN, .relative_bow = NAN, .relative_a = NAN, .relative_b = NAN};
    in->given.member = rbow_member_default();
    in->given.member.od = 1.25;
    in->given.member.wall = 0.058;
    in->given.member.length = 30;
    in->given.member.factor = 1;
    in->given.member.weld_zone = 0; /* books know of none, and their bars lie in one plane */
    in->given.member.bow_clock = in->given.member.eccentricity_clock = 0;
    in->given.member.miss_a_clock = in->given.member.miss_b_clock = 0;
    in->steel = (rbow_material){.name = "", .wall_up_to = INFINITY, .elastic_modulus = 29e6, .shear_modulus = 11e6,
                                .density = 0.283, .yield = 36e3, .compression_yield = NAN, .weld_yield = NAN,
                                .column_intercept = NAN, .column_curve = RBOW_CURVE_JOHNSON};
}

static rbow_section section(const inputs *in)
{
    rbow_section s;
    ck_assert_int_eq(rbow_section_of(in->given.member.od, in->given.member.wall, &s), RBOW_OK);
    return s;
}

static double stiffness(const inputs *in)
{
    return in->steel.elastic_modulus * section(in).inertia;
}

static double euler(const inputs *in)
{
    const double length = in->given.member.length;
    return pi * pi * stiffness(in) / (length * length);
}

/* What is given relative to something else. */
static void settle(inputs *in)
{
    rbow_member *m = &in->given.member;
    rbow_material *k = &in->steel;
    if (isnan(k->compression_yield)) k->compression_yield = k->yield;
    if (isnan(k->weld_yield)) k->weld_yield = k->yield;
    if (isnan(k->column_intercept)) k->column_intercept = k->compression_yield;
    const rbow_section s = section(in);
    if (in->relative_length > 0) m->length = in->relative_length * s.radius;
    if (in->relative_bow > 0) m->bow = in->relative_bow * s.radius * s.radius / (s.od / 2);
    if (in->relative_a >= 0) m->end_a = in->relative_a * stiffness(in) / m->length;
    if (in->relative_b >= 0) m->end_b = in->relative_b * stiffness(in) / m->length;
    if (in->relative_slenderness > 0)
        in->slenderness = in->relative_slenderness * pi * sqrt(k->elastic_modulus / k->compression_yield);
    if (!isnan(in->share)) m->compression = in->share * euler(in);
}

static void read_inputs(inputs *in, const char *written)
{
    char name[40], value[40];
    while (*written != '\0') {
        int used = 0;
        ck_assert_msg(sscanf(written, " %39[^=]=%39[^;]%n", name, value, &used) == 2, "inputs '%s'", written);
        set_input(in, name, value);
        written += used + (written[used] == ';');
    }
    settle(in);
}

/* ---- the quantities ----------------------------------------------------------------------------------- */

static rbow_result checked_member(const inputs *in, const rbow_member *m)
{
    rbow_result r;
    const rbow_status status = rbow_member_check(m, &in->steel, &r);
    ck_assert_msg(status == RBOW_OK, "%s %s", rbow_status_input(status), rbow_status_text(status));
    return r;
}

static rbow_result result(const inputs *in)
{
    return checked_member(in, &in->given.member);
}

static rbow_result without_push(const inputs *in)
{
    rbow_member m = in->given.member;
    m.compression = 0;
    return checked_member(in, &m);
}

static double area(const inputs *in) { return section(in).area; }
static double inertia(const inputs *in) { return section(in).inertia; }
static double section_modulus(const inputs *in) { return section(in).section_modulus; }
static double plastic_modulus(const inputs *in) { return section(in).plastic_modulus; }
static double polar_inertia(const inputs *in) { return section(in).polar_inertia; }
static double radius(const inputs *in) { return section(in).radius; }
static double shape_factor(const inputs *in) { return plastic_modulus(in) / section_modulus(in); }

static rbow_status reduction(const inputs *in, double diameter_to_wall, double *q)
{
    return rbow_wall_reduction(diameter_to_wall, in->steel.elastic_modulus, in->steel.compression_yield, q);
}

static double wall_reduction(const inputs *in)
{
    double q;
    ck_assert_int_eq(reduction(in, in->diameter_to_wall, &q), RBOW_OK);
    return q;
}

/* The thinnest wall that is not refused. */
static double wall_limit(const inputs *in)
{
    double fine = 2, refused = 1e6, q;
    for (int i = 0; i < 100; i++) {
        const double middle = (fine + refused) / 2;
        if (reduction(in, middle, &q) == RBOW_OK) fine = middle;
        else refused = middle;
    }
    return fine;
}

static const rbow_material *shipped(const inputs *in)
{
    int known;
    const rbow_material *k = rbow_material_find(in->shipped->list, in->shipped->count, in->material,
                                                in->given.member.wall, &known);
    ck_assert_msg(k != NULL, "material '%s'", in->material);
    return k;
}

static double material_yield(const inputs *in) { return shipped(in)->yield; }
static double material_ultimate(const inputs *in) { return shipped(in)->ultimate; }
static double material_weld_yield(const inputs *in) { return shipped(in)->weld_yield; }
static double material_compression_yield(const inputs *in) { return shipped(in)->compression_yield; }
static double material_column_intercept(const inputs *in) { return shipped(in)->column_intercept; }
static double material_elastic_modulus(const inputs *in) { return shipped(in)->elastic_modulus; }
static double material_shear_modulus(const inputs *in) { return shipped(in)->shear_modulus; }
static double material_density(const inputs *in) { return shipped(in)->density; }

static rbow_column column(const inputs *in)
{
    const rbow_material *k = &in->steel;
    return (rbow_column){(rbow_curve)in->given.member.column_curve, k->elastic_modulus, k->compression_yield,
                         k->column_intercept, 1, isnan(in->slenderness) ? result(in).slenderness : in->slenderness};
}

static double column_stress(const inputs *in)
{
    double stress;
    const rbow_column c = column(in);
    ck_assert_int_eq(rbow_column_stress(&c, &stress), RBOW_OK);
    return stress;
}

static double transition(const inputs *in)
{
    double slenderness;
    const rbow_column c = column(in);
    ck_assert_int_eq(rbow_column_transition(&c, &slenderness), RBOW_OK);
    return slenderness;
}

static double column_share(const inputs *in) { return column_stress(in) / in->steel.compression_yield; }
static double column_design_stress(const inputs *in) { return 0.9 * column_stress(in); }

static double critical_load(const inputs *in)
{
    const rbow_member *m = &in->given.member;
    double a, b = RBOW_FREE, load;
    ck_assert_int_eq(rbow_end_stiffness(m->end_a, stiffness(in), m->length, &a), RBOW_OK);
    if (m->end_b < RBOW_FREE || m->end_b > RBOW_FREE)
        ck_assert_int_eq(rbow_end_stiffness(m->end_b, stiffness(in), m->length, &b), RBOW_OK);
    ck_assert_int_eq(rbow_critical_load(stiffness(in), m->length, a, b, &load), RBOW_OK);
    return load;
}

static double fixity(const inputs *in) { return critical_load(in) / euler(in); }
static double critical_number(const inputs *in) { return pi * pi * fixity(in); }
static double critical_wave(const inputs *in) { return sqrt(critical_number(in)); }
static double critical_half_wave(const inputs *in) { return critical_wave(in) / 2; }
static double effective_share(const inputs *in) { return result(in).effective_length / in->given.member.length; }

static double peak_stress(const inputs *in) { return result(in).peak_stress; }
static double peak_moment(const inputs *in) { return result(in).peak_moment; }
static double slenderness(const inputs *in) { return result(in).slenderness; }
static double column_load(const inputs *in) { return result(in).column_load; }
static double moment_growth(const inputs *in) { return result(in).peak_moment / without_push(in).peak_moment; }
static double deflection_growth(const inputs *in) { return result(in).deflection / without_push(in).deflection; }

static double eccentric_growth(const inputs *in)
{
    const rbow_member *m = &in->given.member;
    return result(in).peak_moment / (m->compression * m->eccentricity);
}

static double bow_growth(const inputs *in)
{
    const rbow_member *m = &in->given.member;
    return result(in).peak_moment / (m->compression * m->bow);
}

/* First yield of a pushed tube: the factor is on a small push, so that it is well away from 1. */
static double yield_load(const inputs *in)
{
    rbow_member m = in->given.member;
    if (!(m.compression > 0)) m.compression = 0.1 * euler(in);
    return checked_member(in, &m).yield_factor * m.compression;
}

static double yield_stress_of_column(const inputs *in) { return yield_load(in) / area(in); }

static double load_size(const inputs *in)
{
    const rbow_member *m = &in->given.member;
    return m->point_load + m->spread_load * m->length;
}

static double moment_number(const inputs *in)
{
    return result(in).peak_moment / (load_size(in) * in->given.member.length);
}

static double deflection_number(const inputs *in)
{
    const double length = in->given.member.length;
    return result(in).deflection * stiffness(in) / (load_size(in) * length * length * length);
}

static double fit_number(const inputs *in)
{
    const rbow_member *m = &in->given.member;
    return result(in).fit_moment * m->length * m->length / (stiffness(in) * m->miss_a);
}

/* A tube held at both ends whose end A is turned by 1: the moments there and at B, in EI/L. */
static void turned(const inputs *in, double *at_a, double *at_b)
{
    const double length = 30, bending = 1e6;
    const double share = isnan(in->share) ? 0 : in->share;
    const rbow_beam beam = {.bending_stiffness = bending, .length = length,
                            .compression = share * pi * pi * bending / (length * length),
                            .critical_load = 4 * pi * pi * bending / (length * length), .stiffness_a = RBOW_FIXED,
                            .stiffness_b = RBOW_FIXED, .point_at = length, .bow_at = length / 2};
    const rbow_loading loading = {.slope_a = 1};
    rbow_prepared prepared;
    rbow_solution solution;
    rbow_station a, b;
    ck_assert_int_eq(rbow_beam_prepare(&beam, &prepared), RBOW_OK);
    rbow_beam_solve(&prepared, &loading, &solution);
    rbow_beam_at(&prepared, &solution, 0, &a);
    rbow_beam_at(&prepared, &solution, length, &b);
    *at_a = a.moment * length / bending;
    *at_b = b.moment * length / bending;
}

static double stiffness_function(const inputs *in)
{
    double a, b;
    turned(in, &a, &b);
    return a;
}

static double carry_over(const inputs *in)
{
    double a, b;
    turned(in, &a, &b);
    return -b / a;
}

/* Each alone, from the whole check. */
static double shear_stress(const inputs *in)
{
    rbow_member m = in->given.member;
    m.moment_a = m.moment_b = 0;
    return checked_member(in, &m).peak_stress / sqrt(3);
}

static double bending_stress(const inputs *in)
{
    rbow_member m = in->given.member;
    m.torque = 0;
    return checked_member(in, &m).peak_stress;
}

/* From the equivalent stress, squared: s^2 + 3 t^2; the largest shear, squared: s^2/4 + t^2. */
static double largest_shear(const inputs *in)
{
    const double both = peak_stress(in), bending = bending_stress(in);
    return sqrt(bending * bending / 4 + (both * both - bending * bending) / 3);
}

/* The moment of a tube that has yielded through and through. */
static double plastic_moment(const inputs *in)
{
    const rbow_section s = section(in);
    const plastic_shape shape = rbow_plastic_tube(s.od, s.bore);
    return shape.modulus(&shape, 0) * in->steel.yield;
}

/* A rectangle in the bending law of the horn: half its height is half_height, its width outer. */
static double slab(const plastic_shape *s, double core)
{
    return s->outer * (s->half_height * s->half_height - core * core / 3);
}

static plastic_shape bar(const inputs *in)
{
    return (plastic_shape){.half_height = in->bar_height / 2, .modulus = slab, .outer = in->bar_width};
}

static double bar_core(const inputs *in)
{
    const plastic_shape shape = bar(in);
    double core;
    ck_assert_int_eq(rbow_plastic_core(&shape, in->given.member.moment_a / in->steel.yield, &core), RBOW_OK);
    return 2 * core;
}

/* What the outer fibre would have had, less what it had: it stays after the moment is gone. */
static double bar_residual(const inputs *in)
{
    const plastic_shape shape = bar(in);
    return in->given.member.moment_a / slab(&shape, shape.half_height) - in->steel.yield;
}

static double bar_radius(const inputs *in)
{
    const double yield = in->steel.yield, half = in->bar_height / 2;
    return in->steel.elastic_modulus / (yield / (bar_core(in) / 2) - (yield + bar_residual(in)) / half);
}

/* The slenderness from which on a tube is said to be slender. */
static double slender_limit(const inputs *in)
{
    rbow_member m = in->given.member;
    double stout = 1, slender = 1e4;
    for (int i = 0; i < 100; i++) {
        m.length = (stout + slender) / 2;
        if ((checked_member(in, &m).remarks & RBOW_REMARK_SLENDER) != 0) slender = m.length;
        else stout = m.length;
    }
    return slender / section(in).radius;
}

static double default_factor(const inputs *in)
{
    (void)in;
    return rbow_member_default().factor;
}

typedef struct quantity {
    const char *name;
    dimension dimension;
    double (*of)(const inputs *in);
} quantity;

static const quantity quantities[] = {
    {"area", DIM_AREA, area},
    {"inertia", DIM_INERTIA, inertia},
    {"section_modulus", DIM_SECTION_MODULUS, section_modulus},
    {"plastic_modulus", DIM_SECTION_MODULUS, plastic_modulus},
    {"polar_inertia", DIM_INERTIA, polar_inertia},
    {"radius", DIM_LENGTH, radius},
    {"shape_factor", DIM_NONE, shape_factor},
    {"wall_reduction", DIM_NONE, wall_reduction},
    {"wall_limit", DIM_NONE, wall_limit},
    {"material_yield", DIM_STRESS, material_yield},
    {"material_ultimate", DIM_STRESS, material_ultimate},
    {"material_weld_yield", DIM_STRESS, material_weld_yield},
    {"material_compression_yield", DIM_STRESS, material_compression_yield},
    {"material_column_intercept", DIM_STRESS, material_column_intercept},
    {"material_elastic_modulus", DIM_STRESS, material_elastic_modulus},
    {"material_shear_modulus", DIM_STRESS, material_shear_modulus},
    {"material_density", DIM_DENSITY, material_density},
    {"column_stress", DIM_STRESS, column_stress},
    {"column_design_stress", DIM_STRESS, column_design_stress},
    {"column_share", DIM_NONE, column_share},
    {"transition", DIM_NONE, transition},
    {"critical_load", DIM_FORCE, critical_load},
    {"fixity", DIM_NONE, fixity},
    {"critical_number", DIM_NONE, critical_number},
    {"critical_wave", DIM_NONE, critical_wave},
    {"critical_half_wave", DIM_NONE, critical_half_wave},
    {"effective_share", DIM_NONE, effective_share},
    {"peak_stress", DIM_STRESS, peak_stress},
    {"moment_growth", DIM_NONE, moment_growth},
    {"deflection_growth", DIM_NONE, deflection_growth},
    {"eccentric_growth", DIM_NONE, eccentric_growth},
    {"bow_growth", DIM_NONE, bow_growth},
    {"yield_load", DIM_FORCE, yield_load},
    {"yield_stress_of_column", DIM_STRESS, yield_stress_of_column},
    {"moment_number", DIM_NONE, moment_number},
    {"deflection_number", DIM_NONE, deflection_number},
    {"fit_number", DIM_NONE, fit_number},
    {"stiffness_function", DIM_NONE, stiffness_function},
    {"carry_over", DIM_NONE, carry_over},
    {"shear_stress", DIM_STRESS, shear_stress},
    {"bending_stress", DIM_STRESS, bending_stress},
    {"largest_shear", DIM_STRESS, largest_shear},
    {"peak_moment", DIM_MOMENT, peak_moment},
    {"slenderness", DIM_NONE, slenderness},
    {"column_load", DIM_FORCE, column_load},
    {"plastic_moment", DIM_MOMENT, plastic_moment},
    {"bar_core", DIM_LENGTH, bar_core},
    {"bar_residual", DIM_STRESS, bar_residual},
    {"bar_radius", DIM_LENGTH, bar_radius},
    {"slender_limit", DIM_NONE, slender_limit},
    {"default_factor", DIM_NONE, default_factor},
};

enum { QUANTITIES = sizeof quantities / sizeof *quantities };

static const quantity *quantity_of(const char *name)
{
    for (size_t i = 0; i < QUANTITIES; i++)
        if (strcmp(quantities[i].name, name) == 0) return &quantities[i];
    ck_abort_msg("quantity '%s'", name);
    return NULL;
}

/* ---- the table ---------------------------------------------------------------------------------------- */

typedef struct proof {
    bool print;
    materials shipped;
    size_t values, missed;
    bool used[QUANTITIES]; /* by a row */
} proof;

static double in_unit_of(const char *written, dimension d, double value)
{
    const char *blank = strchr(written, ' ');
    const unit *u = blank == NULL ? NULL : unit_find(d, blank + 1, strlen(blank + 1));
    return u == NULL ? value : unit_from_own(u, value);
}

static void print(const printed *given, double ours, double apart, bool met)
{
    const char *comma = *given->edition != '\0' ? ", " : "";
    printf("%s%s%s, %s | %s | %s | %s | %.8g | %+.1e | %s | %s | %s\n", given->title, comma, given->edition, given->where,
           given->quantity, given->inputs, given->value, ours, apart, given->tolerance, met ? "met" : "NOT MET", given->standing);
    fflush(stdout);
}

static int prove(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    (void)answers, (void)complaints;
    proof *p = *(proof *const *)context;
    const printed *given = record;
    const quantity *q = quantity_of(given->quantity);
    double value, tolerance;
    inputs in;
    ck_assert_msg(reads_as(given->value, q->dimension, &value), "line %zu", at->line);
    ck_assert_msg(reads_as(given->tolerance, q->dimension, &tolerance), "line %zu", at->line);
    inputs_default(&in, &p->shipped);
    read_inputs(&in, given->inputs);
    const double ours = q->of(&in), apart = ours - value;
    const bool met = fabs(apart) <= tolerance * (1 + 1e-9);
    p->values++;
    p->used[q - quantities] = true;
    if (!met) p->missed++;
    if (p->print || !met)
        print(given, in_unit_of(given->value, q->dimension, ours), in_unit_of(given->value, q->dimension, apart), met);
    return ALL_HOLD;
}

static void walk(proof *p)
{
    proof *const context = p;
    printed prototype;
    output nowhere = {.format = FORMAT_TEXT};
    rows none = rows_for(&nowhere, &printed_list);
    gsl_set_error_handler_off();
    ck_assert(materials_open(&p->shipped, SOURCE_DIR "/materials/steel_tube.csv"));
    field_defaults(&printed_list, &prototype);
    const pipeline line = {.list = &printed_list, .prototype = &prototype, .results = &printed_list, .jobs = 1,
                           .out = &nowhere, .kept = &none, .context = &context, .answer = prove};
    char file[] = SOURCE_DIR "/tests/reference/published.csv", *files[] = {file};
    ck_assert_int_eq(pipeline_run(&line, files, 1), ALL_HOLD);
    materials_close(&p->shipped);
}

START_TEST(published_values_are_met)
{
    proof p = {0};
    walk(&p);
    ck_assert_uint_ge(p.values, 385);
    ck_assert_msg(p.missed == 0, "%zu published values are not met", p.missed);
    for (size_t i = 0; i < QUANTITIES; i++) ck_assert_msg(p.used[i], "no row of %s", quantities[i].name);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, published_values_are_met);
}

START_TEST(the_table)
{
    proof p = {.print = true};
    puts("source | quantity | inputs | published | ours | difference | tolerance | met | standing");
    walk(&p);
    printf("\n%zu values; %zu not met.\n\n", p.values, p.missed);
    ck_assert_uint_eq(p.missed, 0);
}
END_TEST

static void fill_proof(TCase *cases)
{
    tcase_add_test(cases, the_table);
}

int main(int arguments, char **words)
{
    const bool table = arguments > 1 && strcmp(words[1], "proof") == 0;
    return run_tests("published", table ? fill_proof : fill);
}
