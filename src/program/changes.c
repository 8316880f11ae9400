#include "program/changes.h"

#include "program/case_columns.h"
#include "program/say.h"
#include "table/names.h"

#include <stdlib.h>
#include <string.h>

struct change {
    const field *field;
    const char *text;     /* of a text; NULL for others and for the default */
    const field_word *word;
    bool is_number;
    measure given;        /* as typed */
    double value;         /* in the program's unit, once the unit is known */
    column_unit unit;
};

static bool refuse(const field *f, const char *value)
{
    text allowed = {0};
    const char *nearest = field_nearest_word(f, value);
    const bool takes_number = f->kind == FIELD_EITHER;
    for (const field_word *w = f->words; w->word != NULL; w++) text_format(&allowed, "%s%s", w == f->words ? "" : ", ", w->word);
    say("--set: %s: '%s' is %snot one of %s%s%s%s", f->name, value, takes_number ? "no number and " : "",
        allowed.failed ? "its words" : allowed.at, nearest != NULL ? "; did you mean '" : "", nearest != NULL ? nearest : "", nearest != NULL ? "'?" : "");
    text_free(&allowed);
    return false;
}

static const field_word *word_named(const field *f, const char *value)
{
    for (const field_word *w = f->words; w != NULL && w->word != NULL; w++)
        if (name_is(w->word, value, strlen(value))) return w;
    return NULL;
}

/* The value in the unit that is known by now. Returned: false after a message that says the bounds. */
static bool take_value(change *c)
{
    if (!case_measure_in(&c->unit, &c->given, &c->value)) return false;
    if (field_allows(c->field, c->value)) return true;
    text bounds = {0};
    const unit *u = c->given.has_unit ? unit_shown(c->field->dimension, UNITS_US) : c->unit.unit;
    field_say_bounds(&bounds, c->field, u);
    say("--set: %s: '%.*s' %s", c->field->name, (int)c->given.length, c->given.at, bounds.failed ? "is out of bounds" : bounds.at);
    text_free(&bounds);
    return false;
}

static bool holds_a_digit(const char *value)
{
    return strpbrk(value, "0123456789") != NULL;
}

static bool read_value(change *c, const char *value)
{
    const field *f = c->field;
    const bool needed = (f->rule & FIELD_REQUIRED) != 0;
    if (*value == '\0' && needed) say("--set: %s: is empty: a value is needed", f->name);
    if (*value == '\0') return !needed;
    if (f->kind == FIELD_TEXT) c->text = value;
    if (f->kind == FIELD_TEXT) return true;
    c->word = word_named(f, value);
    if (c->word != NULL) return true;
    c->is_number = f->kind == FIELD_NUMBER || (f->kind == FIELD_EITHER && holds_a_digit(value));
    if (!c->is_number) return refuse(f, value);
    c->unit = (column_unit){.option = "set", .field = f};
    if (!case_measure("set", f, value, strlen(value), &c->given)) return false;
    return !c->given.has_unit || take_value(c);
}

static bool read_change(change *c, const char *given)
{
    const char *equals = strchr(given, '=');
    if (equals == NULL) {
        say("--set: '%s' is not COLUMN=VALUE", given);
        return false;
    }
    c->field = case_column_of_any_kind("set", given, (size_t)(equals - given));
    return c->field != NULL && read_value(c, equals + 1);
}

bool changes_open(case_changes *c, const options *o)
{
    *c = (case_changes){.count = 0};
    field_defaults(&case_list, &c->prototype);
    c->prototype.member.factor = o->factor;
    if (o->set_count == 0) return true;
    c->at = calloc(o->set_count, sizeof *c->at);
    if (c->at == NULL) say("out of memory");
    for (; c->at != NULL && c->count < o->set_count; c->count++) {
        if (!read_change(&c->at[c->count], o->sets[c->count])) return false;
        for (size_t i = 0; i < c->count; i++)
            if (c->at[i].field == c->at[c->count].field) {
                say("--set: %s is given twice", c->at[i].field->name);
                return false;
            }
    }
    return c->at != NULL;
}

void changes_close(case_changes *c)
{
    free(c->at);
    *c = (case_changes){0};
}

bool changes_begin(case_changes *c, const char *file, const reader *from)
{
    for (size_t i = 0; i < c->count; i++) {
        change *one = &c->at[i];
        if (!one->is_number || one->given.has_unit) continue;
        if (!column_unit_take(&one->unit, file, from) || !take_value(one)) return false;
    }
    return true;
}

static void make(const change *c, const load_case *prototype, load_case *to)
{
    const size_t at = c->field->offset;
    if (c->is_number) field_set(c->field, to, c->value);
    else if (c->word != NULL) field_set_word(c->field, to, c->word->value);
    else if (c->text != NULL) memcpy((char *)to + at, &c->text, sizeof c->text);
    else if (c->field->kind == FIELD_WORD) memcpy((char *)to + at, (const char *)prototype + at, sizeof(int));
    else memcpy((char *)to + at, (const char *)prototype + at, c->field->kind == FIELD_TEXT ? sizeof(char *) : sizeof(double));
}

void changes_make(const case_changes *c, load_case *to)
{
    for (size_t i = 0; i < c->count; i++) make(&c->at[i], &c->prototype, to);
}
