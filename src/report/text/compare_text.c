#include "report/text/compare_text.h"

#include "cases/compare_sum.h"
#include "report/lines.h"
#include "report/text/cells.h"
#include "report/values.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct compare_table {
    const compare_row *rows;
    size_t count, tubes;
    bool own_od;
    unit_system units;
    bool colour;
} compare_table;

/* Walls as the trade writes them, with three decimals of an inch at least. */
static void put_tube(text *out, const compare_table *c, const compare_row *r)
{
    const double wall = shown(r->tried.wall, DIM_LENGTH, c->units);
    if (!c->own_od) text_format(out, "%.5g x ", shown(r->tried.od, DIM_LENGTH, c->units));
    const bool in_thousandths = c->units == UNITS_US && fabs(1000 * wall - round(1000 * wall)) < 1e-6;
    text_format(out, in_thousandths ? "%.3f" : "%.4g", wall);
}

/* ---- the answer ------------------------------------------------------------------------------------- */

static void say_mass(text *out, const char *format, double mass, unit_system units)
{
    text_format(out, format, shown(mass, DIM_MASS, units));
    text_format(out, " %s", unit_name(DIM_MASS, units));
}

static void say_lightest(text *out, const compare_table *c, const tube_sum *s)
{
    text_put(out, c->own_od ? "For the whole frame: wall " : "For the whole frame: ");
    put_tube(out, c, s->first);
    text_format(out, " %s is the lightest that holds in ", unit_name(DIM_LENGTH, c->units));
    text_format(out, s->cases == 1 ? "the one case" : "all %zu cases", s->cases);
    say_mass(out, ": %.2f", s->weight, c->units);
    say_mass(out, " (%+.2f", s->change, c->units);
    text_put(out, " against the tubes as given), worst margin ");
}

static void say_nearest(text *out, const compare_table *c, const tube_sum *s)
{
    text_put(out, c->own_od ? "No one wall holds in every case. Nearest: " : "No one tube holds in every case. Nearest: ");
    put_tube(out, c, s->first);
    text_format(out, " %s holds in %zu of %zu", unit_name(DIM_LENGTH, c->units), s->holds, s->cases);
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
    put_paragraph(out, &line, holds ? TONE_GOOD : TONE_BAD, c->colour);
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
    grid_format(g, TONE_PLAIN, "%.2f", shown(s->weight, DIM_MASS, c->units));
    grid_format(g, TONE_PLAIN, "%+.2f", shown(s->change, DIM_MASS, c->units));
}

static void say_tubes(text *out, const compare_table *c)
{
    grid g = {0};
    text head = {0}, weight = {0};
    text_format(&head, "%s, %s", c->own_od ? "wall" : "tube", unit_name(DIM_LENGTH, c->units));
    text_format(&weight, "weight, %s", unit_name(DIM_MASS, c->units));
    grid_column(&g, head.at != NULL ? head.at : "", GRID_LEFT);
    grid_column(&g, "holds", GRID_RIGHT);
    grid_column(&g, "worst margin", GRID_RIGHT);
    grid_column(&g, "in case", GRID_LEFT);
    grid_column(&g, weight.at != NULL ? weight.at : "", GRID_RIGHT);
    grid_column(&g, "change", GRID_RIGHT);
    for (size_t t = 0; t < c->tubes; t++) {
        const tube_sum s = sum_of_tube(c->rows, c->count, t);
        text tube = {0};
        put_tube(&tube, c, s.first);
        grid_cell(&g, TONE_PLAIN, tube.at != NULL ? tube.at : "");
        text_free(&tube);
        add_sums(&g, c, &s);
    }
    grid_write(out, &g, c->colour);
    grid_free(&g);
    text_free(&head);
    text_free(&weight);
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
    text tube = {0};
    put_tube(&tube, c, s->pick);
    grid_cell(g, TONE_GOOD, text_string(&tube, &g->cells.failed));
    text_free(&tube);
    grid_format(g, TONE_PLAIN, "%.2f", shown(s->pick->tried.weight, DIM_MASS, c->units));
    grid_format(g, TONE_PLAIN, "%+.2f", shown(s->pick->tried.weight_change, DIM_MASS, c->units));
    add_margin(g, s->worst);
    add_name(g, s->worst_case);
}

