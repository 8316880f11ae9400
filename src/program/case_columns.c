#include "program/case_columns.h"

#include "program/say.h"

#include <float.h>
#include <math.h>
#include <string.h>

static void say_unknown(const char *option, const char *name)
{
    const char *nearest = field_nearest(&case_list, name);
    if (nearest != NULL)
        say("--%s: there is no column '%s'; did you mean '%s'?", option, name, nearest);
    else
        say("--%s: there is no column '%s'; see 'railbow columns'", option, name);
}

const field *case_column_of_any_kind(const char *option, const char *name, size_t length)
{
    char copy[64];
    if (length >= sizeof copy) length = sizeof copy - 1;
    memcpy(copy, name, length);
    copy[length] = '\0';
    const field *f = field_find(&case_list, copy);
    if (f == NULL) say_unknown(option, copy);
    return f;
}

const field *case_column(const char *option, const char *name, size_t length)
{
    const field *f = case_column_of_any_kind(option, name, length);
    if (f == NULL) return NULL;
    const bool is_number = f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER;
    if (is_number && case_is_of_member(f)) return f;
    if (is_number) say("--%s: no margin depends on column '%s': it is for life", option, f->name);
    else say("--%s: column '%s' is not a number", option, f->name);
    return NULL;
}

bool case_measure(const char *option, const field *f, const char *at, size_t length, measure *m)
{
    const char *advice = measure_advice(at, length);
    if (advice == NULL && measure_read(at, length, f->dimension, m)) return true;
    text names = {0};
    if (f->dimension != DIM_NONE) {
        text_put(&names, ", alone or with its unit: ");
        unit_say_names(&names, f->dimension);
    }
    if (advice != NULL) say("--%s: %s: '%.*s' is not one number: %s", option, f->name, (int)length, at, advice);
    else say("--%s: %s: '%.*s' is not a number%s", option, f->name, (int)length, at, names.at != NULL ? names.at : "");
    text_free(&names);
    return false;
}

bool case_range_refuse(const char *given)
{
    say("--vary: '%s' is not COLUMN=FROM:TO:STEP", given);
    return false;
}

bool case_range(const field *f, const char *given, const char *at, measure three[3])
{
    for (int i = 0; i < 3; i++) {
        const size_t length = strcspn(at, ":");
        if ((at[length] == ':') != (i < 2)) return case_range_refuse(given);
        if (!case_measure("vary", f, at, length, &three[i])) return false;
        at += length + (at[length] == ':');
    }
    if (three[0].has_unit == three[1].has_unit && three[1].has_unit == three[2].has_unit) return true;
    say("--vary: '%s': either all three values have their unit, or none", given);
    return false;
}

bool case_measure_in(const column_unit *c, const measure *m, double *value)
{
    if (measure_in(m, c->unit, value)) return true;
    say("--%s: %s: '%.*s' is a fraction, but the column is in %s: write its unit, or a decimal", c->option, c->field->name,
        (int)m->length, m->at, c->unit != NULL ? c->unit->name : "no unit");
    return false;
}

bool case_is_wall(const field *f)
{
    return f->offset == offsetof(load_case, member.wall);
}

void case_value_say(text *out, const field *f, double value)
{
    const unit *u = unit_shown(f->dimension, UNITS_US);
    text_format(out, "%.6g", u != NULL ? unit_from_own(u, value) : value);
    if (u != NULL) text_format(out, " %s", u->name);
}

double case_present(const load_case *c, const field *f)
{
    const double value = field_get(f, c);
    if (isinf(value) || fabs(value) < DBL_MAX / 4) return value; /* fixed and rigid are infinite */
    if (f->offset == offsetof(load_case, member.point_at) || f->offset == offsetof(load_case, member.bow_at))
        return c->member.length / 2;
    if (f->offset == offsetof(load_case, member.factor_yield)) return c->member.factor;
    if (f->offset == offsetof(load_case, member.weld_zone)) return rbow_member_taken(&c->member, &(rbow_result){0}).weld_zone;
    return NAN;
}
