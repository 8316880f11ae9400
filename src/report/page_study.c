#include "report/page_study.h"

#include "report/chart.h"
#include "report/grid.h"
#include "report/html.h"
#include "report/list_text.h"

#include <math.h>
#include <string.h>

enum { WIDE = 420 };

/* ---- shared ----------------------------------------------------------------------------------------- */

/* A column's name in words, so that a table can break it. */
static void put_words(text *out, const char *name)
{
    for (; *name != '\0'; name++) text_char(out, *name == '_' ? ' ' : *name);
}

static void put_head(text *out, const field *f, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    text_format(out, "<th scope=\"col\"%s>", f->kind == FIELD_NUMBER ? " class=\"n\"" : "");
    put_words(out, f->name);
    if (u != NULL) {
        text_put(out, ", ");
        html_unit(out, u->name);
    }
    text_put(out, "</th>");
}

static void put_cell(text *out, const field *f, const void *record, unit_system units, bool first)
{
    const unit *u = unit_shown(f->dimension, units);
    const char *word = field_text(f, record), *name = first ? "th" : "td";
    text_format(out, "<%s%s", name, first ? " scope=\"row\"" : " data-label=\"");
    if (!first) put_words(out, f->name);
    text_put(out, first ? ">" : f->kind == FIELD_NUMBER ? "\" class=\"n\">" : "\">");
    if (word != NULL)
        html_text(out, word);
    else
        put_number(out, u != NULL ? unit_from_own(u, field_get(f, record)) : field_get(f, record), 5);
    text_format(out, "</%s>", name);
}

void page_table(text *out, const field_list *list, const void *records, size_t count, unit_system units,
                const char *caption_words)
{
    text_put(out, "<table class=\"stack list\">");
    html_element(out, "caption", NULL, caption_words);
    text_put(out, "\n<thead><tr>");
    for (size_t i = 0; i < list->count; i++) put_head(out, &list->fields[i], units);
    text_put(out, "</tr></thead>\n<tbody>\n");
    for (size_t k = 0; k < count; k++) {
        text_put(out, "<tr>");
        for (size_t i = 0; i < list->count; i++)
            put_cell(out, &list->fields[i], (const char *)records + k * list->record_size, units, i == 0);
        text_put(out, "</tr>\n");
    }
    text_put(out, "</tbody></table>\n");
}

static double shown(const field *f, double own, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    return u != NULL ? unit_from_own(u, own) : own;
}

static void put_column_name(text *out, const field *f, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    text_format(out, "%s%s%s", f->name, u != NULL ? ", " : "", u != NULL ? u->name : "");
}

static void verdict(text *out, bool fine, const text *sentence)
{
    text_format(out, "<p class=\"verdict %s\">", fine ? "holds" : "short");
    html_text(out, sentence->at != NULL ? sentence->at : "");
    text_put(out, "</p>\n");
}

static void begin(text *out, const char *name, double high, const char *title)
{
    text_put(out, "<figure class=\"study\">");
    html_element(out, "h2", NULL, name);
    chart_open(out, WIDE, high, title, "");
}

static void finish(text *out, const char *words)
{
    chart_close(out);
    html_element(out, "figcaption", NULL, words);
    text_put(out, "</figure>\n");
}

