#include "report/text/compare_text.h"

#include "cases/compare_sum.h"
#include "report/text/cells.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct compare_table {
    const compare_row *rows;
    size_t count, tubes;
    bool own_od;
    const screen *s;
} compare_table;

/* Walls as the trade writes them, with three decimals of an inch at least. */
static void put_tube(text *out, const compare_table *c, const compare_row *r)
{
    const double wall = shown(r->tried.wall, DIM_LENGTH, c->s->units);
    if (!c->own_od) text_format(out, "%.5g x ", shown(r->tried.od, DIM_LENGTH, c->s->units));
    const bool in_thousandths = c->s->units == UNITS_US && fabs(1000 * wall - round(1000 * wall)) < 1e-6;
    text_format(out, in_thousandths ? "%.3f" : "%.4g", wall);
}

/* ---- the answer ------------------------------------------------------------------------------------- */

/* "+0.40": never "-0.00". */
static void put_change(text *out, double mass, unit_system units)
{
    const double change = round(100 * shown(mass, DIM_MASS, units)) / 100 + 0.0;
    text_format(out, "%+.2f", change);
}

/* Where rows were refused no tube is said to hold for the whole frame. */
static const char *of_what(const compare_table *c)
{
    return c->s->faults ? "For the cases that were checked" : "For the whole frame";
}

static void say_lightest(text *out, const compare_table *c, const tube_sum *s)
{
    text_format(out, c->own_od ? "%s: wall " : "%s: ", of_what(c));
    put_tube(out, c, s->first);
    text_format(out, " %s is the lightest that holds in ", unit_name(DIM_LENGTH, c->s->units));
    text_format(out, s->cases == 1 ? "the one case" : "all %zu cases", s->cases);
    text_put(out, ": ");
    put_quantity(out, s->weight, DIM_MASS, c->s->units, ROUND_NEAREST);
    text_put(out, " (");
    put_change(out, s->change, c->s->units);
    text_format(out, " %s", unit_name(DIM_MASS, c->s->units));
    text_put(out, " against the tubes as given), worst margin ");
}

static void say_nearest(text *out, const compare_table *c, const tube_sum *s)
{
    text_put(out, c->own_od ? "No one wall holds in every case. Nearest: " : "No one tube holds in every case. Nearest: ");
    put_tube(out, c, s->first);
    text_format(out, " %s holds in %zu of %zu", unit_name(DIM_LENGTH, c->s->units), s->holds, s->cases);
    if (s->impossible > 0) text_format(out, " (in %zu it is not possible)", s->impossible);
    text_put(out, ", worst margin ");
}

static void say_pick(text *out, const compare_table *c)
{
    const size_t pick = lightest_tube(c->rows, c->count);
    const bool holds = pick < c->tubes;
    const tube_sum sum = sum_of_tube(c->rows, c->count, holds ? pick : nearest_tube(c->rows, c->count)), *s = &sum;
    text line = {0};
    if (s->impossible == s->cases) {
        text_put(&line, "None of these tubes is possible.");
    } else {
        (holds ? say_lightest : say_nearest)(&line, c, s);
        put_percent(&line, s->worst);
        text_put(&line, " in ");
        put_name(&line, s->worst_case);
        text_put(&line, ".");
    }
    put_paragraph(out, &line, 2, holds ? TONE_GOOD : TONE_BAD, c->s);
    text_free(&line);
}

/* ---- tube by tube ----------------------------------------------------------------------------------- */

