#include "report/text/check_table_text.h"

#include "report/text/cells.h"

#include <math.h>

typedef struct check_column {
    const char *head;
    dimension dimension; /* whose unit stands behind the head */
    grid_kind kind;
    int spare; /* rank in which it may be left out; 0: never */
    void (*add)(grid *g, const check_row *r, unit_system units);
} check_column;

static grid_tone tone_of_row(const check_row *r)
{
    return r->result.verdict == RBOW_HOLDS ? TONE_GOOD : TONE_BAD;
}

static void add_case(grid *g, const check_row *r, unit_system units)
{
    (void)units;
    add_name(g, r->given.name);
}

static void add_tube(grid *g, const check_row *r, unit_system units)
{
    grid_format(g, TONE_PLAIN, units == UNITS_SI ? "%.5g x %.3g" : "%.5g x %.4g", shown(r->given.member.od, DIM_LENGTH, units),
                shown(r->given.member.wall, DIM_LENGTH, units));
}

static void add_verdict(grid *g, const check_row *r, unit_system units)
{
    (void)units;
    grid_cell(g, tone_of_row(r), r->result.verdict == RBOW_HOLDS ? "holds" : "SHORT");
}

static void add_row_margin(grid *g, const check_row *r, unit_system units)
{
    text t = {0};
    (void)units;
    put_percent(&t, r->result.margin);
    grid_text(g, tone_of_row(r), &t);
}

static void add_governs(grid *g, const check_row *r, unit_system units)
{
    (void)units;
    add_name(g, r->governs);
}

static void add_place(grid *g, const check_row *r, unit_system units)
{
    if (isnan(r->result.governs_at))
        grid_cell(g, TONE_PLAIN, "-");
    else
        grid_format(g, TONE_PLAIN, "%.1f%s", shown(r->result.governs_at, DIM_LENGTH, units) + 0.0,
                    r->result.governs_in_weld_zone ? "w" : " ");
}

static void add_factor(grid *g, const check_row *r, unit_system units)
{
    text t = {0};
    (void)units;
    put_factor(&t, deciding_factor(r));
    grid_text(g, TONE_PLAIN, &t);
}

static void add_required(grid *g, const check_row *r, unit_system units)
{
    text t = {0};
    (void)units;
    put_required(&t, asked_factor(r));
    grid_text(g, TONE_PLAIN, &t);
}

static void add_cost(grid *g, const check_row *r, unit_system units)
{
    (void)units;
    add_points(g, r->result.forced ? fit_cost(r) : (double)NAN);
}

static const check_column columns[] = {
    {"case", DIM_NONE, GRID_NAME, 0, add_case},
    {"tube", DIM_LENGTH, GRID_LEFT, 4, add_tube},
    {"verdict", DIM_NONE, GRID_LEFT, 0, add_verdict},
    {"margin", DIM_NONE, GRID_RIGHT, 0, add_row_margin},
    {"governs", DIM_NONE, GRID_NAME, 0, add_governs},
    {"at", DIM_LENGTH, GRID_RIGHT, 2, add_place},
    {"load factor", DIM_NONE, GRID_RIGHT, 3, add_factor},
    {"required", DIM_NONE, GRID_RIGHT, 1, add_required},
    {"fit costs", DIM_NONE, GRID_RIGHT, 0, add_cost},
};
enum { COLUMNS = sizeof columns / sizeof *columns };

/* The factor required, where it is the same in every row and for every check; else 0. */
static double common_factor(const check_row *rows, size_t count)
{
    const double common = rows[0].given.member.factor;
    for (size_t i = 0; i < count; i++)
        if (fabs(rows[i].given.member.factor - common) > 0 || fabs(asked_of_yield(&rows[i]) - common) > 0) return 0;
    return common;
}

static bool is_shown(const check_column *c, double common)
{
    return c->add != add_required || !(common > 0);
}

static void say_key(text *out, double common, const screen *s)
{
    text line = {0};
    text_put(&line, "load factor: the tube yields or buckles at this many times the run load. margin: load factor / required - 1; ");
    if (common > 0) {
        text_put(&line, "required of every case: ");
        put_required(&line, common);
        text_put(&line, ". ");
    } else {
        text_put(&line, "required: the load factor asked for. ");
    }
    text_put(&line, "interaction: push and bending together. at: where, from joint A (w: in a weld zone). fit costs: points of "
                    "margin that misses and gap take.");
    put_lines(out, &line, 0, s);
}

void check_table_text(text *out, const check_row *rows, size_t count, const screen *s)
{
    const double common = common_factor(rows, count);
    grid g = {0};
    for (size_t i = 0; i < COLUMNS; i++) {
        if (!is_shown(&columns[i], common)) continue;
        const char *u = unit_name(columns[i].dimension, s->units);
        grid_column(&g, columns[i].kind, "%s%s%s", columns[i].head, *u != '\0' ? ", " : "", u);
        if (columns[i].spare > 0) grid_spare(&g, columns[i].spare);
    }
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < COLUMNS; k++)
            if (is_shown(&columns[k], common)) columns[k].add(&g, &rows[i], s->units);
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
    say_key(out, common, s);
}