static void stretch(double value, double *low, double *high)
{
    if (!isfinite(value)) return;
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

/* Margins in per cent, from a round place at or under the least (and 0) to one at or over the most; what is far above
 * what matters is cut off. */
static void margin_range(chart *c, double low, double high)
{
    const double top = fmin(fmax(high, 0), 3), span = fmax(top - fmin(low, 0), 0.1);
    const double step = chart_ticks_in(0, 100 * span, 6).step;
    c->y_low = step * floor(100 * fmin(low, 0) / step);
    c->y_high = fmax(step, step * ceil(100 * top / step));
}

/* ---- compare ---------------------------------------------------------------------------------------- */

typedef struct tube_sum { /* one tube over all cases */
    double weight, margin, od, wall;
    bool possible;
} tube_sum;

static tube_sum sum_of(const compare_row *rows, size_t count, size_t tube)
{
    tube_sum s = {.margin = INFINITY, .od = rows[tube].od, .wall = rows[tube].wall, .possible = true};
    for (size_t i = tube; i < count; i += rows[tube].tubes) {
        s.possible = s.possible && rows[i].outcome != COMPARE_NOT_POSSIBLE;
        s.weight += rows[i].weight;
        s.margin = fmin(s.margin, rows[i].margin);
    }
    return s;
}

static void compare_point(const chart *c, const tube_sum *s, bool picked, unit_system units)
{
    text words = {0};
    const double weight = unit_from_own(unit_shown(DIM_MASS, units), s->weight);
    text_format(&words, "%.4g", unit_from_own(unit_shown(DIM_LENGTH, units), s->wall));
    chart_point(c, weight, fmin(100 * s->margin, c->y_high), picked ? "dot" : "ring");
    chart_words(c->out, chart_x(c, weight), chart_y(c, fmin(100 * s->margin, c->y_high)) - 8, "middle", picked ? "blue bold" : "",
                words.at);
    text_free(&words);
}

void page_compare(text *out, const page_head *head, const compare_row *rows, size_t count)
{
    const size_t tubes = rows[0].tubes;
    double low = 0, high = 0, light = INFINITY, heavy = 0;
    size_t pick = tubes;
    text said = {0}, axis = {0};
    for (size_t t = 0; t < tubes; t++) {
        const tube_sum s = sum_of(rows, count, t);
        if (!s.possible) continue;
        stretch(s.margin, &low, &high);
        stretch(unit_from_own(unit_shown(DIM_MASS, head->units), s.weight), &light, &heavy);
        if (s.margin >= 0 && (pick == tubes || s.weight < sum_of(rows, count, pick).weight)) pick = t;
    }
    if (pick < tubes) {
        text_put(&said, "The lightest tube that holds in every case has a wall of ");
        page_value(&said, sum_of(rows, count, pick).wall, DIM_LENGTH, head->units, 4);
        text_put(&said, "; its worst margin is ");
        put_percent(&said, sum_of(rows, count, pick).margin);
        text_char(&said, '.');
    } else {
        text_put(&said, "No tube that was tried holds in every case.");
    }
    verdict(out, pick < tubes, &said);
    page_refused(out, head);
    if (heavy > 0) {
        chart c = {.out = out, .left = 44, .top = 26, .width = WIDE - 64, .height = 220, .x_low = 0.95 * light, .x_high = 1.05 * heavy};
        margin_range(&c, low, high);
        begin(out, "Worst margin over weight", 290, "Worst margin of each tube over the weight of all cases");
        chart_axis_y(&c, "worst margin of all cases, %");
        text_format(&axis, "weight of all cases, %s; numbers at points: wall, %s", unit_shown(DIM_MASS, head->units)->name,
                    unit_shown(DIM_LENGTH, head->units)->name);
        chart_axis_x(&c, axis.at);
        chart_line(&c, (const double[]){c.x_low, c.x_high}, (const double[]){0, 0}, 2, "limit");
        for (size_t t = 0; t < tubes; t++) {
            const tube_sum s = sum_of(rows, count, t);
            if (s.possible) compare_point(&c, &s, t == pick, head->units);
        }
        finish(out, "Each point is one tube in all cases. On or above the dashed line it holds in every one; filled: the "
                    "lightest that does. A margin above the chart stands at its upper border.");
    }
    page_table(out, &compare_list, rows, count, head->units, "Every case with every tube");
    text_free(&said);
    text_free(&axis);
}

/* ---- sweep ------------------------------------------------------------------------------------------ */

enum { SWEEP_POINTS_MOST = 2000, SWEEP_LINES_MOST = CHART_LABELS_MOST };

/* The rows that make one line: neighbours of one case (and one value of the second column, every `step`-th). */
static size_t put_sweep_line(const chart *c, const sweep_row *rows, size_t first, size_t end, size_t step, const field *f,
                             unit_system units, const char *style)
{
    double x[SWEEP_POINTS_MOST], y[SWEEP_POINTS_MOST];
    size_t n = 0;
    for (size_t i = first; i < end && n < SWEEP_POINTS_MOST; i += step, n++) {
        x[n] = shown(f, rows[i].value[0], units);
        y[n] = isinf(rows[i].margin) ? 2 * fabs(c->y_high) : 100 * rows[i].margin;
    }
    chart_line(c, x, y, n, style);
    return n;
}

/* The end of the run of rows of one case. A name may repeat; the first value coming round again tells. */
static size_t end_of_case(const sweep_row *rows, size_t first, size_t count, size_t columns)
{
    size_t i = first + 1;
    for (; i < count && strcmp(rows[i].name, rows[first].name) == 0; i++) {
        const bool begins = !(fabs(rows[i].value[0] - rows[first].value[0]) > 0);
        if (begins && (columns < 2 || !(fabs(rows[i].value[1] - rows[first].value[1]) > 0))) break;
    }
    return i;
}

/* How many values of the second column follow each other. */
static size_t seconds_of(const sweep_row *rows, size_t first, size_t end, size_t columns)
{
    size_t n = 1;
    if (columns < 2) return 1;
    while (first + n < end && !(fabs(rows[first + n].value[0] - rows[first].value[0]) > 0)) n++;
    return n;
}

static void sweep_figure(text *out, const page_head *head, const sweep_row *rows, size_t first, size_t end, size_t columns,
                         const field *const varied[], const char *name)
{
    double low = 0, high = 0, from = INFINITY, to = -INFINITY;
    for (size_t i = first; i < end; i++) {
        stretch(rows[i].margin, &low, &high);
        stretch(shown(varied[0], rows[i].value[0], head->units), &from, &to);
    }
    if (!(to > from)) return;
    text axis = {0}, words[SWEEP_LINES_MOST] = {{0}};
    chart_label labels[SWEEP_LINES_MOST];
    chart c = {.out = out, .left = 44, .top = 26, .width = WIDE - 44 - 130, .height = 220, .x_low = from, .x_high = to};
    margin_range(&c, low, high);
    begin(out, name, 290, "Margin over the varied column");
    put_column_name(&axis, varied[0], head->units);
    chart_axis_y(&c, "margin, %");
    chart_axis_x(&c, axis.at);
    chart_line(&c, (const double[]){from, to}, (const double[]){0, 0}, 2, "limit");
    size_t lines = 0;
    for (size_t i = first, stop; i < end; i = stop) {
        stop = end_of_case(rows, i, end, columns);
        const size_t seconds = seconds_of(rows, i, stop, columns);
        for (size_t s = 0; s < seconds; s++) {
            const size_t n = put_sweep_line(&c, rows, i + s, stop, seconds, varied[0], head->units, lines % 2 == 0 ? "strong" : "plain");
            if (n == 0 || lines == SWEEP_LINES_MOST) continue;
            if (columns < 2)
                shorten(&words[lines], rows[i].name, 20);
            else
                text_format(&words[lines], "%s %.4g", varied[1]->name, shown(varied[1], rows[i + s].value[1], head->units));
            labels[lines] = (chart_label){100 * rows[i + s + (n - 1) * seconds].margin, words[lines].at, lines % 2 == 0 ? "blue" : ""};
            lines++;
        }
    }
    chart_labels(&c, labels, lines);
    finish(out, "Under the dashed line it is short. Each line is named at its right end.");
    for (size_t i = 0; i < lines; i++) text_free(&words[i]);
    text_free(&axis);
}

void page_sweep(text *out, const page_head *head, const sweep_row *rows, size_t count, const field *const varied[],
                size_t columns, const field_list *list)
{
    size_t holds = 0;
    text said = {0};
    for (size_t i = 0; i < count; i++) holds += rows[i].verdict == VERDICT_HOLDS;
    text_format(&said, holds == count ? "All %zu combinations hold." : "%zu of %zu combinations are short.",
                holds == count ? count : count - holds, count);
    verdict(out, holds == count, &said);
    page_refused(out, head);
    if (columns < 2)
        sweep_figure(out, head, rows, 0, count, columns, varied, "Margin");
    else
        for (size_t i = 0, end; i < count; i = end) {
            end = end_of_case(rows, i, count, columns);
            sweep_figure(out, head, rows, i, end, columns, varied, rows[i].name);
        }
    page_table(out, list, rows, count, head->units, "Every combination");
    text_free(&said);
}

/* ---- limit ------------------------------------------------------------------------------------------ */

void page_limit(text *out, const page_head *head, const limit_row *rows, size_t count, const field *column, const field_list *list)
{
    double low = INFINITY, high = -INFINITY;
    size_t past = 0;
    text said = {0}, axis = {0};
    for (size_t i = 0; i < count; i++) {
        stretch(shown(column, rows[i].limit, head->units), &low, &high);
        stretch(shown(column, rows[i].now, head->units), &low, &high);
        past += rows[i].state == LIMIT_ROW_ALREADY || (rows[i].state == LIMIT_ROW_FOUND && rows[i].room < 0);
    }
    text_format(&said, past == 0 ? "None of %zu cases is past its limit of " : "%zu of %zu cases are past their limit of ",
                past == 0 ? count : past, count);
    text_format(&said, "%s.", column->name);
    verdict(out, past == 0, &said);
    page_refused(out, head);
    if (high > low) {
        const double rise = 26 * (double)count;
        const chart c = {.out = out, .left = 150, .top = 8, .width = WIDE - 170, .height = rise, .x_low = fmin(low, 0), .x_high = high, .y_high = 1};
        begin(out, "Now and limit", rise + 46, "Present value and limit of each case");
        put_column_name(&axis, column, head->units);
        chart_axis_x(&c, axis.at);
        for (size_t i = 0; i < count; i++) {
            const double y = 8 + 26 * ((double)i + 0.5), now = shown(column, rows[i].now, head->units), limit = shown(column, rows[i].limit, head->units);
            text name = {0};
            shorten(&name, rows[i].name, 22);
            chart_words(out, 0, y + 4, "start", "", name.at != NULL ? name.at : "");
            chart_bar(&c, now, limit, y, 8, rows[i].room < 0 ? "fill-red" : "fill-blue");
            text_format(out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"5\" class=\"ring\"/>\n", chart_x(&c, now), y);
            if (rows[i].state != LIMIT_ROW_NEVER)
                text_format(out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"mark\"/>\n", chart_x(&c, limit),
                            y - 9, chart_x(&c, limit), y + 9);
            text_free(&name);
        }
        finish(out, "Ring: the present value; upright mark: the limit; the bar between them is the room that is left, or by how "
                    "much it is past. Without a mark: it holds to the end of the range.");
    }
    page_table(out, list, rows, count, head->units, "Limits");
    text_free(&said);
    text_free(&axis);
}

/* ---- scatter ---------------------------------------------------------------------------------------- */

static void scatter_figure(text *out, const scatter_row *r)
{
    double most = 0;
    for (size_t i = 0; i < SCATTER_BARS; i++) most = fmax(most, r->bars[i]);
    if (!(most > 0 && r->high > r->low)) return;
    const double wide = 100 * (r->high - r->low) / SCATTER_BARS, low = 100 * r->low;
    const chart c = {.out = out, .left = 10, .top = 24, .width = WIDE - 30, .height = 150, .x_low = fmin(low, 0), .x_high = fmax(100 * r->high, 0), .y_high = 1.05 * most};
    begin(out, r->name, 220, "Distribution of the margin");
    chart_axis_x(&c, "margin, %");
    for (size_t i = 0; i < SCATTER_BARS; i++) {
        const double from = low + wide * (double)i, tall = c.height * r->bars[i] / c.y_high;
        if (r->bars[i] > 0)
            chart_bar(&c, from, from + 0.92 * wide, c.top + c.height - tall / 2, tall, from + wide / 2 < 0 ? "fill-red" : "fill-blue");
    }
    chart_upright(&c, 0, "mark");
    if (isfinite(r->nominal)) {
        chart_upright(&c, 100 * r->nominal, "dashed");
        chart_words(out, chart_x(&c, fmin(fmax(100 * r->nominal, c.x_low), c.x_high)), 16, "middle", "", "as given");
    }
    text said = {0};
    text_format(&said, "%.2f %% of the samples are short (left of the upright mark). The median margin is ", 100 * r->short_share);
    put_percent(&said, r->margin_p50);
    text_put(&said, ", one in twenty is under ");
    put_percent(&said, r->margin_p05);
    text_format(&said, ". What drives it most: %s.", r->driver);
    finish(out, said.at);
    text_free(&said);
}

void page_scatter(text *out, const page_head *head, const scatter_row *rows, size_t count, const field_list *list)
{
    const scatter_row *worst = rows;
    for (size_t i = 1; i < count; i++)
        if (rows[i].short_share > worst->short_share) worst = &rows[i];
    text said = {0};
    text_format(&said, worst->short_share > 0 ? "Up to %.2f %% of the samples are short, in ‘%s’." : "No sample of any case is short.",
                100 * worst->short_share, worst->name);
    verdict(out, !(worst->short_share > 0), &said);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < count; i++)
        if (rows[i].rank == 0) scatter_figure(out, &rows[i]);
    text_put(out, "</div>\n");
    page_table(out, list, rows, count, head->units, "Scatter of each case");
    text_free(&said);
}