static void add_sums(grid *g, const compare_table *c, const tube_sum *s)
{
    if (s->impossible == s->cases) {
        grid_cell(g, TONE_BAD, "not possible");
        for (int i = 0; i < 4; i++) grid_cell(g, TONE_PLAIN, "-");
        return;
    }
    grid_format(g, s->holds == s->cases ? TONE_GOOD : TONE_BAD, "%zu of %zu", s->holds, s->cases);
    add_margin(g, s->worst);
    add_name(g, s->worst_case);
    if (s->impossible > 0) { /* a sum without them would look light */
        grid_cell(g, TONE_PLAIN, "-");
        grid_cell(g, TONE_PLAIN, "-");
        return;
    }
    text change = {0};
    add_quantity(g, s->weight, DIM_MASS, c->s->units, ROUND_NEAREST);
    put_change(&change, s->change, c->s->units);
    grid_text(g, TONE_PLAIN, &change);
}

static void say_tubes(text *out, const compare_table *c)
{
    grid g = {0};
    grid_column(&g, GRID_LEFT, "%s, %s", c->own_od ? "wall" : "tube", unit_name(DIM_LENGTH, c->s->units));
    grid_column(&g, GRID_RIGHT, "holds");
    grid_column(&g, GRID_RIGHT, "worst margin");
    grid_column(&g, GRID_NAME, "in case");
    grid_column(&g, GRID_RIGHT, "weight, %s", unit_name(DIM_MASS, c->s->units));
    grid_column(&g, GRID_RIGHT, "change");
    grid_spare(&g, 1);
    for (size_t t = 0; t < c->tubes; t++) {
        const tube_sum s = sum_of_tube(c->rows, c->count, t);
        text tube = {0};
        put_tube(&tube, c, s.first);
        grid_text(&g, TONE_PLAIN, &tube);
        add_sums(&g, c, &s);
    }
    grid_write(out, &g, c->s);
    grid_free(&g);
}

/* ---- part by part ----------------------------------------------------------------------------------- */

static void add_part(grid *g, const compare_table *c, const part_sum *s)
{
    add_name(g, s->first->part);
    grid_format(g, TONE_PLAIN, "%zu", s->cases);
    if (s->pick == NULL) {
        grid_cell(g, TONE_BAD, "none holds");
        for (int i = 0; i < 4; i++) grid_cell(g, TONE_PLAIN, "-");
        return;
    }
    text tube = {0}, change = {0};
    put_tube(&tube, c, s->pick);
    grid_text(g, TONE_GOOD, &tube);
    add_quantity(g, s->pick->tried.weight, DIM_MASS, c->s->units, ROUND_NEAREST);
    put_change(&change, s->pick->tried.weight_change, c->s->units);
    grid_text(g, TONE_PLAIN, &change);
    add_margin(g, s->worst);
    add_name(g, s->worst_case);
}

static void say_parts_sum(text *out, const compare_table *c, const parts_sum *all)
{
    text line = {0};
    if (all->picked == all->parts)
        text_put(&line, "Each part with its own pick: ");
    else
        text_format(&line, "%zu of %zu parts with their own pick: ", all->picked, all->parts);
    put_quantity(&line, all->weight, DIM_MASS, c->s->units, ROUND_NEAREST);
    text_put(&line, " (");
    put_change(&line, all->change, c->s->units);
    text_format(&line, " %s against the tubes as given).", unit_name(DIM_MASS, c->s->units));
    put_lines(out, &line, 2, c->s);
}

static void say_part_table(text *out, const compare_table *c, const part_sum sums[], size_t parts)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "lightest for part");
    grid_column(&g, GRID_RIGHT, "cases");
    grid_spare(&g, 2);
    grid_column(&g, GRID_LEFT, "%s, %s", c->own_od ? "wall" : "tube", unit_name(DIM_LENGTH, c->s->units));
    grid_column(&g, GRID_RIGHT, "weight, %s", unit_name(DIM_MASS, c->s->units));
    grid_column(&g, GRID_RIGHT, "change");
    grid_spare(&g, 1);
    grid_column(&g, GRID_RIGHT, "worst margin");
    grid_column(&g, GRID_NAME, "in case");
    for (size_t i = 0; i < parts; i++) add_part(&g, c, &sums[i]);
    text_char(out, '\n');
    grid_write(out, &g, c->s);
    grid_free(&g);
}

