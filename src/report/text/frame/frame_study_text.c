#include "report/text/frame/frame_study_text.h"

#include "cases/case_words.h"
#include "report/caution.h"
#include "report/text/cells.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* ---- what all three say ------------------------------------------------------------------------------------ */

static void put_close(text *out, const screen *s)
{
    text_char(out, '\n');
    put_sentence(out, frame_assumptions, 0, s);
    put_end(out, s);
}

/* "+3.1 %, tube 'rail UR 2' in run 'pitch'" */
static void put_weakest(text *out, const frame_weakest *w)
{
    put_percent(out, w->margin);
    if (*w->tube == '\0') return;
    text_put(out, ", tube ");
    put_name(out, w->tube);
    text_put(out, " in run ");
    put_name(out, w->run);
}

static void weakest_heads(grid *g)
{
    grid_column(g, GRID_RIGHT, "margin");
    grid_column(g, GRID_NAME, "worst tube");
    grid_column(g, GRID_NAME, "run");
    grid_column(g, GRID_NAME, "governs");
    grid_spare(g, 1);
}

static void add_weakest(grid *g, const frame_weakest *w)
{
    add_margin(g, w->margin);
    add_name(g, *w->tube != '\0' ? w->tube : "-");
    add_name(g, *w->run != '\0' ? w->run : "-");
    add_name(g, w->governs);
}

/* ---- compare ----------------------------------------------------------------------------------------------- */

/* Walls as the trade writes them, with three decimals of an inch at least. */
static void put_wall(text *out, double own, unit_system units)
{
    const double wall = shown(own, DIM_LENGTH, units);
    const bool in_thousandths = units == UNITS_US && fabs(1000 * wall - round(1000 * wall)) < 1e-6;
    text_format(out, in_thousandths ? "%.3f" : "%.4g", wall);
}

static void add_wall(grid *g, double wall, unit_system units)
{
    text cell = {0};
    if (isnan(wall)) text_put(&cell, "various");
    else put_wall(&cell, wall, units);
    grid_text(g, TONE_PLAIN, &cell);
}

/* "+0.40": never "-0.00". */
static void put_change(text *out, double mass, unit_system units)
{
    text_format(out, "%+.2f", round(100 * shown(mass, DIM_MASS, units)) / 100 + 0.0);
}

static void add_weights(grid *g, const frame_compare_row *r, unit_system units)
{
    text change = {0};
    add_quantity(g, r->weight, DIM_MASS, units, ROUND_NEAREST);
    put_change(&change, r->weight_change, units);
    grid_text(g, TONE_PLAIN, &change);
}

static void put_mass(text *out, double mass, const screen *s)
{
    put_quantity(out, mass, DIM_MASS, s->units, ROUND_NEAREST);
}

static const frame_compare_row *nearest_wall(const frame_comparison *c)
{
    const frame_compare_row *nearest = NULL;
    for (size_t i = 0; i < c->walls; i++)
        if (c->rows[i].possible && (nearest == NULL || c->rows[i].weakest.margin > nearest->weakest.margin)) nearest = &c->rows[i];
    return nearest;
}

static void say_pick(text *out, const frame_comparison *c, const screen *s)
{
    text line = {0};
    const frame_compare_row *nearest = nearest_wall(c);
    if (c->picked) {
        text_put(&line, "The frame holds with the walls below, one for each part: ");
        put_mass(&line, c->pick.weight, s);
        text_put(&line, " (");
        put_change(&line, c->pick.weight - c->given.weight, s->units);
        text_format(&line, " %s against the frame as given), worst margin ", unit_name(DIM_MASS, s->units));
        put_weakest(&line, &c->pick.weakest);
    } else if (nearest != NULL) {
        text_put(&line, c->descended ? "No wall that was tried holds for all tubes" : "No set of these walls holds");
        text_put(&line, "; the best of one wall for all tubes is ");
        put_wall(&line, nearest->wall, s->units);
        text_format(&line, " %s, worst margin ", unit_name(DIM_LENGTH, s->units));
        put_weakest(&line, &nearest->weakest);
    } else {
        text_put(&line, "No set of these walls holds; none of them is possible for all tubes");
    }
    text_char(&line, '.');
    put_paragraph(out, &line, 2, c->picked ? TONE_GOOD : TONE_BAD, s);
    text_free(&line);
}

