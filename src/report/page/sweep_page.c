#include "report/page/sweep_page.h"

#include "cases/case_words.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/page/sweep_map.h"
#include "report/values.h"

#include <math.h>
#include <string.h>

enum { LEFT = 44, RIGHT_ROOM = 118, POINTS_MOST = 256 }; /* POINTS_MOST: points of a line that are drawn at once */

typedef struct run { /* the rows of one case, in the order of the varied column */
    const sweep_row *rows;
    size_t count;
    const field *column;
    size_t varied; /* which of row.value */
    unit_system units;
    bool inches;   /* its values are fractions of an inch */
    double low, high, most; /* least and largest margin of all cases, and the largest load factor: one scale for all charts */
} run;

static double varied_at(const run *r, size_t i)
{
    return shown(r->rows[i].value[r->varied], r->column->dimension, r->units);
}

static double answer_at(const run *r, size_t i, size_t offset)
{
    double value;
    memcpy(&value, (const char *)&r->rows[i] + offset, sizeof value);
    return value;
}

/* Values that follow each other; one between them may have been refused. */
static bool joins(const run *r, size_t i)
{
    return r->rows[i + 1].at == r->rows[i].at + 1;
}

/* One answer over the column; broken where a value was refused. What has no limit goes out at the top. */
static void put_line(const chart *c, const run *r, size_t offset, double times, const char *style)
{
    double x[POINTS_MOST], y[POINTS_MOST];
    size_t n = 0;
    for (size_t i = 0; i < r->count; i++) {
        const double value = times * answer_at(r, i, offset);
        x[n] = varied_at(r, i);
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
static size_t crossings_of(const run *r, double at[CROSSINGS_MOST])
{
    size_t n = 0;
    for (size_t i = 0; i + 1 < r->count; i++) {
        const double a = r->rows[i].result.margin, b = r->rows[i + 1].result.margin, from = varied_at(r, i), to = varied_at(r, i + 1);
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
static void put_now(const chart *upper, const chart *lower, const run *r)
{
    const double now = shown(r->rows[0].now[r->varied], r->column->dimension, r->units);
    size_t nearest = 0;
    for (size_t i = 1; i < r->count; i++)
        if (fabs(varied_at(r, i) - now) < fabs(varied_at(r, nearest) - now)) nearest = i;
    if (!(now >= upper->x_low && now <= upper->x_high)) return;
    chart_upright(upper, now, "dashed");
    chart_upright(lower, now, "dashed");
    const bool right = chart_x(upper, now) < upper->left + upper->width - 40;
    const bool low = 100 * r->rows[nearest].result.margin < (upper->y_low + upper->y_high) / 2;
    chart_words(upper->out, chart_x(upper, now) + (right ? 5 : -5), upper->top + (low ? 40 : upper->height - 5), right ? "start" : "end",
                "quiet halo", "now");
}

/* A thick line over the thin one where this check governs at both ends of a step. */
static void put_governing(const chart *c, const run *r, size_t offset, int check)
{
    for (size_t i = 0; i + 1 < r->count; i++) {
        if (!joins(r, i) || r->rows[i].result.governs != check || r->rows[i + 1].result.governs != check) continue;
        const double x[] = {varied_at(r, i), varied_at(r, i + 1)}, y[] = {answer_at(r, i, offset), answer_at(r, i + 1, offset)};
        if (isfinite(y[0]) && isfinite(y[1])) chart_line(c, x, y, 2, "strong");
    }
}

static void put_factors(const chart *c, const run *r)
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
        put_line(c, r, lines[i].offset, 1, lines[i].style);
        if (i >= 2) put_governing(c, r, lines[i].offset, (int)checks[i - 2]);
        if (isfinite(last)) labels[n++] = (chart_label){last, lines[i].name, lines[i].words};
    }
    chart_labels(c, labels, n);
}

static void stretch_factors(const sweep_row *row, double asked, double *most)
{
    const double factors[] = {row->result.column_factor, row->result.yield_factor, row->result.interaction_factor, row->factor, row->factor_yield};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++)
        if (isfinite(factors[i])) *most = fmax(*most, fmin(factors[i], 4 * asked));
}

enum { SPOTS_MOST = 64 };

/* What the pointer rests on says its numbers. */
static void put_spots(const chart *c, const run *r)
{
    for (size_t i = 0; i < r->count && r->count <= SPOTS_MOST; i++) {
        text words = {0};
        text_format(&words, "%s ", r->column->name);
        put_value(&words, r->rows[i].value[r->varied], r->column->dimension, r->units);
        text_put(&words, ": margin ");
        put_percent(&words, r->rows[i].result.margin);
        text_format(&words, ", %s governs", governs_words[r->rows[i].result.governs].word);
        chart_spot(c, varied_at(r, i), 100 * r->rows[i].result.margin, page_said(&words));
        text_free_part(&words, c->out);
    }
}

static bool goes_above(const chart *c, const run *r)
{
    bool any = false;
    for (size_t i = 0; i < r->count; i++) any = any || 100 * r->rows[i].result.margin > c->y_high * (1 + 1e-9);
    return any;
}

static void caption(text *out, size_t crossings, bool above, const run *r)
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

static void put_case(text *out, const run *r)
{
    double from = INFINITY, to = -INFINITY, crossings[CROSSINGS_MOST];
    for (size_t i = 0; i < r->count; i++) page_stretch(varied_at(r, i), &from, &to);
    if (!(to > from)) return;
    const size_t count = crossings_of(r, crossings);
    text axis = {0};
    chart upper = {.out = out, .left = LEFT, .top = 26, .width = FIGURE_WIDTH - LEFT - RIGHT_ROOM, .height = UPPER_HEIGHT, .x_low = from,
                   .x_high = to, .inches = r->inches};
    chart lower = upper;
    page_margin_range(&upper, r->low, r->high);
    lower.top = LOWER_TOP;
    lower.height = LOWER_HEIGHT;
    lower.y_high = chart_round_up(r->most, 4);
    page_column_name(&axis, r->column, r->units);
    page_begin_figure(out, r->rows[0].name, LOWER_TOP + LOWER_HEIGHT + 40, "Margin and load factors over the varied column");
    chart_axis_y(&upper, "margin, %");
    chart_axis_x(&upper, "");
    chart_axis_y(&lower, "load factors reached");
    chart_axis_x(&lower, page_said(&axis));
    chart_line(&upper, (const double[]){from, to}, (const double[]){0, 0}, 2, "limit");
    put_now(&upper, &lower, r);
    put_line(&upper, r, offsetof(sweep_row, result.margin), 100, "strong");
    put_spots(&upper, r);
    put_factors(&lower, r);
    put_crossings(&upper, &lower, crossings, count < CROSSINGS_MOST ? count : CROSSINGS_MOST, unit_name(r->column->dimension, r->units));
    caption(out, count, goes_above(&upper, r), r);
    text_free_part(&axis, out);
}

/* ---- all cases in one ------------------------------------------------------------------------------------ */

/* all: of every case, for what they share. */
static run run_from(const run *all, size_t first)
{
    run one = *all;
    size_t end = first + 1;
    while (end < all->count && !all->rows[end].begins) end++;
    one.rows = all->rows + first;
    one.count = end - first;
    return one;
}

/* Where the least margin of all stands. */
static size_t least_of(const run *all)
{
    size_t least = 0;
    for (size_t i = 1; i < all->count; i++)
        if (all->rows[i].result.margin < all->rows[least].result.margin) least = i;
    return least;
}

static void put_overview(text *out, const run *all)
{
    const size_t count = all->count, least = least_of(all);
    double from = INFINITY, to = -INFINITY;
    text axis = {0}, words[CHART_LABELS_MOST] = {{0}};
    chart_label labels[CHART_LABELS_MOST];
    size_t lines = 0;
    for (size_t i = 0; i < count; i++) page_stretch(varied_at(all, i), &from, &to);
    if (!(to > from)) return;
    chart c = {.out = out, .left = LEFT, .top = 26, .width = FIGURE_WIDTH - LEFT - 150, .height = 240, .x_low = from, .x_high = to, .inches = all->inches};
    page_margin_range(&c, all->low, all->high);
    page_begin_figure(out, "All cases", 310, "Margin of every case over the varied column");
    page_column_name(&axis, all->column, all->units);
    chart_axis_y(&c, "margin, %");
    chart_axis_x(&c, page_said(&axis));
    chart_line(&c, (const double[]){from, to}, (const double[]){0, 0}, 2, "limit");
    for (size_t i = 0; i < count && lines < CHART_LABELS_MOST; lines++) {
        const run r = run_from(all, i);
        const double last = r.rows[r.count - 1].result.margin;
        const bool worst = i <= least && least < i + r.count;
        chart_begin_named(out, r.rows[0].name);
        put_line(&c, &r, offsetof(sweep_row, result.margin), 100, worst ? "strong" : "plain");
        chart_end_named(out);
        shorten(&words[lines], r.rows[0].name, 18);
        labels[lines] = (chart_label){isinf(last) ? c.y_high : 100 * last, page_said(&words[lines]), worst ? "blue bold" : ""};
        i += r.count;
    }
    chart_labels(&c, labels, lines);
    page_end_figure(out, "Under the dashed line a case is short. Thick: the case with the least margin of all. Each line is named at its right end, from the top down where lines meet; one "
                         "that is above the chart or without a limit is named at the top.");
    for (size_t i = 0; i < lines; i++) text_free_part(&words[i], out);
    text_free_part(&axis, out);
}

/* ---- the page -------------------------------------------------------------------------------------------- */

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
    return holds == count;
}

