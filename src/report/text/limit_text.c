#include "report/text/limit_text.h"

#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

typedef struct limits {
    const limit_row *rows;
    size_t count;
    const limit_asked *asked;
    dimension dimension;
    const screen *s;
} limits;

/* Toward the values that hold. */
static rounding safe_side(const limits *l)
{
    return l->asked->to > l->asked->from ? ROUND_DOWN : ROUND_UP;
}

/* Lengths in inch have their 1/64 beside them, but for walls, which no tape measures. */
static bool has_fractions(const limits *l)
{
    return l->s->units == UNITS_US && limit_is_by_tape(l->asked);
}

/* The ends of the range stand as they were given, where rounding would change them. */
static bool is_given(const limits *l, double value)
{
    const double grain = 1000 * shown(value, l->dimension, l->s->units);
    const bool whole = l->dimension == DIM_LENGTH && fabs(grain - round(grain)) < 1e-6;
    return !whole && (!(fabs(value - l->asked->to) > 0) || !(fabs(value - l->asked->from) > 0));
}

static void put_limit(text *out, const limits *l, const limit_row *r)
{
    if (is_given(l, r->found.limit))
        put_number(out, shown(r->found.limit, l->dimension, l->s->units), 6);
    else
        put_bare(out, r->found.limit, l->dimension, l->s->units, safe_side(l));
}

/* ---- in words --------------------------------------------------------------------------------------- */

static void put_count(text *out, const limits *l, size_t past)
{
    const char *other = l->s->faults ? "other " : "", *name = l->asked->column->name;
    if (l->count == 1)
        text_format(out, "The %scase is %s its limit of %s", other, past > 0 ? "past" : "inside", name);
    else if (past == 0)
        text_format(out, "Every %scase is inside its limit of %s", other, name);
    else
        text_format(out, "%zu of %s%zu %scases %s past the limit of %s", past, l->s->faults ? "the " : "", l->count, other,
                    past == 1 ? "is" : "are", name);
}

static void say_summary(text *out, const limits *l)
{
    size_t past = 0;
    text line = {0};
    for (size_t i = 0; i < l->count; i++) past += limit_is_past(&l->rows[i]);
    put_count(&line, l, past);
    text_put(&line, " (looked for from ");
    put_number(&line, shown(l->asked->from, l->dimension, l->s->units), 6);
    text_put(&line, " to ");
    put_value(&line, l->asked->to, l->dimension, l->s->units);
    text_put(&line, ", for a margin of at least ");
    put_decimals(&line, 100 * l->asked->margin, 1, ROUND_UP);
    text_put(&line, " %).");
    put_paragraph(out, &line, 2, past == 0 ? TONE_GOOD : TONE_BAD, l->s);
    text_free(&line);
}

static void put_size(text *out, const limits *l, double value, rounding way)
{
    if (has_fractions(l))
        put_length(out, value, l->s->units, way);
    else
        put_quantity(out, value, l->dimension, l->s->units, way);
}

static void say_worst(text *out, const limits *l)
{
    const limit_row *r = limit_least_room(l->rows, l->count);
    text line = {0};
    if (l->count < 2 || r->short_now || isnan(r->room) || isinf(r->room)) return;
    text_put(&line, r->room < 0 ? "Worst: " : "Least room: ");
    put_name(&line, r->name);
    text_put(&line, r->room < 0 ? ", past its limit by " : ", ");
    put_size(&line, l, fabs(r->room), r->room < 0 ? ROUND_UP : ROUND_DOWN);
    text_char(&line, '.');
    put_lines(out, &line, 2, l->s);
}

/* ---- the table -------------------------------------------------------------------------------------- */

/* Only stiffnesses can be infinite; what is not a number is a word. */
static bool add_odd(grid *g, double value)
{
    if (!isinf(value)) return false;
    grid_cell(g, TONE_PLAIN, value > 0 ? "rigid" : "-");
    return true;
}

static void add_numbers(grid *g, const limits *l, const limit_row *r)
{
    text now = {0}, limit = {0};
    if (!add_odd(g, r->now)) {
        put_number(&now, shown(r->now, l->dimension, l->s->units), 6);
        grid_text(g, TONE_PLAIN, &now);
    }
    if (!add_odd(g, r->found.limit)) {
        put_limit(&limit, l, r);
        grid_text(g, TONE_PLAIN, &limit);
    }
    if (has_fractions(l)) add_fraction(g, r->found.limit, l->dimension, l->s->units, safe_side(l));
    if (!add_odd(g, r->room)) add_quantity(g, r->room, l->dimension, l->s->units, ROUND_DOWN);
    if (has_fractions(l)) add_fraction(g, r->room, l->dimension, l->s->units, ROUND_DOWN);
}