/* A wall is picked per part. One part alone is the whole frame, of which the answer tells already. */
static void say_parts(text *out, const compare_table *c)
{
    const parts_sum all = sum_of_parts(c->rows, c->count);
    if (all.parts < 2) return;
    part_sum *sums = malloc(all.parts * sizeof *sums);
    if (sums == NULL) {
        out->failed = true;
        return;
    }
    sum_each_part(c->rows, c->count, all.parts, sums);
    say_part_table(out, c, sums, all.parts);
    free(sums);
    if (all.picked > 0) say_parts_sum(out, c, &all);
}

/* ---- case by case ----------------------------------------------------------------------------------- */

static void add_outcome(grid *g, const compare_row *r)
{
    text cell = {0};
    if (r->pick == COMPARE_LIGHTEST) text_put(&cell, "* ");
    if (!is_possible(r))
        text_put(&cell, "no");
    else
        put_percent(&cell, r->tried.result.margin);
    grid_text(g, tube_holds(r) ? TONE_GOOD : TONE_BAD, &cell);
}

/* How many tubes stand beside a name of 20 columns. */
static size_t tubes_abreast(const compare_table *c)
{
    enum { NAME = 20, MOST = 12 };
    const size_t column = 2 + (c->own_od ? 10 : 12), fit = (c->s->width - NAME) / column;
    return fit < 1 ? 1 : fit > MOST ? MOST : fit;
}

/* A line a case, a column a tube, as many tubes as fit. */
static void say_block(text *out, const compare_table *c, size_t first, size_t tubes)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "margin with");
    for (size_t t = 0; t < tubes; t++) {
        text head = {0};
        put_tube(&head, c, &c->rows[first + t]);
        grid_column(&g, GRID_RIGHT, "%s", text_string(&head, &g.heads.failed));
        text_free(&head);
    }
    for (size_t i = 0; i < c->count; i += c->tubes) {
        add_name(&g, c->rows[i].name);
        for (size_t t = 0; t < tubes; t++) add_outcome(&g, &c->rows[i + first + t]);
    }
    grid_write(out, &g, c->s);
    grid_free(&g);
}

static void say_impossible(text *out, const compare_table *c, size_t tube)
{
    const compare_row *first = NULL;
    const size_t more = sum_of_tube(c->rows, c->count, tube).impossible - 1;
    for (size_t i = tube; i < c->count && first == NULL; i += c->tubes)
        if (!is_possible(&c->rows[i])) first = &c->rows[i];
    if (first == NULL) return;
    text line = {0};
    put_tube(&line, c, first);
    text_format(&line, " %s is %s (", unit_name(DIM_LENGTH, c->s->units), first->verdict);
    put_name(&line, first->name);
    if (more > 0) text_format(&line, " and %zu more", more);
    text_put(&line, ")");
    put_lines(out, &line, 2, c->s);
}

void compare_text(text *out, const compare_row *rows, size_t count, bool own_od, const screen *s)
{
    const compare_table c = {rows, count, count > 0 ? rows[0].tubes : 0, own_od, s};
    const size_t block = tubes_abreast(&c);
    put_refused(out, s);
    if (count > 0) {
        say_pick(out, &c);
        text_char(out, '\n');
        say_tubes(out, &c);
        say_parts(out, &c);
        for (size_t first = 0; first < c.tubes; first += block) {
            text_char(out, '\n');
            say_block(out, &c, first, c.tubes - first < block ? c.tubes - first : block);
        }
        text_char(out, '\n');
        put_sentence(out, "* the lightest that holds in every case of its part; a minus is short; no: not possible. A part is one "
                          "tube and weighs once, however many cases it has.", 2, s);
        for (size_t t = 0; t < c.tubes; t++) say_impossible(out, &c, t);
    }
    put_assumptions(out, s);
    put_end(out, s);
}
