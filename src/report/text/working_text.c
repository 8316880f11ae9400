#include "report/text/working_text.h"

#include "report/lines.h"
#include "report/text/cells.h"

#include <string.h>

static const char *numbers_of(const working_row *r)
{
    return r->numbers.at != NULL ? r->numbers.at : "";
}

step_row step_row_of(const char *name, const char *part, const working_row *r)
{
    return (step_row){name, part, r->step, r->formula, numbers_of(r), r->value, r->unit, r->source};
}

static void put_heading(text *out, const working_row *r, const screen *s)
{
    text line = {0};
    text_char(out, '\n');
    text_put(&line, r->step);
    if (*r->source != '\0') text_format(&line, "  [%s]", r->source);
    put_lines(out, &line, 4, s);
}

/* "by search" is no arithmetic; "4600 = 4600" tells nothing. */
static void put_numbers(text *line, const working_row *r)
{
    const char *numbers = numbers_of(r);
    const bool by_hand = strpbrk(numbers, "0123456789") != NULL, same = strcmp(numbers, r->result) == 0;
    if (by_hand && !same) text_format(line, "= %s ", numbers);
    text_format(line, "= %s", r->result);
    if (*r->unit != '\0') text_format(line, " %s", r->unit);
    if (!by_hand && !same) text_format(line, "  (%s)", numbers);
}

static void put_step(text *out, const working_row *r, const screen *s)
{
    text line = {0};
    text_format(&line, "  %s: %s  %s[%s]%s", r->step, r->formula, tone_on(TONE_QUIET, s->colour), r->source,
                tone_off(s->colour));
    put_lines(out, &line, 8, s);
    text_put(&line, "      ");
    put_numbers(&line, r);
    put_lines(out, &line, 8, s);
}

void working_text(text *out, const working *w, const screen *s)
{
    for (size_t i = 0; i < w->count; i++) {
        const bool heading = *w->rows[i].formula == '\0';
        if (heading)
            put_heading(out, &w->rows[i], s);
        else
            put_step(out, &w->rows[i], s);
    }
}

/* ---- what was given --------------------------------------------------------------------------------- */

static bool is_given(const field *f, const void *record, const void *prototype)
{
    if ((f->rule & FIELD_REQUIRED) != 0) return true;
    const char *word = field_text(f, record), *plain = field_text(f, prototype);
    if (word != NULL && plain != NULL) return strcmp(word, plain) != 0;
    if (f->kind == FIELD_WORD || word != NULL || plain != NULL) return word != plain; /* one may have no word */
    const double value = field_get(f, record), fallback = field_get(f, prototype);
    return value < fallback || value > fallback;
}

static void put_given(text *cell, const field *f, const void *record, unit_system units)
{
    const char *word = field_text(f, record);
    const unit *shown = unit_shown(f->dimension, units);
    if (word != NULL) {
        put_printable(cell, word);
        return;
    }
    put_number(cell, shown != NULL ? unit_from_own(shown, field_get(f, record)) : field_get(f, record), WORKING_DIGITS);
    if (shown != NULL) text_format(cell, " %s", shown->name);
}

static void put_fields(text *out, const field_list *list, const void *record, const void *prototype, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_LEFT, "%s", "");
    grid_column(&g, GRID_WORDS, "%s", "");
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        if (prototype != NULL && !is_given(f, record, prototype)) continue;
        text name = {0}, cell = {0};
        text_format(&name, "  %s", f->name);
        put_given(&cell, f, record, s->units);
        grid_text(&g, TONE_PLAIN, &name);
        grid_text(&g, TONE_PLAIN, &cell);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

void given_text(text *out, const field_list *list, const void *record, const void *prototype, const screen *s)
{
    put_fields(out, list, record, prototype, s);
}

void record_text(text *out, const field_list *list, const void *record, const screen *s)
{
    put_fields(out, list, record, NULL, s);
}