/* ---- index ------------------------------------------------------------------------------------------ */

static void clock_mark(text *out, double clock, double radius, const char *style, const char *words)
{
    const double x = 130 + radius * sin(clock), y = 120 - radius * cos(clock);
    if (isnan(clock)) return;
    text_format(out, "<line x1=\"130\" y1=\"120\" x2=\"%.2f\" y2=\"%.2f\" class=\"%s\"/>\n", x, y, style);
    chart_words(out, x + 10 * sin(clock), y - 10 * cos(clock) + 4, sin(clock) > 0.3 ? "start" : sin(clock) < -0.3 ? "end" : "middle", "", words);
}

static void index_figure(text *out, const index_row *r)
{
    text best = {0}, worst = {0};
    text_put(&best, "best ");
    put_percent(&best, r->best_margin);
    text_put(&worst, "worst ");
    put_percent(&worst, r->worst_margin);
    begin(out, r->name, 250, "Clock of the bow: best, worst and as marked");
    text_put(out, "<circle cx=\"130\" cy=\"120\" r=\"70\" class=\"ring\"/>\n");
    clock_mark(out, r->worst_clock, 80, "limit", worst.at);
    clock_mark(out, r->best_clock, 92, "strong", best.at);
    clock_mark(out, r->marked_clock, 70, "plain", "");
    text said = {0};
    text_put(&said, "Seen from A toward B, up is up. Thick: the bow turned this way gives the largest margin; dashed: the smallest; thin: as "
                    "marked now, ");
    put_percent(&said, r->margin_as_marked);
    text_char(&said, '.');
    finish(out, said.at);
    text_free(&said);
    text_free(&best);
    text_free(&worst);
}

void page_index(text *out, const page_head *head, const index_row *rows, size_t count)
{
    size_t fallen = 0;
    text said = {0};
    for (size_t i = 0; i < count; i++) fallen += !(rows[i].margin_as_marked >= 0);
    text_format(&said, fallen == 0 ? "All %zu cases hold with the bow as marked." : "%zu of %zu cases are short with the bow as marked.",
                fallen == 0 ? count : fallen, count);
    verdict(out, fallen == 0, &said);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < count; i++)
        if (rows[i].bow > 0) index_figure(out, &rows[i]);
    text_put(out, "</div>\n");
    page_table(out, &index_list, rows, count, head->units, "Turning the bow");
    text_free(&said);
}