static void say_given(text *out, const frame_comparison *c, const screen *s)
{
    text line = {0};
    if (!c->given.known) return;
    text_put(&line, "As given the frame weighs ");
    put_mass(&line, c->given.weight, s);
    text_format(&line, " and %s: margin ", c->given.weakest.margin >= 0 ? "holds" : "is SHORT");
    put_weakest(&line, &c->given.weakest);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

/* "part 'keel' with 0.049 in, part 'ring' with 0.058 in": where it differs from the pick. */
static void put_next_walls(text *out, const frame_comparison *c, const screen *s)
{
    size_t said = 0;
    for (size_t i = 0; i < c->parts; i++) {
        const frame_compare_row *r = &c->rows[c->walls + i];
        if (!(fabs(c->next_walls[i] - r->wall) > 0)) continue;
        text_put(out, said++ == 0 ? "part " : ", part ");
        put_name(out, r->part);
        text_put(out, " with ");
        put_wall(out, c->next_walls[i], s->units);
        text_format(out, " %s", unit_name(DIM_LENGTH, s->units));
    }
}

/* Why nothing lighter will do. */
static void say_next(text *out, const frame_comparison *c, const screen *s)
{
    text line = {0};
    if (!c->picked || !c->next.known) return;
    text_put(&line, c->descended ? "The least step further down (" : "The next lighter set (");
    put_mass(&line, c->next.weight, s);
    text_put(&line, "; ");
    put_next_walls(&line, c, s);
    text_put(&line, ") is SHORT: margin ");
    put_weakest(&line, &c->next.weakest);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

static void say_search(text *out, const frame_comparison *c, const screen *s)
{
    text line = {0};
    if (!c->picked) return;
    if (!c->descended) {
        text_format(&line, "The pick is the lightest of all %zu set%s that %s possible.", c->sets, c->sets == 1 ? "" : "s",
                    c->sets == 1 ? "is" : "are");
    } else {
        text_put(&line, "The sets are too many to be gone through: the pick comes from a descent. It begins with the heaviest set that holds "
                        "and thins one part at a time, the most weight first. No single part can be thinner, but another set may be lighter.");
    }
    put_lines(out, &line, 2, s);
}

static void say_parts(text *out, const frame_comparison *c, const screen *s)
{
    const char *length = unit_name(DIM_LENGTH, s->units), *mass = unit_name(DIM_MASS, s->units);
    grid g = {0};
    if (!c->picked) return;
    grid_column(&g, GRID_NAME, "pick: part");
    grid_column(&g, GRID_RIGHT, "now, %s", length);
    grid_column(&g, GRID_RIGHT, "wall, %s", length);
    grid_column(&g, GRID_RIGHT, "%s", mass);
    grid_column(&g, GRID_RIGHT, "change");
    weakest_heads(&g);
    for (size_t i = 0; i < c->parts; i++) {
        const frame_compare_row *r = &c->rows[c->walls + i];
        add_name(&g, r->part);
        add_wall(&g, r->wall_given, s->units);
        add_wall(&g, r->wall, s->units);
        add_weights(&g, r, s->units);
        add_weakest(&g, &r->weakest);
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
}

static void say_walls(text *out, const frame_comparison *c, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_RIGHT, "all: wall, %s", unit_name(DIM_LENGTH, s->units));
    grid_column(&g, GRID_RIGHT, "%s", unit_name(DIM_MASS, s->units));
    grid_column(&g, GRID_RIGHT, "change");
    weakest_heads(&g);
    grid_column(&g, GRID_WORDS, "verdict");
    for (size_t i = 0; i < c->walls; i++) {
        const frame_compare_row *r = &c->rows[i];
        add_wall(&g, r->wall, s->units);
        if (r->possible) {
            add_weights(&g, r, s->units);
            add_weakest(&g, &r->weakest);
        } else {
            for (int k = 0; k < 6; k++) grid_cell(&g, TONE_PLAIN, "-");
        }
        grid_cell(&g, r->possible ? tone_of(r->weakest.margin) : TONE_BAD,
                  !r->possible ? r->verdict : r->weakest.margin >= 0 ? "holds" : "SHORT");
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
}

void frame_compare_text(text *out, const frame_comparison *c, const screen *s)
{
    say_pick(out, c, s);
    say_given(out, c, s);
    say_next(out, c, s);
    say_search(out, c, s);
    say_parts(out, c, s);
    say_walls(out, c, s);
    put_close(out, s);
}

/* ---- sweep ------------------------------------------------------------------------------------------------- */

static void put_values(text *out, const frame_sweep_row *r, const frame_sweep_asked *asked, const screen *s)
{
    for (size_t i = 0; i < asked->columns; i++) {
        text_format(out, "%s%s ", i > 0 ? ", " : "", asked->column[i]->name);
        put_value(out, r->value[i], asked->column[i]->dimension, s->units);
    }
}

/* In a grid of two columns each value of the first begins anew. */
static bool changes_at(const frame_sweep_row *rows, size_t i, const frame_sweep_asked *asked)
{
    const frame_sweep_row *r = &rows[i];
    return i > 0 && r[-1].weakest.verdict != r->weakest.verdict && (asked->columns == 1 || !(fabs(r[-1].value[0] - r->value[0]) > 0));
}

static void say_summary(text *out, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked, const screen *s)
{
    const frame_sweep_row *worst = rows;
    size_t holds = 0;
    text line = {0};
    for (size_t i = 0; i < count; i++) {
        holds += rows[i].weakest.verdict == RBOW_HOLDS;
        if (rows[i].weakest.margin < worst->weakest.margin) worst = &rows[i];
    }
    text_format(&line, "%s ", asked->what);
    put_name(&line, asked->name);
    text_put(&line, ": ");
    frame_sweep_subject(&line, asked);
    if (holds == count || holds == 0)
        text_format(&line, " %s %s", holds > 0 ? "holds" : "is SHORT", s->faults ? "for every value that was checked" : "throughout");
    else
        text_format(&line, " holds for %zu of %zu values", holds, count);
    text_put(&line, "; worst margin ");
    put_weakest(&line, &worst->weakest);
    if (isfinite(worst->weakest.margin)) {
        text_put(&line, ", at ");
        put_values(&line, worst, asked, s);
    }
    text_char(&line, '.');
    put_paragraph(out, &line, 2, holds == count ? TONE_GOOD : TONE_BAD, s);
    text_free(&line);
}

static void say_rows(text *out, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked, const screen *s)
{
    grid g = {0};
    for (size_t i = 0; i < asked->columns; i++) {
        const char *u = unit_name(asked->column[i]->dimension, s->units);
        grid_column(&g, GRID_RIGHT, "%s%s%s", asked->column[i]->name, *u != '\0' ? ", " : "", u);
    }
    weakest_heads(&g);
    grid_column(&g, GRID_WORDS, "verdict");
    for (size_t i = 0; i < count; i++) {
        const frame_sweep_row *r = &rows[i];
        for (size_t k = 0; k < asked->columns; k++)
            grid_format(&g, TONE_PLAIN, "%.6g", shown(r->value[k], asked->column[k]->dimension, s->units) + 0.0);
        add_weakest(&g, &r->weakest);
        grid_format(&g, tone_of(r->weakest.margin), "%s%s", r->weakest.verdict == RBOW_HOLDS ? "holds" : "SHORT",
                    changes_at(rows, i, asked) ? "  <- changes" : "");
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
}

void frame_sweep_text(text *out, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked, const screen *s)
{
    put_refused(out, s);
    if (count > 0) {
        say_summary(out, rows, count, asked, s);
        say_rows(out, rows, count, asked, s);
    }
    put_close(out, s);
}

/* ---- limit ------------------------------------------------------------------------------------------------- */

static void put_own(text *out, double value, const frame_limit_asked *asked, const screen *s, rounding way)
{
    put_quantity(out, value, asked->column->dimension, s->units, way);
}

static void put_limit_verdict(text *out, const frame_limit_row *r, const frame_limit_asked *asked, const screen *s)
{
    const rounding safe = asked->to > asked->from ? ROUND_DOWN : ROUND_UP;
    text_format(out, "%s ", asked->what);
    put_name(out, r->name);
    text_format(out, ", %s: ", asked->column->name);
    if (r->found.state == LIMIT_ALREADY) {
        text_put(out, "the frame is SHORT where the range begins, at ");
        put_value(out, r->found.limit, asked->column->dimension, s->units);
    } else if (r->found.state == LIMIT_NEVER) {
        text_put(out, isnan(r->found.ends_at) ? "the frame holds to the end of the range, " : "the frame holds as far as the model goes, ");
        put_value(out, r->found.limit, asked->column->dimension, s->units);
    } else {
        text_put(out, "the frame holds up to ");
        put_own(out, r->found.limit, asked, s, safe);
    }
}

static void put_now(text *out, const frame_limit_row *r, const frame_limit_asked *asked, const screen *s)
{
    if (isnan(r->now)) {
        text_put(out, ". There is no one present value");
        return;
    }
    text_put(out, "; now it is ");
    put_value(out, r->now, asked->column->dimension, s->units);
    if (r->short_now) text_put(out, ", where the frame is SHORT");
    else if (isfinite(r->room) && r->found.state != LIMIT_ALREADY) {
        text_put(out, r->room < 0 && r->found.state == LIMIT_FOUND ? ", PAST it by " : r->room < 0 ? ", beyond by " : ", room ");
        put_own(out, fabs(r->room), asked, s, r->room < 0 ? ROUND_UP : ROUND_DOWN);
    }
    if (r->before && !frame_limit_is_past(r)) text_put(out, " (now lies before the range and nothing between was looked at)");
}

static void say_limit(text *out, const frame_limit_row *r, const frame_limit_asked *asked, const screen *s)
{
    text line = {0};
    put_limit_verdict(&line, r, asked, s);
    put_now(&line, r, asked, s);
    text_char(&line, '.');
    put_paragraph(out, &line, 2, frame_limit_is_past(r) ? TONE_BAD : TONE_GOOD, s);
    text_free(&line);
}

static void say_gives_way(text *out, const frame_limit_row *r, const screen *s)
{
    text line = {0};
    if (*r->weakest.tube == '\0') return;
    text_put(&line, r->found.state == LIMIT_ALREADY ? "Short there: tube " : "Gives way first: tube ");
    put_name(&line, r->weakest.tube);
    text_put(&line, " in run ");
    put_name(&line, r->weakest.run);
    text_format(&line, " (%s).", r->weakest.governs);
    put_lines(out, &line, 2, s);
}

void frame_limit_text(text *out, const frame_limit_row *r, const frame_limit_asked *asked, const screen *s)
{
    text line = {0};
    say_limit(out, r, asked, s);
    say_gives_way(out, r, s);
    text_put(&line, "Looked for from ");
    put_number(&line, shown(asked->from, asked->column->dimension, s->units), 6);
    text_put(&line, " to ");
    put_value(&line, asked->to, asked->column->dimension, s->units);
    text_put(&line, ", for a margin of every tube of at least ");
    put_decimals(&line, 100 * asked->margin, 1, ROUND_UP);
    text_put(&line, " %. The limit is rounded to the safe side, room down.");
    put_lines(out, &line, 2, s);
    put_close(out, s);
}
