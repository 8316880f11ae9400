#include "report/text/limit_text.h"

#include "report/lines.h"
#include "report/text/cells.h"
#include "report/values.h"

#include <math.h>

/* Only stiffnesses can be infinite; what is not a number is a word. */
static void add_value(grid *g, double value, const field *column, unit_system units)
{
    text t = {0};
    if (isinf(value))
        text_put(&t, value > 0 ? "rigid" : "-");
    else
        put_number(&t, shown(value, column->dimension, units), 5);
    grid_cell(g, TONE_PLAIN, t.at != NULL ? t.at : "");
    text_free(&t);
}

static const char *state_of(const limit_row *r)
{
    if (r->short_now) return "SHORT now, outside the range";
    if (r->found.state == LIMIT_ALREADY) return "SHORT from the start";
    if (r->before) return r->found.state == LIMIT_FOUND ? "falls short beyond it *" : "holds to the end *";
    if (r->found.state == LIMIT_FOUND) return r->room < 0 ? "now PAST it" : "falls short beyond it";
    if (r->room < 0) return "holds to the end; now lies beyond";
    return !isnan(r->found.ends_at) ? "holds as far as the model goes" : "holds to the end";
}

static void say_summary(text *out, const limit_row *rows, size_t count, const limit_asked *asked, unit_system units,
                        bool colour)
{
    size_t past = 0;
    for (size_t i = 0; i < count; i++) past += limit_is_past(&rows[i]);
    text line = {0};
    text_format(&line, "%s from ", asked->column->name);
    put_number(&line, shown(asked->from, asked->column->dimension, units), 6);
    text_put(&line, " to ");
    put_value(&line, asked->to, asked->column->dimension, units);
    text_format(&line, ", for a margin of at least %.1f %%: ", 100 * asked->margin);
    if (past == 0)
        text_put(&line, count == 1 ? "the case is inside its limit." : "every case is inside its limit.");
    else if (count == 1)
        text_put(&line, "the case is past the limit.");
    else
        text_format(&line, "%zu of %zu cases %s past the limit.", past, count, past == 1 ? "is" : "are");
    put_paragraph(out, &line, past == 0 ? TONE_GOOD : TONE_BAD, colour);
    text_char(out, '\n');
    text_free(&line);
}

static void say_rows(text *out, const limit_row *rows, size_t count, const limit_asked *asked, unit_system units,
                     bool colour)
{
    static const char *const names[] = {"now", "limit", "room"};
    const char *u = unit_name(asked->column->dimension, units);
    grid g = {0};
    text heads[3] = {{0}};
    bool some_before = false;
    grid_column(&g, "case", GRID_LEFT);
    for (int i = 0; i < 3; i++) {
        text_format(&heads[i], "%s%s%s", names[i], *u != '\0' ? ", " : "", u);
        grid_column(&g, heads[i].at != NULL ? heads[i].at : "", GRID_RIGHT);
    }
    grid_column(&g, "state", GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const limit_row *r = &rows[i];
        some_before = some_before || (r->before && !limit_is_past(r));
        add_name(&g, r->name);
        add_value(&g, r->now, asked->column, units);
        add_value(&g, r->found.limit, asked->column, units);
        add_value(&g, r->room, asked->column, units);
        grid_cell(&g, limit_is_past(r) ? TONE_BAD : TONE_GOOD, state_of(r));
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    if (some_before)
        wrap(out, "* now lies before the range: nothing between was looked at; begin with --from.", 0);
    for (int i = 0; i < 3; i++) text_free(&heads[i]);
}

/* A limit for a direction that nobody knows is that of the worst one: which it was is worth knowing. */
static void say_clocks(text *out, const limit_row *rows, size_t count)
{
    bool begun = false;
    for (size_t i = 0; i < count; i++) {
        text line = {0};
        for (int k = 0; k < LIMIT_CLOCKS; k++) {
            if (isnan(rows[i].clock_taken[k])) continue;
            text_format(&line, "%s%s ", line.length > 0 ? ", " : "", limit_clocks[k]);
            put_degrees(&line, rows[i].clock_taken[k]);
        }
        if (line.length > 0) {
            if (!begun) text_put(out, "\nDirections that are not known are taken at their worst; at the limit these are, in degrees:\n");
            begun = true;
            text said = {0};
            text_put(&said, "  ");
            put_name(&said, rows[i].name);
            text_format(&said, ": %s", text_string(&line, &out->failed));
            put_lines(out, &said, 4);
        }
        text_free(&line);
    }
}

void limit_text(text *out, const limit_row *rows, size_t count, const limit_asked *asked, bool faults, unit_system units,
                bool colour)
{
    if (count > 0) {
        say_summary(out, rows, count, asked, units, colour);
        say_rows(out, rows, count, asked, units, colour);
        say_clocks(out, rows, count);
    }
    put_end(out, faults);
}
