/* The whole check against members solved from the differential equation by another route.
 *
 * tests/reference/members.csv is made by tests/reference/members.py: a boundary-value solution of each member,
 * critical loads from the discretised eigenproblem, load factors by scanning; none of our formulas. */
#include "near.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/pipeline.h"
#include "reference/plain_margin.h"

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct reference {
    load_case given;
    check_row want;
    const char *why;
} reference;

enum { FIELDS_MOST = 100 };
static field fields[FIELDS_MOST];
static char names[FIELDS_MOST][48];
static const field_word infinite[] = {{"inf", INFINITY}, {NULL, 0}};

static void add_field(size_t *count, const field *f, const char *prefix, size_t shift)
{
    ck_assert_uint_lt(*count, FIELDS_MOST);
    field *to = &fields[*count];
    *to = *f;
    snprintf(names[*count], sizeof *names, "%s%s", prefix, f->name);
    to->name = names[(*count)++];
    to->offset += shift;
    if (*prefix == '\0') return;
    to->least = -INFINITY;
    to->most = INFINITY;
    if (f->kind != FIELD_NUMBER) return;
    to->fallback = NAN;
    to->kind = FIELD_EITHER;
    to->words = infinite;
}

/* The input's columns, and the answer's with "want_" before their names. */
static field_list reference_columns(void)
{
    const field why = {.name = "why", .kind = FIELD_TEXT, .offset = offsetof(reference, why)};
    size_t count = 0;
    for (size_t i = 0; i < case_list.count; i++)
        add_field(&count, &case_list.fields[i], "", offsetof(reference, given));
    for (size_t i = 0; i < check_list.count; i++)
        add_field(&count, &check_list.fields[i], "want_", offsetof(reference, want));
    add_field(&count, &why, "", 0);
    return (field_list){"reference member", fields, count, sizeof(reference)};
}

typedef struct tally {
    bool plain; /* the plain check's answers, not the program's */
    materials materials;
    size_t members, values, bad;
    double worst_closed, worst_factor, worst_place, worst_searched;
} tally;

/* Of a row with a direction that is searched: the margins are exact to 1e-6, the clocks to 0.1 deg, and what depends on
 * them is as far off. */
static double *kind_of_searched(tally *t, const char *name, double *allowed)
{
    const bool margin = strncmp(name, "margin", 6) == 0, clock = strstr(name, "clock") != NULL;
    *allowed = margin ? 1e-6 : clock ? 0.1 * 3.14159265358979323846 / 180 : 2e-3;
    return &t->worst_searched;
}

static double *kind_of(tally *t, const char *name, double *allowed)
{
    const bool factor = strstr(name, "_factor") != NULL || strncmp(name, "margin", 6) == 0;
    const bool location = strcmp(name, "peak_moment_at") == 0 || strstr(name, "clock") != NULL;
    *allowed = factor ? 1e-7 : location ? 1e-7 : 1e-9;
    return factor ? &t->worst_factor : location ? &t->worst_place : &t->worst_closed;
}

/* A margin is a factor less 1: its error counts against 1. Places count against the length, and clocks on the
 * circle. */
static double distance(const char *name, double got, double want, double length)
{
    if (isnan(want) || isnan(got)) return isnan(want) && isnan(got) ? 0 : INFINITY;
    if (isinf(want) || isinf(got)) return isinf(want) && isinf(got) ? 0 : INFINITY;
    const double apart = fabs(got - want);
    if (strcmp(name, "peak_moment_at") == 0) return apart / length;
    if (strstr(name, "clock") != NULL) return fabs(remainder(got - want, 6.283185307179586));
    if (strncmp(name, "margin", 6) == 0) return apart / (1 + fabs(want));
    return apart > 0 ? apart / fabs(want) : 0;
}

static bool is_searched(const rbow_member *m)
{
    const double clocks[] = {m->bow_clock, m->miss_a_clock, m->miss_b_clock, m->eccentricity_clock};
    for (int i = 0; i < 4; i++)
        if (clocks[i] <= RBOW_ANY_CLOCK) return true;
    return false;
}