static void say_parts_sum(text *out, const compare_table *c, const parts_sum *all)
{
    text line = {0};
    text_format(&line, all->picked == all->parts ? "Each part with its own pick: " : "%zu of %zu parts with their own pick: ",
                all->picked, all->parts);
    say_mass(&line, "%.2f", all->weight, c->units);
    say_mass(&line, " (%+.2f", all->change, c->units);
    text_put(&line, " against the tubes as given).");
    put_paragraph(out, &line, TONE_PLAIN, false);
    text_free(&line);
}

/* A wall is picked per part. One part alone is the whole frame, of which the answer tells already. */
static void say_parts(text *out, const compare_table *c)
{
    const parts_sum all = sum_of_parts(c->rows, c->count);
    if (all.parts < 2) return;
    part_sum *sums = malloc(all.parts * sizeof *sums);
    out->failed = out->failed || sums == NULL;
    if (sums == NULL) return;
    sum_each_part(c->rows, c->count, all.parts, sums);
    grid g = {0};
    text head = {0}, weight = {0};
    text_format(&head, "%s, %s", c->own_od ? "wall" : "tube", unit_name(DIM_LENGTH, c->units));
    text_format(&weight, "weight, %s", unit_name(DIM_MASS, c->units));
    grid_column(&g, "lightest for part", GRID_LEFT);
    grid_column(&g, "cases", GRID_RIGHT);
    grid_column(&g, text_string(&head, &out->failed), GRID_LEFT);
    grid_column(&g, text_string(&weight, &out->failed), GRID_RIGHT);
    grid_column(&g, "change", GRID_RIGHT);
    grid_column(&g, "worst margin", GRID_RIGHT);
    grid_column(&g, "in case", GRID_LEFT);
    for (size_t i = 0; i < all.parts; i++) add_part(&g, c, &sums[i]);
    free(sums);
    text_char(out, '\n');
    grid_write(out, &g, c->colour);
    if (all.picked > 0) say_parts_sum(out, c, &all);
    grid_free(&g);
    text_free(&head);
    text_free(&weight);
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
    grid_cell(g, tube_holds(r) ? TONE_GOOD : TONE_BAD, cell.at != NULL ? cell.at : "");
    text_free(&cell);
}

/* A line a case, a column a tube, as many tubes as fit. */
static void say_block(text *out, const compare_table *c, size_t first, size_t tubes)
{
    grid g = {0};
    text heads[GRID_COLUMNS_MOST] = {{0}};
    grid_column(&g, "margin with", GRID_LEFT);
    for (size_t t = 0; t < tubes; t++) {
        put_tube(&heads[t], c, &c->rows[first + t]);
        grid_column(&g, heads[t].at != NULL ? heads[t].at : "", GRID_RIGHT);
    }
    for (size_t i = 0; i < c->count; i += c->tubes) {
        add_name(&g, c->rows[i].name);
        for (size_t t = 0; t < tubes; t++) add_outcome(&g, &c->rows[i + first + t]);
    }
    grid_write(out, &g, c->colour);
    grid_free(&g);
    for (size_t t = 0; t < GRID_COLUMNS_MOST; t++) text_free(&heads[t]);
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
    text_format(&line, " %s is %s (", unit_name(DIM_LENGTH, c->units), first->verdict);
    put_name(&line, first->name);
    if (more > 0) text_format(&line, " and %zu more", more);
    text_put(&line, ")");
    put_paragraph(out, &line, TONE_PLAIN, false);
    text_free(&line);
}

void compare_text(text *out, const compare_row *rows, size_t count, bool own_od, bool faults, unit_system units, bool colour)
{
    const compare_table c = {rows, count, count > 0 ? rows[0].tubes : 0, own_od, units, colour};
    const size_t block = own_od ? 6 : 4;
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
        wrap(out, "* the lightest that holds in every case of its part; a minus is short; no: not possible. A part is one tube "
                  "and weighs once, however many cases it has.", 0);
        for (size_t t = 0; t < c.tubes; t++) say_impossible(out, &c, t);
    }
    put_end(out, faults);
}