static size_t cases_of(const sweep_row *rows, size_t count)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) n += rows[i].begins;
    return n;
}

static bool are_fractions(const run *r)
{
    if (r->column->dimension != DIM_LENGTH || r->units != UNITS_US) return false;
    for (size_t i = 0; i < r->count; i++) {
        const double parts = 64 * r->rows[i].value[r->varied];
        if (fabs(parts - round(parts)) > 1e-6) return false;
    }
    return true;
}

/* What all charts share. */
static run all_of(const sweep_row *rows, size_t count, const field *column, size_t varied, unit_system units)
{
    run all = {rows, count, column, varied, units, .low = INFINITY, .high = -INFINITY};
    for (size_t i = 0; i < count; i++) {
        page_stretch(rows[i].result.margin, &all.low, &all.high);
        stretch_factors(&rows[i], fmax(rows[i].factor, rows[i].factor_yield), &all.most);
    }
    all.inches = are_fractions(&all);
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
    const run all = all_of(rows, count, asked->column[varied], varied, head->units);
    if (!map && cases > 1 && cases <= CHART_LABELS_MOST) put_overview(out, &all);
    if (map)
        page_sweep_map_words(out);
    else
        text_put(out, "<p class=\"soft\">Each chart, above: the margin; under the dashed line the case is short. Below: how many times the run load each "
                      "check reaches, against the dashed factor that is required; thick where the check governs. A check that nothing reaches has no "
                      "line. Where the margin passes 0 is found on a straight line between the values worked out. All charts have one scale.</p>\n");
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < count;) {
        const run r = run_from(&all, i);
        if (map)
            page_sweep_map(out, head, r.rows, r.count, asked, all.low, all.high);
        else
            put_case(out, &r);
        i += r.count;
    }
    text_put(out, "</div>\n");
    page_begin_numbers(out);
    page_table(out, asked->list, rows, count, head->units, "Every combination");
    page_end_numbers(out);
    text_free_part(&said, out);
}
