#include "report/text/inspect_text.h"

#include "report/lines.h"
#include "report/text/cells.h"
#include "report/text/measures.h"
#include "report/values.h"

#include <math.h>

static const double degree = 3.14159265358979323846 / 180;

enum { TAG_ROOM = 18 };

static grid_tone verdict_tone(int verdict)
{
    return verdict == INSPECT_MEETS ? TONE_GOOD : TONE_BAD;
}

static void say_counts(text *out, const inspect_row *rows, size_t count, bool colour)
{
    size_t tubes = 0, of[4] = {0};
    for (size_t i = 0; i < count; i++) {
        if (rows[i].repeated) continue;
        tubes++;
        of[rows[i].verdict]++;
    }
    text_put(out, tone_on(of[INSPECT_MEETS] == tubes ? TONE_GOOD : TONE_BAD, colour));
    text_format(out, "%zu of %zu tubes meet the spec", of[INSPECT_MEETS], tubes);
    if (of[INSPECT_BELOW] > 0) text_format(out, "; %zu BELOW it", of[INSPECT_BELOW]);
    if (of[INSPECT_RECHECK] > 0) text_format(out, "; %zu to recheck", of[INSPECT_RECHECK]);
    if (of[INSPECT_UNREAD] > 0) text_format(out, "; %zu not read enough", of[INSPECT_UNREAD]);
    text_format(out, ".%s\n\n", tone_off(colour));
}

static void say_tubes(text *out, const inspect_row *rows, size_t count, unit_system units, bool colour)
{
    static const char *const names[] = {"od", "wall", "least read", "thinnest", "bow"}; /* wall: the mean */
    text heads[5] = {{0}};
    grid g = {0};
    for (int i = 0; i < 5; i++) text_format(&heads[i], "%s, %s", names[i], unit_shown(DIM_LENGTH, units)->name);
    grid_column(&g, "tag", GRID_LEFT);
    grid_column(&g, "part", GRID_LEFT);
    grid_column(&g, "verdict", GRID_LEFT);
    for (int i = 0; i < 4; i++) grid_column(&g, heads[i].at, GRID_RIGHT);
    grid_column(&g, "at, deg", GRID_RIGHT);
    grid_column(&g, heads[4].at, GRID_RIGHT);
    for (size_t i = 0; i < count; i++) {
        const inspect_row *r = &rows[i];
        if (r->repeated) continue;
        text tag = {0}, part = {0};
        shorten(&tag, r->tag, TAG_ROOM);
        shorten(&part, r->part, 14);
        grid_cell(&g, TONE_PLAIN, tag.at != NULL ? tag.at : "");
        grid_cell(&g, TONE_PLAIN, part.at != NULL ? part.at : "");
        text_free(&tag);
        text_free(&part);
        grid_cell(&g, verdict_tone(r->verdict), r->verdict == INSPECT_BELOW ? "BELOW" : inspect_words[r->verdict].word);
        add_measure(&g, r->od_mean, DIM_LENGTH, units, 5);
        add_measure(&g, r->bore.mean, DIM_LENGTH, units, 4);
        add_measure(&g, r->wall_least, DIM_LENGTH, units, 4);
        add_measure(&g, r->bore.least, DIM_LENGTH, units, 4);
        if (isnan(r->bore.thin_clock))
            grid_cell(&g, TONE_PLAIN, "-");
        else
            grid_format(&g, TONE_PLAIN, "%.0f", r->bore.thin_clock / degree);
        add_measure(&g, r->bow, DIM_LENGTH, units, 3);
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    for (int i = 0; i < 5; i++) text_free(&heads[i]);
}

static void say_reasons(text *out, const inspect_row *rows, size_t count)
{
    text_char(out, '\n');
    for (size_t i = 0; i < count; i++) {
        if (rows[i].repeated || *rows[i].reason == '\0') continue;
        text line = {0};
        text_put(&line, "  ");
        shorten(&line, rows[i].tag, TAG_ROOM);
        text_format(&line, ": %s", rows[i].reason);
        put_lines(out, &line, 4);
    }
}

static const char *cost_of(const inspect_row *r)
{
    if (isnan(r->od_mean) || isnan(r->bore.least)) return "needs od, wall";
    return isnan(r->margin_measured) ? "is outside the model" : r->margin_measured < 0 ? "falls SHORT" : "holds";
}

static void say_margins(text *out, const inspect_row *rows, size_t count, bool colour)
{
    grid g = {0};
    grid_column(&g, "what it costs", GRID_LEFT);
    grid_column(&g, "tag", GRID_LEFT);
    grid_column(&g, "as drawn", GRID_RIGHT);
    grid_column(&g, "as measured", GRID_RIGHT);
    grid_column(&g, "so it", GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const inspect_row *r = &rows[i];
        if (*r->name == '\0') continue;
        text name = {0}, tag = {0}, nominal = {0}, measured = {0};
        shorten(&name, r->name, 30);
        shorten(&tag, r->tag, TAG_ROOM);
        put_percent(&nominal, r->margin_nominal);
        if (isnan(r->margin_measured))
            text_put(&measured, "-");
        else
            put_percent(&measured, r->margin_measured);
        grid_cell(&g, TONE_PLAIN, name.at);
        grid_cell(&g, TONE_PLAIN, tag.at);
        grid_cell(&g, r->margin_nominal >= 0 ? TONE_GOOD : TONE_BAD, nominal.at);
        grid_cell(&g, r->margin_measured >= 0 ? TONE_GOOD : TONE_BAD, measured.at);
        grid_cell(&g, TONE_PLAIN, cost_of(r));
        text_free(&name);
        text_free(&tag);
        text_free(&nominal);
        text_free(&measured);
    }
    if (g.count > 0) {
        text_char(out, '\n');
        grid_write(out, &g, colour);
        text_put(out, "As measured: mean outside diameter, and the thinnest wall all round, which is on the safe side.\n");
    }
    grid_free(&g);
}

void inspect_text(text *out, const inspect_row *rows, size_t count, bool faults, unit_system units, bool colour)
{
    if (count > 0) {
        say_counts(out, rows, count, colour);
        say_tubes(out, rows, count, units, colour);
        say_reasons(out, rows, count);
        say_margins(out, rows, count, colour);
    }
    put_end(out, faults);
}
