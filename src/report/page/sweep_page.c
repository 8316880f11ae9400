#include "report/page/sweep_page.h"

#include "report/chart/stops.h"
#include "report/html.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/page/sweep_case.h"
#include "report/page/sweep_map.h"
#include "report/values.h"

#include <math.h>
#include <stdlib.h>

/* ---- all cases in one ------------------------------------------------------------------------------------ */

/* all: of every case, for what they share. */
static sweep_run run_from(const sweep_run *all, size_t first)
{
    sweep_run one = *all;
    size_t end = first + 1;
    while (end < all->count && !all->rows[end].begins) end++;
    one.rows = all->rows + first;
    one.count = end - first;
    return one;
}

/* Where the least margin stands. */
static size_t least_of(const sweep_run *r)
{
    size_t least = 0;
    for (size_t i = 1; i < r->count; i++)
        if (r->rows[i].result.margin < r->rows[least].result.margin) least = i;
    return least;
}

static int by_least_margin(const void *one, const void *other)
{
    const sweep_run *a = one, *b = other;
    const double x = a->rows[least_of(a)].result.margin, y = b->rows[least_of(b)].result.margin;
    if (x < y || x > y) return x < y ? -1 : 1;
    return a->rows < b->rows ? -1 : a->rows > b->rows; /* as in the file */
}

/* The rows of each case, the one with the least margin first. Returned: NULL where memory ran out; to be freed */
static sweep_run *runs_of(const sweep_run *all, size_t cases)
{
    sweep_run *runs = malloc((cases + 1) * sizeof *runs);
    size_t n = 0;
    for (size_t i = 0; i < all->count && runs != NULL; i += runs[n++].count) runs[n] = run_from(all, i);
    if (runs != NULL) qsort(runs, n, sizeof *runs, by_least_margin);
    return runs;
}

enum { LINES_MOST = 30 }; /* of all cases in one chart */

/* The ends and the least margin of a line. */
static void put_line_stops(const chart *c, const sweep_run *r)
{
    const size_t least = least_of(r), at[] = {0, r->count - 1, least};
    for (size_t i = 0; i < 3; i++) {
        text words = {0};
        if (i < 2 && at[i] == least) continue;
        shorten(&words, r->rows[0].name, 24);
        text_put(&words, i == 2 ? "\nleast, at " : "\n");
        sweep_place(&words, r, at[i]);
        chart_stop(c, sweep_varied_at(r, at[i]), fmin(100 * r->rows[at[i]].result.margin, c->y_high), page_said(&words), i == 2);
        text_free_part(&words, c->out);
    }
}

/* The worst of them are named. */
static void name_lines(const chart *c, const sweep_run runs[], size_t cases)
{
    text words[CHART_LABELS_MOST] = {{0}};
    chart_label labels[CHART_LABELS_MOST];
    size_t n = 0;
    for (; n < cases && n < CHART_LABELS_MOST; n++) {
        const double last = runs[n].rows[runs[n].count - 1].result.margin;
        shorten(&words[n], runs[n].rows[0].name, 18);
        labels[n] = (chart_label){isinf(last) ? c->y_high : 100 * last, page_said(&words[n]), n == 0 ? "blue bold" : ""};
    }
    chart_labels(c, labels, n);
    for (size_t i = 0; i < n; i++) text_free_part(&words[i], c->out);
}

/* Given: runs  the worst first: its line is drawn last, on the others */
static void put_overview(text *out, const sweep_run *all, const sweep_run runs[], size_t cases)
{
    double from = INFINITY, to = -INFINITY;
    text axis = {0};
    for (size_t i = 0; i < all->count; i++) page_stretch(sweep_varied_at(all, i), &from, &to);
    if (!(to > from)) return;
    chart c = {.out = out, .left = SWEEP_LEFT, .top = 26, .width = FIGURE_WIDTH - SWEEP_LEFT - 150, .height = 240, .x_low = from, .x_high = to, .inches = all->inches};
    page_margin_range(&c, all->low, all->high);
    page_begin_chart(out, "All cases", 310, "Margin of every case over the varied column");
    page_column_name(&axis, all->column, all->units);
    chart_axis_y(&c, "margin, %");
    chart_axis_x(&c, page_said(&axis));
    chart_line(&c, (const double[]){from, to}, (const double[]){0, 0}, 2, "limit");
    chart_plot(&c);
    for (size_t i = cases; i-- > 0;) {
        text_put(out, "<g data-case=\"");
        html_text(out, runs[i].rows[0].name);
        text_put(out, "\">\n");
        sweep_line(&c, &runs[i], offsetof(sweep_row, result.margin), 100, i == 0 ? "strong" : "plain");
        text_put(out, "</g>\n");
    }
    name_lines(&c, runs, cases);
    for (size_t i = cases; i-- > 0;) put_line_stops(&c, &runs[i]);
    page_end_figure(out, cases <= CHART_LABELS_MOST
                        ? "Under the dashed line a case is short. Thick: the case with the least margin of all. Each line is named at its right end, from the top down where lines meet; one "
                          "that is above the chart or without a limit is named at the top."
                        : "Under the dashed line a case is short. Thick: the case with the least margin of all. The cases with the least margins are named at the right "
                          "end of their lines, the others in their own charts.");
    text_free_part(&axis, out);
}

/* ---- the page -------------------------------------------------------------------------------------------- */

