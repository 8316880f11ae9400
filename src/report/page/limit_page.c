#include "report/page/limit_page.h"

#include "report/chart/stops.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

enum { LINE = 26, LINES_MOST = 24 }; /* a case's height; cases of one drawing, so that it fits on a sheet */

typedef struct limits {
    const limit_row *rows;
    const limit_asked *asked;
    unit_system units;
    double low, high; /* of the axis, in the unit shown */
    bool faults;      /* some rows have no answer */
} limits;

static double as_shown(const limits *l, double own)
{
    return shown(own, l->asked->column->dimension, l->units);
}

/* How far the case with the least room may go: "Least room: ‘rail’: miss_a may go to 0.050 in (3/64). " */
static void say_tightest(text *out, const limits *l, size_t count)
{
    const limit_row *r = limit_least_room(l->rows, count);
    const bool up = l->asked->to > l->asked->from;
    if (r->found.state != LIMIT_FOUND || isnan(r->room) || isinf(r->room)) return;
    if (count > 1) text_format(out, r->room < 0 ? "Furthest past its limit: ‘%s’: " : "Least room: ‘%s’: ", r->name);
    text_format(out, up ? "%s may go to " : "%s may go down to ", l->asked->column->name);
    if (limit_is_by_tape(l->asked)) put_length(out, r->found.limit, l->units, up ? ROUND_DOWN : ROUND_UP);
    else put_quantity(out, r->found.limit, l->asked->column->dimension, l->units, up ? ROUND_DOWN : ROUND_UP);
    text_put(out, ". ");
}

static void say_verdict(text *out, const limits *l, size_t count)
{
    size_t past = 0;
    say_tightest(out, l, count);
    for (size_t i = 0; i < count; i++) past += limit_is_past(&l->rows[i]);
    if (past > 0 && count == 1)
        text_format(out, "The case is past the limit of %s", l->asked->column->name);
    else if (past > 0)
        text_format(out, "%zu of %zu cases %s past the limit of %s", past, count, past == 1 ? "is" : "are", l->asked->column->name);
    else
        text_format(out, count == 1 ? "The %scase is inside its limit of %s" : "Every %scase is inside its limit of %s",
                    l->faults ? "other " : "", l->asked->column->name);
    text_put(out, ", for a margin of at least ");
    text_format(out, "%.4g %%.", 100 * l->asked->margin);
}

static const char *state_words(const limit_row *r)
{
    if (r->short_now || r->found.state == LIMIT_ALREADY) return "✗ SHORT";
    if (limit_is_past(r)) return "✗ PAST";
    return r->before ? "before" : r->room < 0 ? "beyond" : "";
}

static void put_case(const chart *c, const limits *l, const limit_row *r, double y)
{
    const bool past = limit_is_past(r);
    const double now = as_shown(l, r->now), limit = as_shown(l, r->found.limit);
    text name = {0};
    shorten(&name, r->name, 22);
    chart_words(c->out, 0, y + 4, "start", "", page_said(&name));
    text_free_part(&name, c->out);
    if (isfinite(now) && isfinite(limit) && !isnan(r->room)) chart_bar(c, now, limit, y, 8, past ? "fill-red" : "fill-blue");
    if (r->found.state != LIMIT_NEVER && isfinite(limit))
        text_format(c->out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"mark\"/>\n", chart_x(c, limit), y - 9,
                    chart_x(c, limit), y + 9);
    if (isfinite(now)) text_format(c->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"5\" class=\"ring\"/>\n", chart_x(c, now), y);
    chart_words(c->out, c->left + c->width + 8, y + 4, "start", past ? "red bold" : "quiet", state_words(r));
}

/* A row of the drawing: now and limit, in words. */
static void put_stop(const chart *c, const limits *l, const limit_row *r, double y)
{
    const dimension d = l->asked->column->dimension;
    text words = {0};
    shorten(&words, r->name, 30);
    if (isfinite(r->now)) {
        text_put(&words, "\nnow ");
        put_value(&words, r->now, d, l->units);
    }
    text_put(&words, "\nlimit ");
    if (r->found.state == LIMIT_FOUND) put_quantity(&words, r->found.limit, d, l->units, l->asked->to > l->asked->from ? ROUND_DOWN : ROUND_UP);
    else text_put(&words, r->found.state == LIMIT_NEVER ? "not reached in the range" : "short where the range begins");
    if (*state_words(r) != '\0') text_format(&words, " (%s)", state_words(r));
    chart_stop_box(c->out, (chart_box){0, y - LINE / 2.0, FIGURE_WIDTH, LINE}, page_said(&words), true);
    text_free_part(&words, c->out);
}

static void put_chart(text *out, const limits *l, size_t first, size_t end)
{
    const double high = LINE * (double)(end - first);
    const chart c = {.out = out, .left = 156, .top = 8, .width = FIGURE_WIDTH - 156 - 74, .height = high, .x_low = l->low,
                     .x_high = l->high, .y_high = 1, .inches = l->asked->column->dimension == DIM_LENGTH && l->units == UNITS_US};
    text axis = {0};
    page_begin_chart(out, first == 0 ? "Now and limit" : "Now and limit, continued", high + 46, "Present value and limit of each case");
    page_column_name(&axis, l->asked->column, l->units);
    chart_axis_x(&c, page_said(&axis));
    for (size_t i = first; i < end; i++) put_case(&c, l, &l->rows[i], c.top + LINE * ((double)(i - first) + 0.5));
    for (size_t i = first; i < end; i++) put_stop(&c, l, &l->rows[i], c.top + LINE * ((double)(i - first) + 0.5));
    page_end_figure(out, "Ring: the present value; upright mark: the limit. The bar between them is the room that is left, or, with "
                         "PAST, by how much the limit is passed. Without a mark the case holds to the end of the range. Where the present "
                         "value lies before the range, nothing between was looked at; SHORT there has no bar.");
    text_free_part(&axis, out);
}

void page_limit(text *out, const page_head *head, const limit_row *rows, size_t count, const limit_asked *asked,
                const field_list *list)
{
    limits l = {rows, asked, head->units, INFINITY, -INFINITY, head->faults};
    text said = {0};
    bool fine = true;
    for (size_t i = 0; i < count; i++) {
        page_stretch(as_shown(&l, rows[i].found.limit), &l.low, &l.high);
        page_stretch(as_shown(&l, rows[i].now), &l.low, &l.high);
        fine = fine && !limit_is_past(&rows[i]);
    }
    page_stretch(0, &l.low, &l.high);
    say_verdict(&said, &l, count);
    page_sentence(out, fine, &said);
    page_refused(out, head);
    for (size_t first = 0; l.high > l.low && first < count; first += LINES_MOST)
        put_chart(out, &l, first, count - first < LINES_MOST ? count : first + LINES_MOST);
    page_table(out, list, rows, count, head->units, "Limits: ‘never’ is a case that holds to the end of the range, ‘already’ one that "
                                                    "is short at its start");
    text_free_part(&said, out);
}
