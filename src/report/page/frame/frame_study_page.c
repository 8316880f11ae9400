#include "report/page/frame/frame_study_page.h"

#include "report/caution.h"
#include "report/chart/stops.h"
#include "report/html.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/page/sweep_map.h"
#include "report/values.h"

#include <math.h>
#include <stdlib.h>

enum { LEFT = 44, POINTS_MOST = 256 };

/* "Tube ", where a sentence begins with it. */
static void put_first(text *out, const char *word)
{
    text_format(out, "%c%s ", *word - 'a' + 'A', word + 1);
}

static void put_name(text *out, const char *name)
{
    text_put(out, "‘");
    put_printable(out, name);
    text_put(out, "’");
}

/* "+3.1 %, tube ‘rail UR 2’ in run ‘pitch’" */
static void put_weakest(text *out, const frame_weakest *w)
{
    put_percent(out, w->margin);
    if (*w->tube == '\0') return;
    text_put(out, ", tube ");
    put_name(out, w->tube);
    text_put(out, " in run ");
    put_name(out, w->run);
}

/* ---- compare ----------------------------------------------------------------------------------------------- */

static void put_wall(text *out, double wall, const page_head *head)
{
    text_format(out, "%.4g", shown(wall, DIM_LENGTH, head->units));
}

static void say_pick(text *out, const page_head *head, const frame_comparison *c)
{
    if (!c->picked) {
        text_put(out, c->descended ? "No wall that was tried holds for all tubes." : "No set of these walls holds.");
        return;
    }
    text_put(out, c->descended ? "Part by part downward, the lightest walls found that hold weigh " : "The lightest walls that hold, one for each part, weigh ");
    page_value(out, c->pick.weight, DIM_MASS, head->units, 4);
    text_format(out, " (%+.2f %s against the frame as given); worst margin ",
                round(100 * shown(c->pick.weight - c->given.weight, DIM_MASS, head->units)) / 100 + 0.0, unit_name(DIM_MASS, head->units));
    put_weakest(out, &c->pick.weakest);
    text_char(out, '.');
    if (!c->next.known) return;
    text_put(out, c->descended ? " The least step further down (" : " The next lighter set (");
    page_value(out, c->next.weight, DIM_MASS, head->units, 4);
    text_put(out, ") is short: margin ");
    put_weakest(out, &c->next.weakest);
    text_char(out, '.');
}

typedef struct mark {
    double weight, margin; /* as shown, as a share */
    const char *style;
    text words;
} mark;

static void add_mark(mark marks[], size_t *count, const page_head *head, double weight, double margin, const char *style)
{
    if (*count >= CHART_NAMES_MOST || !isfinite(weight)) return;
    marks[(*count)++] = (mark){shown(weight, DIM_MASS, head->units), margin, style, {0}};
}

/* The pick first, so that its name has room. */
static size_t marks_of(const page_head *head, const frame_comparison *c, mark marks[CHART_NAMES_MOST])
{
    size_t n = 0;
    if (c->picked && c->pick.known) {
        add_mark(marks, &n, head, c->pick.weight, c->pick.weakest.margin, "dot");
        text_put(&marks[n - 1].words, "pick");
    }
    if (c->given.known) {
        add_mark(marks, &n, head, c->given.weight, c->given.weakest.margin, "ring");
        text_put(&marks[n - 1].words, "as given");
    }
    for (size_t i = 0; i < c->walls && n < CHART_NAMES_MOST; i++) {
        if (!c->rows[i].possible) continue;
        add_mark(marks, &n, head, c->rows[i].weight, c->rows[i].weakest.margin, "ring");
        put_wall(&marks[n - 1].words, c->rows[i].wall, head);
    }
    return n;
}

static void put_marks(const chart *area, const mark marks[], size_t n)
{
    chart_name names[CHART_NAMES_MOST];
    for (size_t i = 0; i < n; i++) {
        const double margin = fmin(100 * marks[i].margin, area->y_high);
        chart_point(area, marks[i].weight, margin, marks[i].style);
        names[i] = (chart_name){marks[i].weight, margin, page_said(&marks[i].words), i == 0 ? "blue bold halo" : "halo"};
    }
    chart_names(area, names, n);
    for (size_t i = 0; i < n; i++) {
        text words = {0};
        text_format(&words, "%s: %.4g\nmargin ", page_said(&marks[i].words), marks[i].weight);
        put_percent(&words, marks[i].margin);
        chart_stop(area, marks[i].weight, fmin(100 * marks[i].margin, area->y_high), page_said(&words), i < CHART_TABS_MOST);
        text_free_part(&words, area->out);
    }
}