/* From which value on the case is short, where the verdict changes once: between `last` and the next value. */
static void say_change(text *out, const page_head *head, const sweep_row *rows, size_t count, const field *column, size_t varied)
{
    const bool up = count > 1 && rows[1].value[varied] > rows[0].value[varied];
    size_t changes = 0, last = 0;
    for (size_t i = 1; i < count; i++) {
        if ((rows[i].result.verdict == RBOW_HOLDS) == (rows[i - 1].result.verdict == RBOW_HOLDS)) continue;
        changes++;
        last = i - 1;
    }
    if (changes != 1) return;
    const bool holds = rows[0].result.verdict == RBOW_HOLDS;
    text_format(out, " ‘%s’ %s %s to %s ", rows[0].name, holds ? "holds" : "is short", up ? "up" : "down", column->name);
    put_value(out, rows[last].value[varied], column->dimension, head->units);
    text_put(out, holds ? " and is short from " : " and holds from ");
    put_value(out, rows[last + 1].value[varied], column->dimension, head->units);
    text_put(out, " on.");
}

/* The same of the case that has the row `worst`. */
static void say_change_of(text *out, const page_head *head, const sweep_row *rows, size_t count, size_t worst, const sweep_asked *asked)
{
    const size_t varied = asked->columns == 2 && asked->values[0] == 1;
    size_t first = worst, end = worst + 1;
    if (asked->columns == 2 && asked->values[0] > 1 && asked->values[1] > 1) return;
    while (first > 0 && !rows[first].begins) first--;
    while (end < count && !rows[end].begins) end++;
    say_change(out, head, rows + first, end - first, asked->column[varied], varied);
}

/* Returned: whether every combination holds. */
static bool say_verdict(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked)
{
    size_t holds = 0, worst = 0;
    for (size_t i = 0; i < count; i++) {
        holds += rows[i].result.verdict == RBOW_HOLDS;
        if (rows[i].result.margin < rows[worst].result.margin) worst = i;
    }
    if (holds == count)
        text_format(out, head->faults ? "The %zu combinations that could be worked out hold; the least margin is "
                                      : "All %zu combinations hold; the least margin is ", count);
    else
        text_format(out, "%zu of %zu combinations %s short; the least margin is ", count - holds, count, count - holds == 1 ? "is" : "are");
    put_percent(out, rows[worst].result.margin);
    text_format(out, ", in ‘%s’ at ", rows[worst].name);
    for (size_t i = 0; i < asked->columns; i++) {
        text_format(out, "%s%s ", i > 0 ? " and " : "", asked->column[i]->name);
        put_value(out, rows[worst].value[i], asked->column[i]->dimension, head->units);
    }
    text_char(out, '.');
    if (head->refused == 0) say_change_of(out, head, rows, count, worst, asked);
    return holds == count;
}

static size_t cases_of(const sweep_row *rows, size_t count)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) n += rows[i].begins;
    return n;
}

static bool are_fractions(const sweep_run *r)
{
    if (r->column->dimension != DIM_LENGTH || r->units != UNITS_US) return false;
    for (size_t i = 0; i < r->count; i++) {
        const double parts = 64 * r->rows[i].value[r->varied];
        if (fabs(parts - round(parts)) > 1e-6) return false;
    }
    return true;
}

static void stretch_factors(const sweep_row *row, double asked, double *most)
{
    const double factors[] = {row->result.column_factor, row->result.yield_factor, row->result.interaction_factor, row->factor, row->factor_yield};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++)
        if (isfinite(factors[i])) *most = fmax(*most, fmin(factors[i], 4 * asked));
}

enum { MANY_MOST = 40 }; /* cases of a page whose charts have many stops each */

/* What all charts share. */
static sweep_run all_of(const sweep_row *rows, size_t count, const field *column, size_t varied, unit_system units)
{
    sweep_run all = {rows, count, column, varied, units, .low = INFINITY, .high = -INFINITY};
    for (size_t i = 0; i < count; i++) {
        page_stretch(rows[i].result.margin, &all.low, &all.high);
        stretch_factors(&rows[i], fmax(rows[i].factor, rows[i].factor_yield), &all.most);
    }
    all.inches = are_fractions(&all);
    all.many = cases_of(rows, count) <= MANY_MOST;
    return all;
}

void page_sweep(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked)
{
    text said = {0};
    const bool fine = say_verdict(&said, head, rows, count, asked);
    const size_t cases = cases_of(rows, count), varied = asked->columns == 2 && asked->values[0] == 1;
    const bool map = asked->columns == 2 && asked->values[0] > 1 && asked->values[1] > 1;
    page_sentence(out, fine, &said);
    if (head->refused > 0)
        text_format(out, "<p><strong>Not every combination could be worked out,</strong> in %zu of the file’s rows: the messages of the run "
                         "say which and why.</p>\n", head->refused);
    else
        page_refused(out, head);
    const sweep_run all = all_of(rows, count, asked->column[varied], varied, head->units);
    sweep_run *runs = runs_of(&all, cases);
    if (runs == NULL) out->failed = true;
    if (!map && cases > 1 && cases <= LINES_MOST && runs != NULL) put_overview(out, &all, runs, cases);
    if (map)
        page_sweep_map_words(out);
    else
        text_put(out, "<p class=\"soft\">Each chart, above: the margin; under the dashed line the case is short. Below: how many times the run load each "
                      "check reaches, against the dashed factor that is required; thick where the check governs. A check that nothing reaches has no "
                      "line. Where the margin passes 0 is found on a straight line between the values worked out. All charts have one scale.</p>\n");
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < cases && runs != NULL; i++) {
        if (map)
            page_sweep_map(out, head, runs[i].rows, runs[i].count, asked, all.low, all.high);
        else
            sweep_case(out, &runs[i]);
    }
    free(runs);
    text_put(out, "</div>\n");
    page_begin_numbers(out);
    page_table(out, asked->list, rows, count, head->units, "Every combination");
    page_end_numbers(out);
    text_free_part(&said, out);
}