static void compare(tally *t, const reference *r, const check_row *got)
{
    const bool searched = is_searched(&r->given.member);
    for (size_t i = 0; i < check_list.count; i++) {
        const field *f = &check_list.fields[i];
        if (f->kind == FIELD_TEXT ? strcmp(f->name, "remarks") != 0 : f->offset < offsetof(check_row, result)) continue;
        t->values++;
        if (f->kind != FIELD_NUMBER) {
            const char *want = field_text(f, &r->want), *is = field_text(f, got);
            if (want != NULL && strcmp(want, is) == 0) continue;
            t->bad++;
            fprintf(stderr, "%s (%s): %s is '%s', want '%s'\n", r->given.name, r->why, f->name, is, want);
            continue;
        }
        double allowed, *worst = (searched ? kind_of_searched : kind_of)(t, f->name, &allowed);
        const double want = field_get(f, &r->want), is = field_get(f, got);
        const double apart = distance(f->name, is, want, r->given.member.length);
        if (apart <= allowed) {
            *worst = fmax(*worst, apart);
            continue;
        }
        t->bad++;
        fprintf(stderr, "%s (%s): %s is %.15g, want %.15g (%.1e apart)\n", r->given.name, r->why, f->name, is, want,
                apart);
    }
}

/* The plain check's numbers in place of the program's; which scenario governs stays the program's. */
static void take_plain(const rbow_member *m, const rbow_material *k, rbow_result *into)
{
    const rbow_member taken = rbow_member_taken(m, into);
    if (is_searched(m)) return; /* the plain check searches no directions */
    const plain_margins p = plain_margins_of(m, k);
    const plain_tube t = plain_tube_of(&taken, k), built = plain_as_built(m, k);
    const plain_factors f = plain_factors_of(&t);
    const plain_state fit = plain_state_at(&built, 0), s = plain_state_at(&t, 1);
    const plain_peak moved = plain_moved(&t, 1);
    into->margin = p.margin;
    into->margin_as_built = p.as_built;
    into->margin_unforced = p.unforced;
    into->margin_best = p.best;
    into->yield_factor = f.yield;
    into->column_factor = f.column;
    into->interaction_factor = f.interaction;
    into->section.area = t.zones[0].area;
    into->section.inertia = t.inertia;
    into->section.section_modulus = t.zones[0].modulus;
    into->section.radius = t.radius;
    into->weight = t.weight;
    into->wall_reduction = t.zones[0].q;
    into->critical_load = t.critical_load;
    into->effective_length = t.effective_length;
    into->slenderness = t.slenderness;
    into->column_stress = t.column_stress;
    into->column_load = t.column_load;
    into->fit_axial = -built.tension;
    into->fit_moment = fit.moment.size;
    into->fit_stress = fit.stress;
    into->axial = m->compression - t.tension;
    into->peak_moment = s.moment.size;
    into->peak_moment_at = s.moment.at;
    into->peak_stress = s.stress;
    into->stress_use = s.use;
    into->deflection = moved.size;
    into->deflection_clock = moved.clock;
}

static int check_reference(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    (void)answers;
    tally *t = *(tally *const *)context;
    checked got;
    const reference *r = record;
    if (check_case(&t->materials, &r->given, at, &got, NULL, complaints) == NO_VERDICT) return NO_VERDICT;
    if (t->plain) take_plain(&r->given.member, got.row.material, &got.row.result);
    t->members++;
    compare(t, r, &got.row);
    return ALL_HOLD;
}

static void agree(bool plain)
{
    tally t = {.plain = plain};
    tally *const context = &t;
    reference prototype;
    output nowhere = {.format = FORMAT_TEXT};
    rows none = rows_for(&nowhere, &check_list);
    const field_list list = reference_columns();
    gsl_set_error_handler_off();
    ck_assert(materials_open(&t.materials, SOURCE_DIR "/tests/reference/materials.csv"));
    field_defaults(&list, &prototype);
    const pipeline p = {.list = &list, .prototype = &prototype, .results = &check_list, .jobs = 1, .out = &nowhere,
                        .kept = &none, .context = &context, .answer = check_reference};
    char file[] = SOURCE_DIR "/tests/reference/members.csv", *files[] = {file};
    ck_assert_int_eq(pipeline_run(&p, files, 1), ALL_HOLD);
    printf("%zu members, %zu values; largest difference: closed form %.1e, load factors %.1e, places %.1e, searched %.1e\n", t.members,
           t.values, t.worst_closed, t.worst_factor, t.worst_place, t.worst_searched);
    ck_assert_uint_ge(t.members, 150);
    ck_assert_msg(t.bad == 0, "%zu values differ", t.bad);
    materials_close(&t.materials);
}

START_TEST(members_agree_with_the_reference)
{
    agree(false);
}
END_TEST

/* RAILBOW_NO_PLAIN: left out, where the library alone is looked at (under valgrind). */
START_TEST(plain_check_agrees_with_the_reference)
{
    if (getenv("RAILBOW_NO_PLAIN") != NULL) return;
    agree(true);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, members_agree_with_the_reference);
    tcase_add_test(cases, plain_check_agrees_with_the_reference);
}

int main(void)
{
    return run_tests("members", fill);
}
