#include "table/field.h"

#include "table/names.h"
#include "table/number.h"
#include "table/text.h"

#include <math.h>
#include <string.h>

const field *field_find(const field_list *list, const char *name)
{
    const size_t length = strlen(name);
    for (size_t i = 0; i < list->count; i++)
        if (name_is(list->fields[i].name, name, length)) return &list->fields[i];
    return NULL;
}

const char *field_nearest(const field_list *list, const char *name)
{
    nearest_name n = nearest_to(name);
    for (size_t i = 0; i < list->count; i++) nearest_try(&n, list->fields[i].name);
    return n.best;
}

const char *field_nearest_word(const field *f, const char *word)
{
    nearest_name n = nearest_to(word);
    for (const field_word *w = f->words; w != NULL && w->word != NULL; w++) nearest_try(&n, w->word);
    return n.best;
}

static const char *value_in(const field *f, const void *record)
{
    return (const char *)record + f->offset;
}

double field_get(const field *f, const void *record)
{
    double value;
    memcpy(&value, value_in(f, record), sizeof value);
    return value;
}

void field_set(const field *f, void *record, double value)
{
    memcpy((char *)record + f->offset, &value, sizeof value);
}

/* The words of a FIELD_WORD or FIELD_SET stand for ints. */
void field_set_word(const field *f, void *record, double value)
{
    if (f->kind != FIELD_WORD && f->kind != FIELD_SET) {
        field_set(f, record, value);
        return;
    }
    const int number = (int)value;
    memcpy((char *)record + f->offset, &number, sizeof number);
}

/* A word may stand for NaN ("not given"), which equals nothing. */
static bool same_value(double a, double b)
{
    if (isnan(a) || isnan(b)) return isnan(a) && isnan(b);
    return !(a < b) && !(a > b);
}

static const char *word_of(const field *f, double value)
{
    for (const field_word *w = f->words; w != NULL && w->word != NULL; w++)
        if (same_value(w->value, value)) return w->word;
    return NULL;
}

const char *field_text(const field *f, const void *record)
{
    const char *at = NULL;
    int number;
    switch (f->kind) {
    case FIELD_TEXT: memcpy(&at, value_in(f, record), sizeof at); return at;
    case FIELD_WORD:
    case FIELD_SET: memcpy(&number, value_in(f, record), sizeof number); return word_of(f, number);
    case FIELD_EITHER: return word_of(f, field_get(f, record));
    case FIELD_NUMBER: break;
    }
    return NULL;
}

void field_defaults(const field_list *list, void *record)
{
    static const char *const no_text = "";
    memset(record, 0, list->record_size);
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        if (f->kind == FIELD_TEXT) memcpy((char *)record + f->offset, &no_text, sizeof no_text);
        else field_set_word(f, record, f->fallback);
    }
}

bool field_allows(const field *f, double value)
{
    return isfinite(value) && ((f->rule & FIELD_ABOVE) ? value > f->least : value >= f->least) &&
           ((f->rule & FIELD_BELOW) ? value < f->most : value <= f->most);
}

static void say_value(text *out, const char *relation, double value, const unit *shown_in)
{
    char digits[NUMBER_ROOM];
    number_write(digits, shown_in != NULL ? unit_from_own(shown_in, value) : value);
    text_format(out, "%s%s", relation, digits);
}

/* Nought is nought in every unit; any other bound needs its name. */
static void say_unit(text *out, double least, double most, const unit *shown_in)
{
    const bool needed = (isfinite(least) && fabs(least) > 0) || (isfinite(most) && fabs(most) > 0);
    if (needed && shown_in != NULL) text_format(out, " %s", shown_in->name);
}

void field_say_bounds(text *out, const field *f, const unit *shown_in)
{
    const bool has_least = isfinite(f->least), has_most = isfinite(f->most);
    const bool between = has_least && has_most && !(f->rule & (FIELD_ABOVE | FIELD_BELOW));
    const char *least_is = (f->rule & FIELD_ABOVE) ? "above " : "at least ";
    const char *most_is = (f->rule & FIELD_BELOW) ? "below " : "at most ";
    text_put(out, between ? "must lie between " : "must be ");
    if (!has_least && !has_most) text_put(out, "finite");
    if (has_least) say_value(out, between ? "" : least_is, f->least, shown_in);
    if (has_least && has_most) text_put(out, " and ");
    if (has_most) say_value(out, between ? "" : most_is, f->most, shown_in);
    say_unit(out, f->least, f->most, shown_in);
}
