#define _POSIX_C_SOURCE 200809L
#include "program/frame/frame_tolerances.h"

#include "program/frame/frame_rows.h"
#include "program/say.h"
#include "table/messages.h"

#include <float.h>
#include <fnmatch.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static const double half_circle = 3.14159265358979323846;

enum { SPREAD_TABLES = 2 }; /* FRAME_JOINTS, FRAME_TUBES */

_Static_assert(FRAME_JOINTS == 0 && FRAME_TUBES == 1, "the lists below are in this order");

typedef struct applied {
    frame_tolerances *to;
    const frame_build *build;
    const frame_problem *problem;
    uint64_t *taken[SPREAD_TABLES]; /* of each joint and tube: which of its fields vary */
    text complaints;
} applied;

bool frame_tolerances_open(frame_tolerances *t, const options *o)
{
    t->read = (tolerances){.lists = frame_lists, .list_count = SPREAD_TABLES, .where = "joints.csv or tubes.csv", .of_frame = true};
    return tolerances_open(&t->read, o);
}

void frame_tolerances_close(frame_tolerances *t)
{
    if (t->read.rows.list != NULL) tolerances_close(&t->read);
    free(t->list);
}

static size_t count_of(const frame_build *b, size_t table)
{
    return table == FRAME_JOINTS ? b->model.joint_count : b->model.tube_count;
}

static const char *name_of(const frame_model *m, size_t table, size_t at)
{
    return table == FRAME_JOINTS ? m->joints[at].name : m->tubes[at].name;
}

const char *frame_tolerance_name(const frame_tolerance *t, const frame_model *m)
{
    return name_of(m, (size_t)t->of.table, t->of.row);
}

const char *frame_tolerance_column(const frame_tolerance *t)
{
    const field_list *l = frame_lists[t->of.table];
    for (size_t i = 0; i < l->count; i++)
        if (l->fields[i].offset == t->of.offset) return l->fields[i].name;
    return "";
}

static void add(applied *a, frame_tolerance t)
{
    frame_tolerances *to = a->to;
    if (to->count == to->room) {
        const size_t room = 2 * to->room + 64;
        frame_tolerance *grown = realloc(to->list, room * sizeof *grown);
        if (grown == NULL) {
            a->complaints.failed = true;
            return;
        }
        to->list = grown;
        to->room = room;
    }
    to->list[to->count++] = t;
}

static void quote(text *out, const char *name)
{
    text_quote(out, name, strlen(name));
}

/* ---- one row of the file ------------------------------------------------------------------------------------------ */

static void refuse_no_number(applied *a, size_t table, size_t at, const field *f)
{
    const frame_model *m = &a->build->model;
    const size_t line = table == FRAME_JOINTS ? m->joints[at].line : m->tubes[at].line;
    const void *record = table == FRAME_JOINTS ? (const void *)&m->joints[at] : &m->tubes[at];
    const char *word = field_text(f, record);
    frame_refuse(&a->complaints, a->build, (int)table, line, f->name, "has no number to vary%s%s%s: give a number", word != NULL ? " ('" : "",
                 word != NULL ? word : "", word != NULL ? "')" : "");
}

static void apply_to(applied *a, const tolerance_row *given, size_t table, const field *f, size_t at)
{
    const uint64_t bit = UINT64_C(1) << (f - frame_lists[table]->fields);
    frame_tolerance t = {.of = {(int)table, at, f->offset}};
    t.range.shape = (tolerance_shape)given->shape;
    t.range.nominal = frame_parameter_get(a->problem, t.of);
    if ((a->taken[table][at] & bit) != 0) {
        text name = {0};
        quote(&name, name_of(&a->build->model, table, at));
        message_add(&a->complaints, a->to->read.file, given->line, "column", "an earlier row gives %s of %s a tolerance already", f->name,
                    text_string(&name, &a->complaints.failed));
        text_free(&name);
        return;
    }
    a->taken[table][at] |= bit;
    if (!(fabs(t.range.nominal) < DBL_MAX / 16)) {
        refuse_no_number(a, table, at, f);
        return;
    }
    tolerance_sides(given, f, t.range.nominal, &t.range.minus, &t.range.plus);
    add(a, t);
}

static void apply_row(applied *a, const tolerance_row *given)
{
    size_t table, met = 0;
    const field *f = tolerance_field(&a->to->read, given, &table);
    for (size_t i = 0; i < count_of(a->build, table); i++) {
        if (*given->name != '\0' && fnmatch(given->name, name_of(&a->build->model, table, i), 0) != 0) continue;
        met++;
        apply_to(a, given, table, f, i);
    }
    if (met > 0) return;
    text name = {0};
    quote(&name, given->name);
    message_add(&a->complaints, a->to->read.file, given->line, "name", "no %s meets %s", table == FRAME_JOINTS ? "joint" : "tube",
                text_string(&name, &a->complaints.failed));
    text_free(&name);
}

/* ---- clocks of misses that were not given --------------------------------------------------------------------------- */

/* A miss that may be there needs a direction. Where the frame gives none it points anywhere. */
static void add_clock(applied *a, size_t tube, size_t clock)
{
    const frame_tolerance t = {.of = {FRAME_TUBES, tube, clock},
                               .range = {.nominal = half_circle, .minus = half_circle, .plus = half_circle}};
    if (frame_parameter_get(a->problem, t.of) > RBOW_ANY_CLOCK) return;
    add(a, t);
    a->to->clocks++;
}

/* Of the tolerances that were there before: a clock is added behind them. */
static void add_clocks(applied *a)
{
    const size_t given = a->to->count;
    for (size_t i = 0; i < given && !a->complaints.failed; i++) {
        const frame_parameter of = a->to->list[i].of;
        if (of.table != FRAME_TUBES) continue;
        if (of.offset == offsetof(frame_tube_row, tube.miss_a)) add_clock(a, of.row, offsetof(frame_tube_row, tube.miss_a_clock));
        if (of.offset == offsetof(frame_tube_row, tube.miss_b)) add_clock(a, of.row, offsetof(frame_tube_row, tube.miss_b_clock));
    }
}

bool frame_tolerances_apply(frame_tolerances *t, const frame_build *b, const frame_problem *p)
{
    applied a = {.to = t, .build = b, .problem = p};
    const tolerance_row *given = (const void *)t->read.rows.kept;
    for (size_t i = 0; i < SPREAD_TABLES; i++) {
        a.taken[i] = calloc(count_of(b, i) + 1, sizeof *a.taken[i]);
        a.complaints.failed = a.complaints.failed || a.taken[i] == NULL;
    }
    for (size_t i = 0; i < t->read.rows.count && !a.complaints.failed; i++) apply_row(&a, &given[i]);
    add_clocks(&a);
    if (a.complaints.failed) say("out of memory");
    if (a.complaints.length > 0) say_lines(a.complaints.at);
    const bool fine = !a.complaints.failed && a.complaints.length == 0;
    text_free(&a.complaints);
    for (size_t i = 0; i < SPREAD_TABLES; i++) free(a.taken[i]);
    return fine;
}
