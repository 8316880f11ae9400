#include "table/writer.h"

#include "table/number.h"

#include <csv.h>
#include <math.h>
#include <string.h>

static bool has_unit(const field *f)
{
    return (f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER) && f->dimension != DIM_NONE;
}

void csv_header(text *out, const field_list *list, unit_system units)
{
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        if (i > 0) text_char(out, ',');
        text_put(out, f->name);
        if (has_unit(f)) text_format(out, " [%s]", unit_shown(f->dimension, units)->name);
    }
    text_char(out, '\n');
}

/* Blanks at the ends count too: unquoted, they are not part of the cell. */
static bool needs_quotes(const char *cell, size_t n)
{
    if (n == 0) return false;
    return cell[0] == ' ' || cell[0] == '\t' || cell[n - 1] == ' ' || cell[n - 1] == '\t' ||
           strpbrk(cell, ",\"\r\n") != NULL;
}

static size_t blank_length(const char *cell)
{
    static const char *const blanks[] = {" ", "\t", "\r", "\n", "\v", "\f", "\xC2\xA0", "\xE3\x80\x80", "\xEF\xBB\xBF"};
    for (size_t i = 0; i < sizeof blanks / sizeof *blanks; i++)
        if (strncmp(cell, blanks[i], strlen(blanks[i])) == 0) return strlen(blanks[i]);
    return 0;
}

/* What a spreadsheet would run: = + - @, their full-width forms, behind blanks too; and a leading tab or return. */
static bool is_formula(const char *cell)
{
    static const char *const signs[] = {"=", "+", "-", "@", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};
    const char *begin = cell;
    for (size_t blank; (blank = blank_length(begin)) > 0;) begin += blank;
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (strncmp(begin, signs[i], strlen(signs[i])) == 0) return true;
    return *cell == '\t' || *cell == '\r';
}

/* csv_write puts its opening quote where the apostrophe belongs; the quote then goes before it. */
static void add_quoted(text *out, const char *cell, size_t n, bool formula)
{
    const size_t room = 2 * n + 3;
    char *at = text_reserve(out, room);
    if (at == NULL) return;
    const size_t written = csv_write(at + formula, room - formula, cell, n);
    if (formula) memcpy(at, "\"'", 2);
    out->length += formula + written;
}

void csv_text(text *out, const char *cell)
{
    const size_t n = strlen(cell);
    const bool formula = is_formula(cell);
    if (needs_quotes(cell, n)) {
        add_quoted(out, cell, n, formula);
        return;
    }
    if (formula) text_char(out, '\'');
    text_add(out, cell, n);
}

/* The number and what stands behind it. */
static void add_number(text *out, const field *f, double value, unit_system units, char behind)
{
    char *at = text_reserve(out, NUMBER_ROOM + 1);
    if (at == NULL) return;
    const unit *u = unit_shown(f->dimension, units);
    if (u != NULL) value = unit_from_own(u, value);
    const size_t n = isnan(value) ? 0 : number_write(at, value);
    at[n] = behind;
    at[n + 1] = '\0';
    out->length += n + 1;
}

static void add_cell(text *out, const field *f, const void *record, unit_system units, char behind)
{
    const char *word = f->kind == FIELD_NUMBER ? NULL : field_text(f, record);
    if (word == NULL && (f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER)) {
        add_number(out, f, field_get(f, record), units, behind);
        return;
    }
    if (word != NULL) csv_text(out, word);
    text_char(out, behind);
}

void csv_row(text *out, const field_list *list, const void *record, unit_system units)
{
    for (size_t i = 0; i < list->count; i++)
        add_cell(out, &list->fields[i], record, units, i + 1 < list->count ? ',' : '\n');
}
