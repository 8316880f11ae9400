#include "report/text/inspect_text.h"

#include "report/lines.h"
#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

static grid_tone verdict_tone(int verdict)
{
    return verdict == INSPECT_MEETS ? TONE_GOOD : TONE_BAD;
}

static void say_counts(text *out, const inspect_row *rows, size_t count, const screen *s)
{
    size_t tubes = 0, of[4] = {0};
    for (size_t i = 0; i < count; i++) {
        if (rows[i].repeated) continue;
        tubes++;
        of[rows[i].verdict]++;
    }
    text line = {0};
    text_format(&line, "%zu of %zu tubes meet the spec", of[INSPECT_MEETS], tubes);
    if (of[INSPECT_BELOW] > 0) text_format(&line, "; %zu BELOW it", of[INSPECT_BELOW]);
    if (of[INSPECT_RECHECK] > 0) text_format(&line, "; %zu to recheck", of[INSPECT_RECHECK]);
    if (of[INSPECT_UNREAD] > 0) text_format(&line, "; %zu not read enough", of[INSPECT_UNREAD]);
    text_char(&line, '.');
    put_paragraph(out, &line, 2, of[INSPECT_MEETS] == tubes ? TONE_GOOD : TONE_BAD, s);
    text_free(&line);
    text_char(out, '\n');
}

/* A length as it was read, or worked out from what was read: to 0.0001 in, as a wall gauge shows. */
static void add_reading(grid *g, double value, unit_system units)
{
    text t = {0};
    put_decimals(&t, shown(value, DIM_LENGTH, units), units == UNITS_US ? 4 : 3, ROUND_NEAREST);
    grid_text(g, TONE_PLAIN, &t);
}

static void add_tube(grid *g, const inspect_row *r, unit_system units)
{
    add_name(g, r->tag);
    add_name(g, r->part);
    grid_cell(g, verdict_tone(r->verdict), r->verdict == INSPECT_BELOW ? "BELOW" : inspect_words[r->verdict].word);
    add_reading(g, r->od_mean, units);
    add_reading(g, r->bore.mean, units);
    add_reading(g, r->wall_least, units);
    add_reading(g, r->bore.least, units);
    if (isnan(r->bore.thin_clock))
        grid_cell(g, TONE_PLAIN, "-");
    else
        add_clock(g, r->bore.thin_clock, 0);
    add_quantity(g, r->bow, DIM_LENGTH, units, ROUND_NEAREST);
}

static void say_tubes(text *out, const inspect_row *rows, size_t count, const screen *s)
{
    const char *u = unit_name(DIM_LENGTH, s->units);
    grid g = {0};
    grid_column(&g, GRID_NAME, "tag");
    grid_column(&g, GRID_NAME, "part");
    grid_spare(&g, 3);
    grid_column(&g, GRID_LEFT, "verdict");
    grid_column(&g, GRID_RIGHT, "mean od, %s", u);
    grid_spare(&g, 2);
    grid_column(&g, GRID_RIGHT, "mean wall, %s", u);
    grid_spare(&g, 1);
    grid_column(&g, GRID_RIGHT, "least read, %s", u);
    grid_column(&g, GRID_RIGHT, "thinnest, %s", u);
    grid_column(&g, GRID_RIGHT, "at, deg");
    grid_column(&g, GRID_RIGHT, "bow, %s", u);
    for (size_t i = 0; i < count; i++)
        if (!rows[i].repeated) add_tube(&g, &rows[i], s->units);
    grid_write(out, &g, s);
    grid_free(&g);
}

static void say_reasons(text *out, const inspect_row *rows, size_t count, const screen *s)
{
    text_char(out, '\n');
    for (size_t i = 0; i < count; i++) {
        if (rows[i].repeated || *rows[i].reason == '\0') continue;
        text line = {0};
        text_put(&line, "  ");
        put_printable(&line, rows[i].tag);
        text_format(&line, ": %s", rows[i].reason);
        put_lines(out, &line, 4, s);
    }
}

static const char *cost_of(const inspect_row *r)
{
    if (isnan(r->od_mean) || isnan(r->bore.least)) return "needs od, wall";
    return isnan(r->margin_measured) ? "is outside the model" : r->margin_measured < 0 ? "falls SHORT" : "holds";
}

static void say_margins(text *out, const inspect_row *rows, size_t count, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "case");
    grid_column(&g, GRID_NAME, "with tag");
    grid_column(&g, GRID_RIGHT, "as drawn");
    grid_column(&g, GRID_RIGHT, "as measured");
    grid_column(&g, GRID_WORDS, "so it");
    for (size_t i = 0; i < count; i++) {
        const inspect_row *r = &rows[i];
        if (*r->name == '\0') continue;
        add_name(&g, r->name);
        add_name(&g, r->tag);
        add_margin(&g, r->margin_nominal);
        add_margin(&g, r->margin_measured);
        grid_cell(&g, TONE_PLAIN, cost_of(r));
    }
    if (g.count > 0) {
        text_put(out, "\nMargins of the load cases:\n");
        grid_write(out, &g, s);
        put_sentence(out, "As measured: mean outside diameter, and the thinnest wall all round, which is on the safe side.", 0, s);
    }
    grid_free(&g);
}

void inspect_text(text *out, const inspect_row *rows, size_t count, const screen *s)
{
    put_refused(out, s);
    if (count > 0) {
        say_counts(out, rows, count, s);
        say_tubes(out, rows, count, s);
        say_reasons(out, rows, count, s);
        say_margins(out, rows, count, s);
    }
    put_end(out, s);
}