static void put_weights(text *out, const page_head *head, const frame_comparison *c)
{
    double low = INFINITY, high = -INFINITY, light = INFINITY, heavy = -INFINITY;
    mark marks[CHART_NAMES_MOST];
    const size_t n = marks_of(head, c, marks);
    for (size_t i = 0; i < n; i++) {
        page_stretch(marks[i].margin, &low, &high);
        page_stretch(marks[i].weight, &light, &heavy);
    }
    if (n > 0 && heavy > 0) {
        const double room = fmax(0.12 * (heavy - light), 0.02 * heavy);
        chart area = {.out = out, .left = LEFT, .top = 30, .width = FIGURE_WIDTH - 60, .height = 220, .x_low = fmax(light - room, 0),
                      .x_high = heavy + room};
        text axis = {0};
        page_margin_range(&area, low, high);
        page_begin_chart(out, "Worst margin over weight", 296, "Worst margin of the frame over the weight of its tubes");
        chart_axis_y(&area, "worst margin of all tubes, %");
        text_format(&axis, "weight of all tubes, %s", unit_name(DIM_MASS, head->units));
        chart_axis_x(&area, page_said(&axis));
        chart_line(&area, (const double[]){area.x_low, area.x_high}, (const double[]){0, 0}, 2, "limit");
        put_marks(&area, marks, n);
        page_end_figure(out, "Each mark is the frame with one wall for all its tubes, as given, or with the pick, one wall for each part. On or "
                             "above the dashed line it holds. A margin above the chart stands at its upper border.");
        text_free_part(&axis, out);
    }
    for (size_t i = 0; i < n; i++) text_free_part(&marks[i].words, out);
}

void page_frame_compare(text *out, const page_head *head, const frame_comparison *c)
{
    text said = {0};
    say_pick(&said, head, c);
    page_frame_sentence(out, c->picked, &said);
    put_weights(out, head, c);
    page_table(out, &frame_compare_list, c->rows, c->walls + c->parts, head->units,
               "All: one wall for all tubes. Pick: the wall of each part in the lightest set that holds");
    text_free_part(&said, out);
}

/* ---- sweep ------------------------------------------------------------------------------------------------- */

/* Returned: whether every value holds. */
static bool say_sweep(text *out, const page_head *head, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked)
{
    size_t holds = 0, worst = 0;
    for (size_t i = 0; i < count; i++) {
        holds += rows[i].weakest.verdict == RBOW_HOLDS;
        if (rows[i].weakest.margin < rows[worst].weakest.margin) worst = i;
    }
    put_first(out, asked->what);
    put_name(out, asked->name);
    text_put(out, ": ");
    frame_sweep_subject(out, asked);
    if (holds == count) text_format(out, " holds for %s%zu values", head->faults ? "the other " : "all ", count);
    else text_format(out, " is short for %zu of %zu values", count - holds, count);
    text_put(out, "; the least margin is ");
    put_weakest(out, &rows[worst].weakest);
    text_put(out, ", at ");
    for (size_t i = 0; i < asked->columns; i++) {
        text_format(out, "%s%s ", i > 0 ? " and " : "", asked->column[i]->name);
        put_value(out, rows[worst].value[i], asked->column[i]->dimension, head->units);
    }
    text_char(out, '.');
    return holds == count;
}

/* Broken where a value was refused. What has no limit goes out at the top. */
static void put_line(const chart *c, const frame_sweep_row *rows, size_t count, const field *column, unit_system units)
{
    double x[POINTS_MOST], y[POINTS_MOST];
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        const double margin = rows[i].weakest.margin;
        x[n] = shown(rows[i].value[0], column->dimension, units);
        y[n++] = isinf(margin) ? 2 * fabs(c->y_high) : 100 * margin;
        const bool ends = i + 1 == count || rows[i + 1].at != rows[i].at + 1;
        if (n < POINTS_MOST && !ends) continue;
        chart_line(c, x, y, n, "strong");
        if (n == 1) chart_point(c, x[0], y[0], "dot");
        x[0] = x[n - 1];
        y[0] = y[n - 1];
        n = ends ? 0 : 1;
    }
}

static void put_now(const chart *c, double now)
{
    if (!(now >= c->x_low && now <= c->x_high)) return;
    const bool right = chart_x(c, now) < c->left + c->width - 40;
    chart_upright(c, now, "dashed");
    chart_words(c->out, chart_x(c, now) + (right ? 5 : -5), c->top + 14, right ? "start" : "end", "quiet halo", "now");
}

