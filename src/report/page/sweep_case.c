#include "report/page/sweep_case.h"

#include "report/chart/stops.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { RIGHT_ROOM = 118, POINTS_MOST = 256 }; /* POINTS_MOST: points of a line that are drawn at once */

double sweep_varied_at(const sweep_run *r, size_t i)
{
    return shown(r->rows[i].value[r->varied], r->column->dimension, r->units);
}

static double answer_at(const sweep_run *r, size_t i, size_t offset)
{
    double value;
    memcpy(&value, (const char *)&r->rows[i] + offset, sizeof value);
    return value;
}

/* Values that follow each other; one between them may have been refused. */
static bool joins(const sweep_run *r, size_t i)
{
    return r->rows[i + 1].at == r->rows[i].at + 1;
}

void sweep_line(const chart *c, const sweep_run *r, size_t offset, double times, const char *style)
{
    double x[POINTS_MOST], y[POINTS_MOST];
    size_t n = 0;
    for (size_t i = 0; i < r->count; i++) {
        const double value = times * answer_at(r, i, offset);
        x[n] = sweep_varied_at(r, i);
        y[n++] = isinf(value) ? 2 * fabs(c->y_high) : value;
        const bool ends = i + 1 == r->count || !joins(r, i);
        if (n < POINTS_MOST && !ends) continue;
        chart_line(c, x, y, n, style);
        if (n == 1) chart_point(c, x[0], y[0], "dot");
        x[0] = x[n - 1];
        y[0] = y[n - 1];
        n = ends ? 0 : 1;
    }
}

/* ---- one case: the margin over its factors -------------------------------------------------------------- */

enum { CROSSINGS_MOST = 4, UPPER_HEIGHT = 130, LOWER_TOP = 212, LOWER_HEIGHT = 110 };

/* Where the margin passes 0 on the straight line between neighbours. Returned: how many, of which the first are given. */
static size_t crossings_of(const sweep_run *r, double at[CROSSINGS_MOST])
{
    size_t n = 0;
    for (size_t i = 0; i + 1 < r->count; i++) {
        const double a = r->rows[i].result.margin, b = r->rows[i + 1].result.margin, from = sweep_varied_at(r, i), to = sweep_varied_at(r, i + 1);
        if (!joins(r, i) || (a >= 0) == (b >= 0) || !isfinite(a + b)) continue;
        if (n < CROSSINGS_MOST) at[n] = from + (to - from) * a / (a - b);
        n++;
    }
    return n;
}

static void put_crossings(const chart *upper, const chart *lower, const double at[], size_t count, const char *of)
{
    for (size_t i = 0; i < count; i++) {
        text words = {0};
        const double x = chart_x(upper, at[i]);
        const bool right = x < upper->left + upper->width / 2;
        chart_upright(upper, at[i], "mark");
        chart_upright(lower, at[i], "mark");
        chart_point(upper, at[i], 0, "dot-red");
        text_format(&words, "%.4g%s%s", at[i], *of != '\0' ? " " : "", of);
        chart_words(upper->out, right ? x + 6 : x - 6, upper->top + 12 + 14 * (double)i, right ? "start" : "end", "red bold halo",
                    page_said(&words));
        text_free_part(&words, upper->out);
    }
}

/* The word stands in the half that the line leaves free there. */
static void put_now(const chart *upper, const chart *lower, const sweep_run *r)
{
    const double now = shown(r->rows[0].now[r->varied], r->column->dimension, r->units);
    size_t nearest = 0;
    for (size_t i = 1; i < r->count; i++)
        if (fabs(sweep_varied_at(r, i) - now) < fabs(sweep_varied_at(r, nearest) - now)) nearest = i;
    if (!(now >= upper->x_low && now <= upper->x_high)) return;
    chart_upright(upper, now, "dashed");
    chart_upright(lower, now, "dashed");
    const bool right = chart_x(upper, now) < upper->left + upper->width - 40;
    const bool low = 100 * r->rows[nearest].result.margin < (upper->y_low + upper->y_high) / 2;
    chart_words(upper->out, chart_x(upper, now) + (right ? 5 : -5), upper->top + (low ? 40 : upper->height - 5), right ? "start" : "end",
                "quiet halo", "now");
}

