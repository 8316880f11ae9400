#include "report/text/shop/sticks_text.h"

#include "report/shop/shop_words.h"
#include "report/lines.h"
#include "report/text/cells.h"

#include <math.h>
#include <string.h>

static void say_size(text *out, const stick_row *r, const screen *s)
{
    text line = {0};
    put_value(&line, r->od, DIM_LENGTH, s->units);
    text_put(&line, " x ");
    put_value(&line, r->wall, DIM_LENGTH, s->units);
    text_put(&line, ": ");
    put_plan(&line, r);
    put_lines(out, &line, 2, s);
}

/* ---- a stick --------------------------------------------------------------------------------------------------------------------- */

static void add_place(grid *g, double value, unit_system units)
{
    text t = {0};
    put_stick_place(&t, value, units);
    grid_text(g, TONE_PLAIN, &t);
    if (units != UNITS_US) return;
    put_inches(&t, value);
    grid_text(g, TONE_PLAIN, &t);
}

static void add_bow(grid *g, double bow, unit_system units, rounding way)
{
    text t = {0};
    if (isnan(bow)) text_char(&t, '-');
    else put_bare(&t, bow, DIM_LENGTH, units, way);
    grid_text(g, TONE_PLAIN, &t);
}

static void say_head(text *out, const stick_row *r, const screen *s)
{
    text line = {0};
    text_char(&line, '\n');
    put_printable(&line, r->stick);
    text_put(&line, ": ");
    put_stick_length(&line, r->stick_length, s->units);
    text_put(&line, isnan(r->stick_bow) ? ", bow not known" : ", bow ");
    if (!isnan(r->stick_bow)) put_quantity(&line, r->stick_bow, DIM_LENGTH, s->units, ROUND_NEAREST);
    put_lines(out, &line, 2, s);
}

static void say_pieces(text *out, const stick_row *rows, size_t count, const screen *s)
{
    const char *u = unit_name(DIM_LENGTH, s->units);
    grid g = {0};
    grid_column(&g, GRID_RIGHT, "#");
    grid_column(&g, GRID_NAME, "part");
    grid_column(&g, GRID_RIGHT, "from, %s", u);
    if (s->units == UNITS_US) grid_column(&g, GRID_RIGHT, "tape");
    grid_column(&g, GRID_RIGHT, "to, %s", u);
    if (s->units == UNITS_US) grid_column(&g, GRID_RIGHT, "tape");
    grid_column(&g, GRID_RIGHT, "bow, %s", u);
    grid_spare(&g, 1);
    grid_column(&g, GRID_RIGHT, "at most");
    grid_spare(&g, 2);
    for (size_t i = 0; i < count; i++) {
        const stick_row *r = &rows[i];
        grid_format(&g, TONE_PLAIN, "%.0f", r->position);
        add_name(&g, r->part);
        add_place(&g, r->cut_from, s->units);
        add_place(&g, r->cut_to, s->units);
        add_bow(&g, r->bow, s->units, ROUND_UP);
        if (isnan(r->bow_most)) grid_cell(&g, TONE_QUIET, "any");
        else add_bow(&g, r->bow_most, s->units, ROUND_DOWN);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

static void say_remainder(text *out, const stick_row *last, const screen *s)
{
    text line = {0};
    if (last->remainder > 0) {
        text_put(&line, "  leaves ");
        put_stick_length(&line, last->remainder, s->units);
        text_char(&line, '.');
    } else {
        text_put(&line, "  leaves nothing.");
    }
    put_lines(out, &line, 2, s);
}

/* ---- weights ---------------------------------------------------------------------------------------------------------------------- */

static bool is_same_part(const stick_row *a, const stick_row *b)
{
    return a->size == b->size && strcmp(a->part, b->part) == 0 && fabs(a->weight - b->weight) <= 1e-9 * a->weight;
}

static bool was_said(const stick_row *rows, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (is_same_part(&rows[k], &rows[i])) return true;
    return false;
}

static void add_weights(grid *g, const char *what, size_t pieces, double weight, unit_system units)
{
    add_name(g, what);
    if (pieces > 0) grid_format(g, TONE_PLAIN, "%zu", pieces);
    else grid_cell(g, TONE_PLAIN, "");
    add_quantity(g, weight, DIM_MASS, units, ROUND_NEAREST);
}

static void say_weights(text *out, const stick_row *rows, size_t count, const screen *s)
{
    grid g = {0};
    double parts = 0, remainders = 0, chips = 0;
    grid_column(&g, GRID_NAME, "part");
    grid_column(&g, GRID_RIGHT, "pieces");
    grid_column(&g, GRID_RIGHT, "weight, %s", unit_name(DIM_MASS, s->units));
    for (size_t i = 0; i < count; i++) {
        size_t pieces = 0;
        double weight = 0;
        parts += rows[i].weight;
        if (!isnan(rows[i].remainder)) remainders += rows[i].remainder_weight, chips += rows[i].kerf_weight;
        if (was_said(rows, i)) continue;
        for (size_t k = i; k < count; k++)
            if (is_same_part(&rows[k], &rows[i])) pieces++, weight += rows[k].weight;
        add_weights(&g, rows[i].part, pieces, weight, s->units);
    }
    add_weights(&g, "all parts", count, parts, s->units);
    add_weights(&g, "remainders", 0, remainders, s->units);
    add_weights(&g, "chips of the cuts", 0, chips, s->units);
    text_put(out, "\nWeights:\n");
    grid_write(out, &g, s);
    grid_free(&g);
    text line = {0};
    text_format(&line, "Of the sticks that are cut, %.1f %% becomes parts.", 100 * parts / (parts + remainders + chips));
    put_lines(out, &line, 0, s);
}

static void say_cuts(text *out, double kerf, const screen *s)
{
    text line = {0};
    text_put(&line, "\nEach cut takes ");
    put_value(&line, kerf, DIM_LENGTH, s->units);
    text_put(&line, ": a piece begins behind the cut of the one before it. Measure each from the end of the stick. The bow of a piece is that of an arc, with the "
                    "bow measured on the whole stick.");
    put_lines(out, &line, 0, s);
}

void sticks_text(text *out, const stick_row *rows, size_t count, double kerf, const screen *s)
{
    put_refused(out, s);
    for (size_t i = 0, n; i < count; i += n) {
        for (n = 1; i + n < count && rows[i + n].position > 1; n++) {}
        if (i == 0 || rows[i].size != rows[i - 1].size) {
            if (i > 0) text_char(out, '\n');
            say_size(out, &rows[i], s);
        }
        say_head(out, &rows[i], s);
        say_pieces(out, &rows[i], n, s);
        say_remainder(out, &rows[i + n - 1], s);
    }
    if (count > 0) {
        say_cuts(out, kerf, s);
        say_weights(out, rows, count, s);
    }
    put_end(out, s);
}
