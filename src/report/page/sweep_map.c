#include "report/page/sweep_map.h"

#include "report/chart/contour.h"
#include "report/chart/stops.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>
#include <stdio.h>

/* The margin of one case over two columns, as bands between round margins. */

static const double most_drawn = 300; /* per cent: what is above it, or without a limit, is one band */

typedef struct map {
    const sweep_row *rows; /* of one case, ascending by their place `at` among all combinations */
    size_t count;
    const sweep_asked *asked;
    unit_system units;
} map;

/* The i-th from the least. */
static size_t ascending(const sweep_asked *a, size_t column, size_t i)
{
    const size_t last = a->values[column] - 1;
    return a->value(a->context, column, 0) > a->value(a->context, column, last) ? last - i : i;
}

static double axis_value(const map *m, size_t column, size_t i)
{
    const sweep_asked *a = m->asked;
    return shown(a->value(a->context, column, ascending(a, column, i)), a->column[column]->dimension, m->units);
}

static double x_of(const void *context, size_t i)
{
    return axis_value(context, 0, i);
}

static double y_of(const void *context, size_t i)
{
    return axis_value(context, 1, i);
}

/* The margin in per cent; NaN for a combination that was refused and has no row. */
static double margin_of(const void *context, size_t column, size_t line)
{
    const map *m = context;
    const size_t at = ascending(m->asked, 0, column) * m->asked->values[1] + ascending(m->asked, 1, line);
    size_t low = 0, high = m->count;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        if (m->rows[middle].at < at)
            low = middle + 1;
        else
            high = middle;
    }
    return low < m->count && m->rows[low].at == at ? fmin(100 * m->rows[low].result.margin, 2 * most_drawn) : (double)NAN;
}

/* ---- drawing -------------------------------------------------------------------------------------------- */

enum { LEVELS_MOST = 9, TINTS = 6 };

/* The bands stand between the levels, one under the first and one over the last. Bands that fall short are red,
 * darker the larger the shortfall; the others are blue, darker the larger the margin. */
static void put_levels(const chart *c, const chart_field *f, const chart_ticks *t)
{
    size_t fallen = 0; /* bands that are short */
    while (fallen < t->count && t->at[fallen] <= 0) fallen++;
    if (fallen == t->count && t->count > 0 && t->at[fallen - 1] < 0) fallen++;
    for (size_t i = 0; i <= t->count; i++) {
        char style[32];
        const size_t deep = i < fallen ? fallen - i : i - fallen + 1;
        snprintf(style, sizeof style, "fill-%s tint-%zu", i < fallen ? "red" : "blue", deep < TINTS ? deep : (size_t)TINTS);
        chart_band(c, f, i > 0 ? t->at[i - 1] : -(double)INFINITY, i < t->count ? t->at[i] : (double)INFINITY, style);
    }
    chart_hatch(c, f, 0, "hatch");
    for (size_t i = 0; i < t->count; i++)
        if (fabs(t->at[i]) > 0) chart_contour(c, f, t->at[i], "contour");
}

/* The zero line first, so that it gets its name; taken: where other words stand. */
static bool put_names(const chart *c, const chart_field *f, const chart_ticks *t, chart_taken taken)
{
    const bool crosses = chart_contour(c, f, 0, "zero");
    if (crosses) chart_contour_name(c, f, 0, "0 %", "red bold halo", &taken);
    for (size_t i = 0; i < t->count; i++) {
        char number[CHART_TICK_ROOM];
        text words = {0};
        if (!(fabs(t->at[i]) > 0)) continue;
        chart_tick_words(number, t->at[i], t->decimals);
        text_format(&words, "%s%s %%", t->at[i] > 0 ? "+" : "", number);
        chart_contour_name(c, f, t->at[i], page_said(&words), "halo", &taken);
        text_free_part(&words, c->out);
    }
    return crosses;
}

/* Crosses where nothing could be worked out, not nearer to each other than can be told apart. Returned: how many such
 * places there are. */
static size_t put_unknown(const chart *c, const chart_field *f)
{
    const size_t across = (size_t)fmax(1, ceil(9 * (double)(f->columns - 1) / c->width));
    const size_t down = (size_t)fmax(1, ceil(9 * (double)(f->rows - 1) / c->height));
    size_t n = 0;
    for (size_t line = 0; line < f->rows; line++)
        for (size_t column = 0; column < f->columns; column++) {
            if (!isnan(f->value(f->context, column, line))) continue;
            n++;
            if (line % down != 0 || column % across != 0) continue;
            const double x = chart_x(c, f->x(f->context, column)), y = chart_y(c, f->y(f->context, line));
            text_format(c->out, "<path d=\"M%.2f %.2fl6 6m0 -6l-6 6\" class=\"unknown\"/>\n", x - 3, y - 3);
        }
    return n;
}