/* A thick line over the thin one where this check governs at both ends of a step. */
static void put_governing(const chart *c, const sweep_run *r, size_t offset, int check)
{
    for (size_t i = 0; i + 1 < r->count; i++) {
        if (!joins(r, i) || r->rows[i].result.governs != check || r->rows[i + 1].result.governs != check) continue;
        const double x[] = {sweep_varied_at(r, i), sweep_varied_at(r, i + 1)}, y[] = {answer_at(r, i, offset), answer_at(r, i + 1, offset)};
        if (isfinite(y[0]) && isfinite(y[1])) chart_line(c, x, y, 2, "strong");
    }
}

static void put_factors(const chart *c, const sweep_run *r)
{
    static const rbow_governs checks[] = {RBOW_BY_COLUMN, RBOW_BY_YIELD, RBOW_BY_INTERACTION};
    static const struct {
        const char *name;
        size_t offset;
        const char *style, *words;
    } lines[] = {{"required", offsetof(sweep_row, factor), "limit", "red"},
                 {"required, yield", offsetof(sweep_row, factor_yield), "limit", "red"},
                 {"column", offsetof(sweep_row, result.column_factor), "dotted", ""},
                 {"yield", offsetof(sweep_row, result.yield_factor), "plain", ""},
                 {"interaction", offsetof(sweep_row, result.interaction_factor), "chain", ""}};
    chart_label labels[sizeof lines / sizeof *lines];
    size_t n = 0;
    bool apart = false;
    for (size_t i = 0; i < r->count; i++) apart = apart || fabs(r->rows[i].factor - r->rows[i].factor_yield) > 0;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        if (i == 1 && !apart) continue;
        const double last = answer_at(r, r->count - 1, lines[i].offset);
        sweep_line(c, r, lines[i].offset, 1, lines[i].style);
        if (i >= 2) put_governing(c, r, lines[i].offset, (int)checks[i - 2]);
        if (isfinite(last)) labels[n++] = (chart_label){last, lines[i].name, lines[i].words};
    }
    chart_labels(c, labels, n);
}

/* ---- stops: what was worked out at a value of the column ------------------------------------------------- */

enum { STRIPS_MOST = 64 }; /* values of one case that all have one; of more only the notable ones */

void sweep_place(text *words, const sweep_run *r, size_t i)
{
    text_format(words, "%s ", r->column->name);
    put_value(words, r->rows[i].value[r->varied], r->column->dimension, r->units);
    text_put(words, "\nmargin ");
    put_percent(words, r->rows[i].result.margin);
}

static void put_factor_line(text *words, const char *name, double factor)
{
    text_format(words, "\n%s reaches ", name);
    put_factor(words, factor);
}

static void put_values(text *words, const sweep_run *r, size_t i)
{
    const rbow_result *found = &r->rows[i].result;
    sweep_place(words, r, i);
    text_char(words, '\n');
    shorten(words, r->rows[i].governs, 18);
    text_put(words, " governs");
    put_factor_line(words, "column", found->column_factor);
    put_factor_line(words, "yield", found->yield_factor);
    put_factor_line(words, "interaction", found->interaction_factor);
}

/* Which of the values the Tab key reaches. A value per point, ascending or descending. Returned: NULL where memory ran out; to be freed */
static bool *notable_of(const sweep_run *r)
{
    double *x = malloc(2 * r->count * sizeof *x);
    bool *notable = malloc(r->count * sizeof *notable);
    for (size_t i = 0; i < r->count && x != NULL; i++) {
        x[i] = sweep_varied_at(r, i);
        x[r->count + i] = r->rows[i].result.margin;
    }
    if (x != NULL && notable != NULL)
        chart_notable(x, x + r->count, r->count, 0, shown(r->rows[0].now[r->varied], r->column->dimension, r->units), notable);
    free(x);
    return notable;
}

