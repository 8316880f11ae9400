#include "table/field.h"

#include "table/number.h"
#include "table/text.h"

#include <math.h>
#include <string.h>

/* ASCII only and without a locale: the same file must mean the same everywhere. */
static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool same_name(const char *known, const char *given, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (known[i] == '\0' || lower(known[i]) != lower(given[i])) return false;
    return known[length] == '\0';
}

const field *field_find(const field_list *list, const char *name)
{
    const size_t length = strlen(name);
    for (size_t i = 0; i < list->count; i++)
        if (same_name(list->fields[i].name, name, length)) return &list->fields[i];
    return NULL;
}

enum { LETTERS_MOST = 64 }; /* no name or word that a program knows is longer */

static size_t least_of(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Levenshtein's distance: letters put in, taken out or changed. One row of the usual table is kept;
 * `diagonal` is the entry up and to the left. */
static size_t distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t row[LETTERS_MOST + 1];
    for (size_t j = 0; j <= b_length; j++) row[j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            const size_t changed = diagonal + (lower(a[i - 1]) != lower(b[j - 1]));
            diagonal = row[j];
            row[j] = least_of(changed, 1 + least_of(row[j], row[j - 1]));
        }
    }
    return row[b_length];
}

guess guess_of(const char *given)
{
    const size_t length = strlen(given), third = length / 3;
    return (guess){.given = given, .length = length, .changes = (third > 2 ? third : 2) + 1};
}

/* A candidate of which no letter stays is not near, however short both are. */
void guess_try(guess *g, const char *candidate)
{
    const size_t length = strlen(candidate);
    if (g->length > LETTERS_MOST || length > LETTERS_MOST) return;
    size_t changes = distance(g->given, g->length, candidate, length);
    if (changes > 2 && g->length > 1 && strncmp(g->given, candidate, g->length) == 0) changes = 2; /* cut short */
    if (changes >= g->changes || changes >= g->length || changes >= length) return;
    g->best = candidate;
    g->changes = changes;
}

const char *field_nearest(const field_list *list, const char *name)
{
    guess g = guess_of(name);
    for (size_t i = 0; i < list->count; i++) guess_try(&g, list->fields[i].name);
    return g.best;
}

const char *field_nearest_word(const field *f, const char *word)
{
    guess g = guess_of(word);
    for (const field_word *w = f->words; w != NULL && w->word != NULL; w++) guess_try(&g, w->word);
    return g.best;
}

static const char *place(const field *f, const void *record)
{
    return (const char *)record + f->offset;
}

double field_get(const field *f, const void *record)
{
    double value;
    memcpy(&value, place(f, record), sizeof value);
    return value;
}

void field_set(const field *f, void *record, double value)
{
    memcpy((char *)record + f->offset, &value, sizeof value);
}

/* The words of a FIELD_WORD stand for ints. */
void field_set_word(const field *f, void *record, double value)
{
    if (f->kind != FIELD_WORD) {
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
    case FIELD_TEXT: memcpy(&at, place(f, record), sizeof at); return at;
    case FIELD_WORD: memcpy(&number, place(f, record), sizeof number); return word_of(f, number);
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