/* Returned: where its words stand. */
static chart_taken put_now(const chart *c, const map *m)
{
    chart_taken taken = {0};
    const double now[] = {shown(m->rows[0].now[0], m->asked->column[0]->dimension, m->units),
                          shown(m->rows[0].now[1], m->asked->column[1]->dimension, m->units)};
    if (!(now[0] >= c->x_low && now[0] <= c->x_high && now[1] >= c->y_low && now[1] <= c->y_high)) return taken;
    chart_point(c, now[0], now[1], "ring");
    const bool right = chart_x(c, now[0]) < c->left + c->width - 40, above = chart_y(c, now[1]) > c->top + 18;
    const double x = chart_x(c, now[0]) + (right ? 7 : -7), y = chart_y(c, now[1]) + (above ? -6 : 15);
    chart_words(c->out, x, y, right ? "start" : "end", "halo", "now");
    taken.x[taken.count] = x + (right ? 13 : -13);
    taken.y[taken.count++] = y - 4;
    return taken;
}

/* ---- stops ---------------------------------------------------------------------------------------------- */

/* As many rows and columns of stops as a pointer can tell apart, with the outermost ones. */
static bool has_stop(size_t i, size_t count)
{
    enum { MOST = 8 };
    const size_t every = (count + MOST - 1) / MOST;
    return i % every == 0 || i + 1 == count;
}

static void put_stop(const chart *c, const map *m, size_t i, const char *what, bool tab)
{
    const sweep_row *r = &m->rows[i];
    text words = {0};
    for (size_t k = 0; k < 2; k++) {
        text_format(&words, "%s%s ", k > 0 ? "\n" : "", m->asked->column[k]->name);
        put_value(&words, r->value[k], m->asked->column[k]->dimension, m->units);
    }
    text_put(&words, "\nmargin ");
    put_percent(&words, r->result.margin);
    text_put(&words, what);
    chart_stop(c, shown(r->value[0], m->asked->column[0]->dimension, m->units), shown(r->value[1], m->asked->column[1]->dimension, m->units),
               page_said(&words), tab);
    text_free_part(&words, c->out);
}

/* The combinations that were worked out; the Tab key reaches the corners, the least and the largest margin. */
static void put_stops(const chart *c, const map *m)
{
    size_t least = 0, most = 0;
    for (size_t i = 1; i < m->count; i++) {
        if (m->rows[i].result.margin < m->rows[least].result.margin) least = i;
        if (m->rows[i].result.margin > m->rows[most].result.margin) most = i;
    }
    for (size_t i = 0; i < m->count; i++) {
        const size_t column = m->rows[i].at / m->asked->values[1], line = m->rows[i].at % m->asked->values[1];
        const bool corner = (column == 0 || column + 1 == m->asked->values[0]) && (line == 0 || line + 1 == m->asked->values[1]);
        if (i == least || i == most) put_stop(c, m, i, i == least ? ", the least" : ", the largest", true);
        else if (has_stop(column, m->asked->values[0]) && has_stop(line, m->asked->values[1])) put_stop(c, m, i, "", corner);
    }
}

/* ---- the figure ----------------------------------------------------------------------------------------- */

static void caption(text *out, const map *m, bool crosses, size_t unknown)
{
    size_t fallen = 0;
    text words = {0};
    for (size_t i = 0; i < m->count; i++) fallen += !(m->rows[i].result.margin >= 0);
    if (fallen == 0)
        text_put(&words, "It holds everywhere that was worked out.");
    else if (fallen == m->count)
        text_put(&words, "It is short everywhere that was worked out: all is hatched.");
    else if (crosses)
        text_put(&words, "On the thick line the margin is 0; the hatched side is short.");
    else
        text_put(&words, "The hatched part is short.");
    if (unknown > 0)
        text_format(&words, " Crosses and the blank around them: %zu of %zu combinations could not be worked out; the messages of the run say "
                            "why.", unknown, m->asked->values[0] * m->asked->values[1]);
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
}

void page_sweep_map_words(text *out)
{
    text_put(out, "<p class=\"soft\">Margin over the two columns, in per cent. Between the values worked out the lines are straight; all maps have the "
                  "same levels.</p>\n");
}

void page_sweep_map(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked, double least, double most)
{
    const map m = {rows, count, asked, head->units};
    const chart_field f = {asked->values[0], asked->values[1], x_of, y_of, margin_of, &m};
    const chart c = {.out = out, .left = 52, .top = 26, .width = FIGURE_WIDTH - 52 - 22, .height = 240,
                     .x_low = x_of(&m, 0), .x_high = x_of(&m, f.columns - 1), .y_low = y_of(&m, 0), .y_high = y_of(&m, f.rows - 1)};
    const double low = fmin(100 * least, most_drawn), high = fmin(100 * most, most_drawn);
    text across = {0}, up = {0};
    const chart_ticks levels = chart_ticks_in(low, low + fmax(high - low, 1), LEVELS_MOST);
    page_column_name(&across, asked->column[0], head->units);
    page_column_name(&up, asked->column[1], head->units);
    page_begin_chart(out, rows[0].name, 310, "Margin over the two varied columns");
    put_levels(&c, &f, &levels);
    chart_axis_y(&c, page_said(&up));
    chart_axis_x(&c, page_said(&across));
    const size_t unknown = put_unknown(&c, &f);
    const bool crosses = put_names(&c, &f, &levels, put_now(&c, &m));
    put_stops(&c, &m);
    caption(out, &m, crosses, unknown);
    text_free_part(&across, out);
    text_free_part(&up, out);
}
