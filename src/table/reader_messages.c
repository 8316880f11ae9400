#include "table/reader_messages.h"

#include "table/names.h"
#include "table/number.h"
#include "table/reader_advice.h"
#include "table/utf8.h"
#include "table/written_number.h"

#include <string.h>

static const char *word_names(reader *r, const field *f)
{
    size_t count = 0;
    text_clear(&r->said);
    while (f->words[count].word != NULL) count++;
    for (size_t i = 0; i < count; i++) text_item(&r->said, i, count, "or", f->words[i].word);
    return text_string(&r->said, &r->said.failed);
}

/* ---- why a cell is not a number ------------------------------------------------------------------ */

static size_t sign_length(const char *cell)
{
    return *cell == '-' || *cell == '+';
}

static bool is_infinite_or_nan(const char *cell, size_t n)
{
    const size_t sign = sign_length(cell);
    return name_is("inf", cell + sign, n - sign) || name_is("infinity", cell + sign, n - sign) ||
           name_is("nan", cell + sign, n - sign);
}

static bool is_hexadecimal(const char *cell)
{
    cell += sign_length(cell);
    return cell[0] == '0' && (cell[1] == 'x' || cell[1] == 'X');
}

/* The cell with its commas changed to points, or left out (comma 0). */
static const char *without_commas(reader *r, const char *cell, size_t n, char comma)
{
    text_clear(&r->said);
    for (size_t i = 0; i < n; i++) {
        if (cell[i] != ',') text_char(&r->said, cell[i]);
        else if (comma != '\0') text_char(&r->said, comma);
    }
    return text_string(&r->said, &r->said.failed);
}

static bool is_number(const char *cell)
{
    return number_is_written(cell, strlen(cell));
}

/* Three digits behind each comma, and no comma behind the point: 1,250,000.5 */
static bool has_sound_groups(const char *cell)
{
    const char *comma = strchr(cell, ','), *point = strchr(cell, '.');
    for (; comma != NULL; comma = strchr(comma + 1, ','))
        if ((point != NULL && comma > point) || strspn(comma + 1, "0123456789") != 3) return false;
    return true;
}

/* A comma may be the decimal point of one country or the digit groups of another; three digits behind it leave
 * both open. */
static bool refuse_commas(reader *r, const file_column *c, const char *cell, size_t n)
{
    const char *shown = reader_quote(r, cell, n);
    if (memchr(cell, ',', n) == NULL) return false;
    const bool grouped = is_number(without_commas(r, cell, n, '\0')), sound = grouped && has_sound_groups(cell);
    const bool pointed = is_number(without_commas(r, cell, n, '.'));
    if (comma_is_ambiguous(cell, n)) {
        const char *comma = strchr(cell, ',');
        const int before = (int)(comma - cell);
        reader_refuse(r, c, "%s can be read in two ways: write %.*s%s or %.*s.%s", shown, before, cell, comma + 1, before,
                      cell, comma + 1);
    } else if (pointed) {
        reader_refuse(r, c, "%s is not a number: use a decimal point, as in %s", shown, r->said.at);
    } else if (grouped && !sound) {
        reader_refuse(r, c, "%s is not a number: write one decimal point and nothing else between the digits", shown);
    } else if (grouped) {
        reader_refuse(r, c, "%s is not a number: leave out the commas, as in %s", shown,
                      without_commas(r, cell, n, '\0'));
    }
    return pointed || grouped || comma_is_ambiguous(cell, n);
}

/* Whether the cell is a number, perhaps blanks, and that unit. */
static bool has_unit_behind(const char *cell, size_t n, const char *name)
{
    const size_t length = strlen(name);
    if (n <= length || memcmp(cell + n - length, name, length) != 0) return false;
    n -= length;
    while (n > 0 && cell[n - 1] == ' ') n--;
    return number_is_written(cell, n);
}

static bool refuse_unit(reader *r, const file_column *c, const char *cell, size_t n)
{
    const unit *u;
    for (size_t i = 0; (u = unit_at(c->field->dimension, i)) != NULL; i++) {
        if (!has_unit_behind(cell, n, u->name)) continue;
        reader_refuse(r, c, "%s is not a number: the unit belongs in the header, as in '%s [%s]'",
                 reader_quote(r, cell, n), c->field->name, u->name);
        return true;
    }
    return false;
}

void reader_refuse_number(reader *r, const file_column *c, const char *cell, size_t n)
{
    if (c->field->refused != NULL && name_is(c->field->refused, cell, n)) {
        reader_refuse(r, c, "%s is not allowed here: %s", reader_quote(r, cell, n), c->field->advised);
        return;
    }
    if (refuse_commas(r, c, cell, n) || refuse_unit(r, c, cell, n) || reader_advise(r, c, cell, n)) return;
    const char *shown = reader_quote(r, cell, n);
    if (number_is_written(cell, n)) reader_refuse(r, c, "%s is too large", shown);
    else if (is_infinite_or_nan(cell, n)) reader_refuse(r, c, "%s is not a finite number", shown);
    else if (is_hexadecimal(cell)) reader_refuse(r, c, "%s is not a decimal number", shown);
    else reader_refuse(r, c, "%s is not a number", shown);
}

void reader_refuse_bounds(reader *r, const file_column *c, const char *cell, size_t n)
{
    text_clear(&r->said);
    field_say_bounds(&r->said, c->field, c->unit);
    reader_refuse(r, c, "%s is out of range: %s", reader_quote(r, cell, n), text_string(&r->said, &r->said.failed));
}

/* A cell of letters where a number may stand too was meant as a word. */
static bool looks_like_number(const char *cell)
{
    return strchr("+-.,0123456789#", *cell) != NULL || utf8_character(cell, strlen(cell)) > 1;
}

void reader_refuse_word(reader *r, const file_column *c, const char *cell, size_t n)
{
    const char *near = field_nearest_word(c->field, cell);
    const bool either = c->field->kind == FIELD_EITHER;
    if (either && looks_like_number(cell)) {
        reader_refuse_number(r, c, cell, n);
        return;
    }
    if (either && reader_advise(r, c, cell, n)) return;
    reader_refuse(r, c, "%s is %s %s%s%s%s", reader_quote(r, cell, n), either ? "neither a number nor" : "not known: use",
             word_names(r, c->field), near != NULL ? "; did you mean '" : "", near != NULL ? near : "",
             near != NULL ? "'?" : "");
}

void reader_refuse_words(reader *r, const file_column *c, const char *word, size_t n)
{
    reader_refuse(r, c, "%s is not known: use %s; several stand with blanks between them", reader_quote(r, word, n),
                  word_names(r, c->field));
}