/* All values where they are not too many to be told apart, else the notable ones. */
static void put_stops(const chart *c, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked, unit_system units)
{
    enum { MOST = 64 };
    const field *column = asked->column[0];
    double *x = malloc(2 * count * sizeof *x);
    bool *notable = malloc(count * sizeof *notable);
    chart_strip strips[MOST];
    size_t n = 0;
    const bool descends = rows[0].value[0] > rows[count - 1].value[0];
    for (size_t i = 0; i < count && x != NULL; i++) {
        x[i] = shown(rows[i].value[0], column->dimension, units);
        x[count + i] = rows[i].weakest.margin;
    }
    c->out->failed = c->out->failed || x == NULL || notable == NULL;
    if (x != NULL && notable != NULL) chart_notable(x, x + count, count, 0, shown(asked->now[0], column->dimension, units), notable);
    for (size_t k = 0; k < count && n < MOST && x != NULL && notable != NULL; k++) {
        const size_t i = descends ? count - 1 - k : k;
        if (!notable[i] && count > MOST) continue;
        strips[n] = (chart_strip){.x = x[i], .y = 100 * rows[i].weakest.margin, .tab = notable[i]};
        text *words = &strips[n++].words;
        text_format(words, "%s ", column->name);
        put_value(words, rows[i].value[0], column->dimension, units);
        text_put(words, "\nmargin ");
        put_percent(words, rows[i].weakest.margin);
        if (*rows[i].weakest.tube == '\0') continue;
        text_put(words, "\n");
        shorten(words, rows[i].weakest.tube, 20);
        text_put(words, "\n");
        shorten(words, rows[i].weakest.run, 20);
    }
    chart_strips(c, NULL, strips, n);
    for (size_t i = 0; i < n; i++) text_free_part(&strips[i].words, c->out);
    free(x);
    free(notable);
}

static void put_margins(text *out, const page_head *head, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked)
{
    const field *column = asked->column[0];
    double low = INFINITY, high = -INFINITY, from = INFINITY, to = -INFINITY;
    text axis = {0};
    for (size_t i = 0; i < count; i++) {
        page_stretch(rows[i].weakest.margin, &low, &high);
        page_stretch(shown(rows[i].value[0], column->dimension, head->units), &from, &to);
    }
    if (!(to > from)) return;
    chart c = {.out = out, .left = LEFT, .top = 26, .width = FIGURE_WIDTH - LEFT - 16, .height = 220, .x_low = from, .x_high = to};
    page_margin_range(&c, low, high);
    page_begin_chart(out, "Lowest margin", 290, "Lowest margin over the varied column");
    page_column_name(&axis, column, head->units);
    chart_axis_y(&c, "margin, %");
    chart_axis_x(&c, page_said(&axis));
    chart_line(&c, (const double[]){from, to}, (const double[]){0, 0}, 2, "limit");
    put_line(&c, rows, count, column, head->units);
    put_now(&c, shown(asked->now[0], column->dimension, head->units));
    put_stops(&c, rows, count, asked, head->units);
    page_end_figure(out, "The lowest margin of all tubes that are judged, in all runs. Under the dashed line a tube is short. The line is broken where a value "
                         "could not be worked out.");
    text_free_part(&axis, out);
}

typedef struct axis_values { /* the values that occur, ascending in the order in which they were varied */
    const double *at[SWEEP_COLUMNS_MOST];
} axis_values;

static double value_at(const void *context, size_t column, size_t i)
{
    const axis_values *v = context;
    return v->at[column][i];
}

/* Values of a column in the order in which they first occur. */
static size_t collect(const frame_sweep_row *rows, size_t count, size_t column, double values[])
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        size_t k = 0;
        while (k < n && fabs(values[k] - rows[i].value[column]) > 0) k++;
        if (k == n) values[n++] = rows[i].value[column];
    }
    return n;
}

/* Where no value was refused, so that every combination has its row. */
static void put_map(text *out, const page_head *head, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked)
{
    sweep_row *as_rows = calloc(count + 1, sizeof *as_rows);
    double *first = malloc(2 * (count + 1) * sizeof *first), *second = first != NULL ? first + count + 1 : NULL;
    if (as_rows == NULL || first == NULL) {
        out->failed = true;
    } else {
        const axis_values values = {{first, second}};
        const size_t outer = collect(rows, count, 0, first), inner = collect(rows, count, 1, second);
        const sweep_asked as_asked = {{asked->column[0], asked->column[1]}, 2, {outer, inner}, value_at, &values, asked->list};
        for (size_t i = 0; i < count; i++)
            as_rows[i] = (sweep_row){.name = asked->name, .value = {rows[i].value[0], rows[i].value[1]}, .begins = i == 0, .at = rows[i].at,
                                     .now = {asked->now[0], asked->now[1]},
                                     .result = {.margin = rows[i].weakest.margin, .verdict = rows[i].weakest.verdict}};
        double least = INFINITY, most = -INFINITY;
        for (size_t i = 0; i < count; i++) page_stretch(as_rows[i].result.margin, &least, &most);
        page_sweep_map_words(out);
        text_put(out, "<div class=\"figures\">\n");
        if (outer > 1 && inner > 1 && outer * inner == count) page_sweep_map(out, head, as_rows, count, &as_asked, least, most);
        text_put(out, "</div>\n");
    }
    free(as_rows);
    free(first);
}

