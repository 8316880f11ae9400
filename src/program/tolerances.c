#include "program/tolerances.h"

#include "program/exit_status.h"
#include "program/pipeline.h"
#include "program/say.h"
#include "table/messages.h"
#include "table/names.h"

#include <math.h>
#include <string.h>

static bool is_number(const field *f)
{
    return f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER;
}

const field *tolerance_field(const tolerances *t, const tolerance_row *given, size_t *list)
{
    for (size_t i = 0; i < t->list_count; i++) {
        const field *f = field_find(t->lists[i], given->column);
        if (f == NULL || !is_number(f) || (t->may_vary != NULL && !t->may_vary(f))) continue;
        if (list != NULL) *list = i;
        return f;
    }
    return NULL;
}

/* NULL where the column is there, but is no number. */
static const char *nearest_column(const tolerances *t, const char *column)
{
    nearest_name n = nearest_to(column);
    for (size_t i = 0; i < t->list_count; i++) {
        if (field_find(t->lists[i], column) != NULL) return NULL;
        const char *near = field_nearest(t->lists[i], column);
        if (near != NULL) nearest_try(&n, near);
    }
    return n.best;
}

static const unit *unit_of_column(const field *f, const char *name)
{
    return *name == '\0' ? unit_shown(f->dimension, UNITS_US) : unit_find(f->dimension, name, strlen(name));
}

static bool is_percent(const tolerance_row *t)
{
    return strcmp(t->unit, "%") == 0;
}

static bool unit_fits(const field *f, const tolerance_row *given, const source_line *at, text *complaints)
{
    if (is_percent(given) || unit_of_column(f, given->unit) != NULL || (f->dimension == DIM_NONE && *given->unit == '\0')) return true;
    text names = {0};
    if (f->dimension != DIM_NONE) unit_say_names(&names, f->dimension);
    message_add(complaints, at->file, at->line, "unit", "'%.20s' is not a unit of %s: %s%s%%", given->unit, f->name,
                names.at != NULL ? names.at : "", names.at != NULL ? ", or " : "leave it empty, or ");
    text_free(&names);
    return false;
}

/* A number column on which no margin depends. */
static bool is_idle(const tolerances *t, const char *column)
{
    for (size_t i = 0; i < t->list_count; i++) {
        const field *f = field_find(t->lists[i], column);
        if (f != NULL && is_number(f) && t->may_vary != NULL && !t->may_vary(f)) return true;
    }
    return false;
}

static int keep_tolerance(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const tolerances *t = context;
    tolerance_row given = *(const tolerance_row *)record;
    const field *f = tolerance_field(t, &given, NULL);
    given.line = at->line;
    if (f == NULL && is_idle(t, given.column)) {
        message_add(complaints, at->file, at->line, "column", "no margin depends on '%.40s': it is for life", given.column);
        return NO_VERDICT;
    }
    if (f == NULL) {
        const char *nearest = nearest_column(t, given.column);
        message_add(complaints, at->file, at->line, "column", "'%.40s' is not a number column of %s%s%s%s", given.column, t->where,
                    nearest != NULL ? "; did you mean '" : "", nearest != NULL ? nearest : "", nearest != NULL ? "'?" : "");
        return NO_VERDICT;
    }
    if (!t->of_frame && *given.name != '\0') {
        message_add(complaints, at->file, at->line, "name", "picks tubes or joints of a frame, and these are load cases: pick them with "
                                                            "--case, or leave it empty");
        return NO_VERDICT;
    }
    if (!unit_fits(f, &given, at, complaints)) return NO_VERDICT;
    rows_add(answers, &given);
    return ALL_HOLD;
}

bool tolerances_open(tolerances *t, const options *o)
{
    output memory = {.format = FORMAT_TEXT};
    tolerance_row prototype;
    t->rows = rows_for(&memory, &tolerance_list);
    t->file = o->tolerances;
    if (o->tolerances == NULL) {
        say("scatter: name a file with --tolerances; see 'railbow help scatter'");
        return false;
    }
    field_defaults(&tolerance_list, &prototype);
    const pipeline p = {
        .list = &tolerance_list,
        .prototype = &prototype,
        .results = &tolerance_list,
        .jobs = 1,
        .out = &memory,
        .kept = &t->rows,
        .context = t,
        .answer = keep_tolerance,
    };
    char *file[] = {(char *)o->tolerances};
    return pipeline_run(&p, file, 1) == ALL_HOLD;
}

void tolerances_close(tolerances *t)
{
    rows_free(&t->rows);
}

void tolerance_sides(const tolerance_row *given, const field *f, double now, double *minus, double *plus)
{
    const unit *u = is_percent(given) ? NULL : unit_of_column(f, given->unit);
    const double scale = is_percent(given) ? fabs(now) / 100 : u != NULL ? u->factor : 1;
    *minus = given->minus * scale;
    *plus = given->plus * scale;
}