static const char *now_words(const limit_row *r)
{
    if (r->short_now || r->found.state == LIMIT_ALREADY) return "SHORT";
    if (limit_is_past(r)) return "PAST";
    return r->before ? "before" : r->room < 0 ? "beyond" : "inside";
}

static const char *state_words(const limit_row *r)
{
    static const char *const words[] = {[LIMIT_FOUND] = "found", [LIMIT_NEVER] = "never", [LIMIT_ALREADY] = "already"};
    return r->found.state == LIMIT_NEVER && !isnan(r->found.ends_at) ? "never +" : words[r->found.state];
}

static void add_heads(grid *g, const limits *l)
{
    const char *u = unit_name(l->dimension, l->s->units), *comma = *u != '\0' ? ", " : "";
    grid_column(g, GRID_NAME, "case");
    grid_column(g, GRID_RIGHT, "now%s%s", comma, u);
    grid_column(g, GRID_RIGHT, "limit%s%s", comma, u);
    if (has_fractions(l)) {
        grid_column(g, GRID_LEFT, "1/64");
        grid_spare(g, 1);
    }
    grid_column(g, GRID_RIGHT, "room%s%s", comma, u);
    if (has_fractions(l)) {
        grid_column(g, GRID_LEFT, "1/64");
        grid_spare(g, 2);
    }
    grid_column(g, GRID_LEFT, "now is");
    grid_column(g, GRID_LEFT, "state");
}

static void say_key(text *out, const limits *l)
{
    bool ends = false, before = false;
    text line = {0};
    for (size_t i = 0; i < l->count; i++) {
        ends = ends || (l->rows[i].found.state == LIMIT_NEVER && !isnan(l->rows[i].found.ends_at));
        before = before || (l->rows[i].before && !limit_is_past(&l->rows[i]));
    }
    text_put(&line, "state found: the margin falls too low beyond the limit; never: not within the range; already: short where the range "
                    "begins. Limits are rounded to the safe side, room down");
    text_put(&line, has_fractions(l) ? ", each also to the next 1/64 in." : ".");
    if (ends) text_put(&line, " +: not as far as the model goes.");
    if (before)
        text_put(&line, " before: now lies before the range and nothing between was looked at; begin with --from.");
    put_lines(out, &line, 0, l->s);
}

static void say_rows(text *out, const limits *l)
{
    grid g = {0};
    add_heads(&g, l);
    for (size_t i = 0; i < l->count; i++) {
        const limit_row *r = &l->rows[i];
        const grid_tone tone = limit_is_past(r) ? TONE_BAD : TONE_GOOD;
        add_name(&g, r->name);
        add_numbers(&g, l, r);
        grid_cell(&g, tone, now_words(r));
        grid_cell(&g, TONE_PLAIN, state_words(r));
    }
    text_char(out, '\n');
    grid_write(out, &g, l->s);
    grid_free(&g);
    say_key(out, l);
}

/* A limit for a direction that nobody knows is that of the worst one: which it was is worth knowing. */
static void say_clocks(text *out, const limits *l)
{
    text line = {0};
    for (size_t i = 0; i < l->count; i++) {
        size_t said = 0;
        for (int k = 0; k < LIMIT_CLOCKS; k++) {
            if (isnan(l->rows[i].clock_taken[k])) continue;
            if (line.length == 0)
                text_put(&line, "Directions that are not known are taken at their worst; at the limit these are, in degrees: ");
            else if (said == 0)
                text_put(&line, "; ");
            if (said == 0) put_name(&line, l->rows[i].name);
            text_format(&line, "%s %s ", said++ == 0 ? ":" : ",", limit_clocks[k]);
            put_degrees(&line, l->rows[i].clock_taken[k], 1);
        }
    }
    if (line.length > 0) text_char(&line, '.');
    put_lines(out, &line, 2, l->s);
}

void limit_text(text *out, const limit_row *rows, size_t count, const limit_asked *asked, const screen *s)
{
    const limits l = {rows, count, asked, asked->column->dimension, s};
    put_refused(out, s);
    if (count > 0) {
        say_summary(out, &l);
        say_worst(out, &l);
        say_rows(out, &l);
        say_clocks(out, &l);
    }
    put_assumptions(out, s);
    put_end(out, s);
}