static void put_stops(const chart *upper, const chart *lower, const sweep_run *r)
{
    chart_strip strips[STRIPS_MOST];
    bool *notable = notable_of(r);
    const bool descends = sweep_varied_at(r, 0) > sweep_varied_at(r, r->count - 1);
    size_t n = 0;
    for (size_t k = 0; k < r->count && n < STRIPS_MOST && notable != NULL; k++) {
        const size_t i = descends ? r->count - 1 - k : k;
        if (!notable[i] && (!r->many || r->count > STRIPS_MOST)) continue;
        strips[n] = (chart_strip){.x = sweep_varied_at(r, i), .y = 100 * r->rows[i].result.margin, .tab = notable[i]};
        put_values(&strips[n++].words, r, i);
    }
    if (notable == NULL) upper->out->failed = true;
    chart_strips(upper, lower, strips, n);
    for (size_t i = 0; i < n; i++) text_free_part(&strips[i].words, upper->out);
    free(notable);
}

static bool goes_above(const chart *c, const sweep_run *r)
{
    bool any = false;
    for (size_t i = 0; i < r->count; i++) any = any || 100 * r->rows[i].result.margin > c->y_high * (1 + 1e-9);
    return any;
}

static void caption(text *out, size_t crossings, bool above, const sweep_run *r)
{
    size_t gaps = 0;
    text words = {0};
    for (size_t i = 0; i + 1 < r->count; i++) gaps += !joins(r, i);
    if (crossings > 0)
        text_put(&words, "It passes margin 0 where the upright stands.");
    else
        text_put(&words, r->rows[0].result.margin >= 0 ? "It holds over the whole range." : "It is short over the whole range.");
    if (crossings > CROSSINGS_MOST) text_format(&words, " It does so %zu times; the first %d are marked.", crossings, (int)CROSSINGS_MOST);
    if (gaps > 0) text_put(&words, " The lines are broken where a value could not be worked out.");
    if (above) text_put(&words, " Part of the margin is above the chart or without a limit.");
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
}

void sweep_case(text *out, const sweep_run *r)
{
    double from = INFINITY, to = -INFINITY, crossings[CROSSINGS_MOST];
    for (size_t i = 0; i < r->count; i++) page_stretch(sweep_varied_at(r, i), &from, &to);
    if (!(to > from)) return;
    const size_t count = crossings_of(r, crossings);
    text axis = {0};
    chart upper = {.out = out, .left = SWEEP_LEFT, .top = 26, .width = FIGURE_WIDTH - SWEEP_LEFT - RIGHT_ROOM, .height = UPPER_HEIGHT, .x_low = from,
                   .x_high = to, .inches = r->inches};
    chart lower = upper;
    page_margin_range(&upper, r->low, r->high);
    lower.top = LOWER_TOP;
    lower.height = LOWER_HEIGHT;
    lower.y_high = chart_round_up(r->most, 4);
    page_column_name(&axis, r->column, r->units);
    page_begin_chart(out, r->rows[0].name, LOWER_TOP + LOWER_HEIGHT + 40, "Margin and load factors over the varied column");
    chart_axis_y(&upper, "margin, %");
    chart_axis_x(&upper, "");
    chart_axis_y(&lower, "load factors reached");
    chart_axis_x(&lower, page_said(&axis));
    chart_line(&upper, (const double[]){from, to}, (const double[]){0, 0}, 2, "limit");
    chart_plot(&upper);
    put_now(&upper, &lower, r);
    sweep_line(&upper, r, offsetof(sweep_row, result.margin), 100, "strong");
    put_factors(&lower, r);
    put_crossings(&upper, &lower, crossings, count < CROSSINGS_MOST ? count : CROSSINGS_MOST, unit_name(r->column->dimension, r->units));
    put_stops(&upper, &lower, r);
    caption(out, count, goes_above(&upper, r), r);
    text_free_part(&axis, out);
}