void page_frame_sweep(text *out, const page_head *head, const frame_sweep_row *rows, size_t count, const frame_sweep_asked *asked)
{
    text said = {0};
    const bool fine = say_sweep(&said, head, rows, count, asked);
    page_frame_sentence(out, fine, &said);
    page_refused(out, head);
    (asked->columns == 1 ? put_margins : put_map)(out, head, rows, count, asked);
    page_table(out, asked->list, rows, count, head->units, "Every value");
    text_free_part(&said, out);
}

/* ---- limit ------------------------------------------------------------------------------------------------- */

static void say_limit(text *out, const page_head *head, const frame_limit_row *r, const frame_limit_asked *asked)
{
    const dimension d = asked->column->dimension;
    const rounding safe = asked->to > asked->from ? ROUND_DOWN : ROUND_UP;
    put_first(out, asked->what);
    put_name(out, r->name);
    text_format(out, ", %s: the frame ", asked->column->name);
    if (r->found.state == LIMIT_ALREADY) text_put(out, "is short where the range begins, at ");
    else if (r->found.state == LIMIT_FOUND) text_put(out, "holds up to ");
    else text_put(out, isnan(r->found.ends_at) ? "holds to the end of the range, " : "holds as far as the model goes, ");
    if (r->found.state == LIMIT_FOUND) put_quantity(out, r->found.limit, d, head->units, safe);
    else put_value(out, r->found.limit, d, head->units);
    if (!isnan(r->now)) {
        text_put(out, "; now it is ");
        put_value(out, r->now, d, head->units);
        if (frame_limit_is_past(r)) text_put(out, r->short_now || r->found.state == LIMIT_ALREADY ? ", and short" : ", past the limit");
    }
    if (*r->weakest.tube != '\0') {
        text_put(out, ". Tube ");
        put_name(out, r->weakest.tube);
        text_put(out, " gives way first, in run ");
        put_name(out, r->weakest.run);
    }
    text_format(out, ". The margin asked for is at least %.4g %%.", 100 * asked->margin);
}

static void put_bar(text *out, const page_head *head, const frame_limit_row *r, const frame_limit_asked *asked)
{
    const dimension d = asked->column->dimension;
    const double now = shown(r->now, d, head->units), limit = shown(r->found.limit, d, head->units), y = 21;
    double low = INFINITY, high = -INFINITY;
    text axis = {0};
    page_stretch(now, &low, &high);
    page_stretch(limit, &low, &high);
    page_stretch(shown(asked->from, d, head->units), &low, &high);
    page_stretch(shown(asked->to, d, head->units), &low, &high);
    if (!(high > low)) return;
    const chart c = {.out = out, .left = 20, .top = 8, .width = FIGURE_WIDTH - 40, .height = 26, .x_low = low, .x_high = high, .y_high = 1};
    page_begin_chart(out, "Now and limit", 86, "Present value and limit");
    page_column_name(&axis, asked->column, head->units);
    chart_axis_x(&c, page_said(&axis));
    if (isfinite(now) && isfinite(limit) && !isnan(r->room)) chart_bar(&c, now, limit, y, 8, frame_limit_is_past(r) ? "fill-red" : "fill-blue");
    if (r->found.state != LIMIT_NEVER && isfinite(limit))
        text_format(out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"mark\"/>\n", chart_x(&c, limit), y - 9,
                    chart_x(&c, limit), y + 9);
    if (isfinite(now)) text_format(out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"5\" class=\"ring\"/>\n", chart_x(&c, now), y);
    text words = {0};
    if (isfinite(now)) text_format(&words, "now %.6g, ", now);
    text_format(&words, "limit %.6g %s", limit, unit_name(d, head->units));
    chart_stop_box(out, (chart_box){c.left, c.top, c.width, c.height}, page_said(&words), true);
    text_free_part(&words, out);
    page_end_figure(out, "Ring: the present value; upright mark: the limit. The bar between them is the room that is left, or by how much the "
                         "limit is passed. Without a mark the frame holds to the end of the range.");
    text_free_part(&axis, out);
}

void page_frame_limit(text *out, const page_head *head, const frame_limit_row *r, const frame_limit_asked *asked)
{
    text said = {0};
    say_limit(&said, head, r, asked);
    page_frame_sentence(out, !frame_limit_is_past(r), &said);
    put_bar(out, head, r, asked);
    page_table(out, asked->list, r, 1, head->units, "Limit");
    text_free_part(&said, out);
}
