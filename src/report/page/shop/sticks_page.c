#include "report/page/shop/sticks_page.h"

#include "report/caution.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/shop/shop_words.h"
#include "report/values.h"

#include <math.h>

enum { BAR_STEP = 46, BAR_HEIGHT = 20, FIRST_BAR = 30 }; /* units of the drawing; a bar stands under its words */

static size_t pieces_of_stick(const stick_row *rows, size_t count)
{
    size_t n = 1;
    while (n < count && rows[n].position > 1) n++;
    return n;
}

static size_t rows_of_size(const stick_row *rows, size_t count)
{
    size_t n = 1;
    while (n < count && rows[n].size == rows[0].size) n++;
    return n;
}

/* ---- a stick -------------------------------------------------------------------------------------------------------------------------- */

/* The name of a piece where the bar is long enough for it, else its number. */
static void put_piece(const chart *c, const stick_row *r, double middle, unit_system units)
{
    const double from = shown(r->cut_from, DIM_LENGTH, units), to = shown(r->cut_to, DIM_LENGTH, units);
    const double room = chart_x(c, to) - chart_x(c, from) - 6;
    text words = {0};
    chart_bar(c, from, to, middle, BAR_HEIGHT, (int)r->position % 2 == 1 ? "fill-steel" : "fill-steel tint-6");
    text_put(&words, r->part);
    if (chart_text_width(page_said(&words)) > room) {
        text_clear(&words);
        text_format(&words, "%.0f", r->position);
    }
    if (chart_text_width(page_said(&words)) <= room)
        chart_words(c->out, (chart_x(c, from) + chart_x(c, to)) / 2, middle + 4, "middle", "", page_said(&words));
    text_free_part(&words, c->out);
}

static void put_stick(const chart *c, const stick_row *rows, size_t count, double middle, unit_system units)
{
    const stick_row *last = &rows[count - 1];
    const double end = chart_x(c, shown(rows->stick_length, DIM_LENGTH, units)), high = middle - BAR_HEIGHT / 2.0, low = high + BAR_HEIGHT;
    text words = {0};
    const double x[] = {c->left, end, end, c->left, c->left}, y[] = {high, high, low, low, high};
    for (size_t i = 0; i < count; i++) put_piece(c, &rows[i], middle, units);
    chart_path(c->out, x, y, 5, "axis");
    for (size_t i = 0; i < count; i++) { /* the cuts */
        const double at = chart_x(c, shown(rows[i].cut_to, DIM_LENGTH, units)), cut_x[] = {at, at}, cut_y[] = {high - 2, low + 2};
        if (rows[i].cut_to < rows->stick_length - 1e-9) chart_path(c->out, cut_x, cut_y, 2, "plain");
    }
    chart_words(c->out, c->left, high - 6, "start", "bold", rows->stick);
    text_put(&words, "leaves ");
    if (last->remainder > 0) put_stick_length(&words, last->remainder, units);
    else text_put(&words, "nothing");
    chart_words(c->out, c->left + c->width, high - 6, "end", "", page_said(&words));
    text_free_part(&words, c->out);
}

/* ---- a size --------------------------------------------------------------------------------------------------------------------------- */

static void put_size(text *out, const stick_row *rows, size_t count, unit_system units)
{
    double longest = 0;
    text heading = {0}, words = {0}, axis = {0};
    for (size_t i = 0; i < count; i++) longest = fmax(longest, rows[i].stick_length);
    const double high = BAR_STEP * rows->sticks;
    const chart c = {.out = out, .left = 6, .top = 8, .width = FIGURE_WIDTH - 20, .height = high, .x_high = shown(longest, DIM_LENGTH, units), .y_high = 1};
    page_value(&heading, rows->od, DIM_LENGTH, units, 5);
    text_put(&heading, " × ");
    page_value(&heading, rows->wall, DIM_LENGTH, units, 4);
    page_begin_figure(out, page_said(&heading), high + 44, "Every stick with its pieces, to scale");
    text_put(&axis, unit_name(DIM_LENGTH, units));
    chart_axis_x(&c, page_said(&axis));
    double middle = FIRST_BAR;
    for (size_t i = 0, n; i < count; i += n, middle += BAR_STEP) {
        n = pieces_of_stick(&rows[i], count - i);
        put_stick(&c, &rows[i], n, middle, units);
    }
    put_plan(&words, rows);
    text_put(&words, " To scale; strokes are cuts. A number stands where the bar is too short for the name: see the list.");
    page_end_figure(out, page_said(&words));
    text_free_part(&heading, out);
    text_free_part(&words, out);
    text_free_part(&axis, out);
}

static void say_all(text *out, const stick_row *rows, size_t count, unit_system units)
{
    double parts = 0, remainders = 0, chips = 0;
    size_t sticks = 0;
    for (size_t i = 0; i < count; i++) {
        parts += rows[i].weight;
        if (isnan(rows[i].remainder)) continue;
        sticks++;
        remainders += rows[i].remainder_weight;
        chips += rows[i].kerf_weight;
    }
    text_format(out, "%zu pieces from %zu sticks: ", count, sticks);
    page_quantity(out, parts, DIM_MASS, units);
    text_put(out, " of parts, ");
    page_quantity(out, remainders, DIM_MASS, units);
    text_put(out, " of remainders, ");
    page_quantity(out, chips, DIM_MASS, units);
    text_put(out, " of chips.");
}

/* ---- the cutting list ---------------------------------------------------------------------------------------------------------------- */

static void put_cell(text *out, const char *label, const char *words)
{
    text_format(out, "<td data-label=\"%s\" class=\"n\">", label);
    html_text(out, words);
    text_put(out, "</td>");
}

static void put_place_cell(text *out, const char *label, double value, unit_system units)
{
    text words = {0};
    put_stick_place(&words, value, units);
    if (units == UNITS_US) {
        text_put(&words, " (");
        put_inches(&words, value);
        text_char(&words, ')');
    }
    put_cell(out, label, page_said(&words));
    text_free_part(&words, out);
}

static void put_bow_cell(text *out, const char *label, double bow, const char *without, unit_system units, rounding way)
{
    text words = {0};
    if (isnan(bow)) text_put(&words, without);
    else put_bare(&words, bow, DIM_LENGTH, units, way);
    put_cell(out, label, page_said(&words));
    text_free_part(&words, out);
}

static void put_stick_head(text *out, const stick_row *first, const stick_row *last, unit_system units)
{
    text words = {0};
    text_put(&words, first->stick);
    text_put(&words, ": ");
    put_stick_length(&words, first->stick_length, units);
    text_put(&words, isnan(first->stick_bow) ? ", bow not known" : ", bow ");
    if (!isnan(first->stick_bow)) put_quantity(&words, first->stick_bow, DIM_LENGTH, units, ROUND_NEAREST);
    text_put(&words, "; leaves ");
    if (last->remainder > 0) put_stick_length(&words, last->remainder, units);
    else text_put(&words, "nothing");
    text_put(out, "<tr class=\"group\"><th colspan=\"6\" scope=\"colgroup\">");
    html_text(out, page_said(&words));
    text_put(out, "</th></tr>\n");
    text_free_part(&words, out);
}

static void put_row(text *out, const stick_row *r, unit_system units)
{
    text_format(out, "<tr><th scope=\"row\">%.0f. ", r->position);
    html_text(out, r->part);
    text_put(out, "</th>");
    put_place_cell(out, "from", r->cut_from, units);
    put_place_cell(out, "to", r->cut_to, units);
    put_bow_cell(out, "bow", r->bow, "not known", units, ROUND_UP);
    put_bow_cell(out, "at most", r->bow_most, "any", units, ROUND_DOWN);
    text words = {0};
    page_quantity(&words, r->weight, DIM_MASS, units);
    text_format(out, "<td data-label=\"weight\" class=\"n\">%s</td></tr>\n", page_said(&words));
    text_free_part(&words, out);
}

static void put_list(text *out, const stick_row *rows, size_t count, double kerf, unit_system units)
{
    text caption_words = {0};
    text_format(&caption_words, "The cutting list, lengths in %s. Each cut takes ", units == UNITS_US ? "inches" : unit_name(DIM_LENGTH, units));
    put_value(&caption_words, kerf, DIM_LENGTH, units);
    text_put(&caption_words, "; a piece begins behind the cut of the one before it. The bow is that of an arc.");
    text_put(out, "<table class=\"stack list\">");
    html_element(out, "caption", NULL, page_said(&caption_words));
    text_put(out, "\n<thead><tr><th scope=\"col\">piece</th><th scope=\"col\" class=\"n\">from</th><th scope=\"col\" class=\"n\">to</th>"
                  "<th scope=\"col\" class=\"n\">bow</th><th scope=\"col\" class=\"n\">at most</th><th scope=\"col\" class=\"n\">weight</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0, n; i < count; i += n) {
        n = pieces_of_stick(&rows[i], count - i);
        put_stick_head(out, &rows[i], &rows[i + n - 1], units);
        for (size_t k = 0; k < n; k++) put_row(out, &rows[i + k], units);
    }
    text_put(out, "</tbody></table>\n");
    text_free_part(&caption_words, out);
}

/* ---- the page -------------------------------------------------------------------------------------------------------------------------- */

void page_sticks(text *out, const page_head *head, const stick_row *rows, size_t count, double kerf)
{
    text said = {0};
    say_all(&said, rows, count, head->units);
    page_finding(out, head->refused > 0 || head->faults, &said);
    html_element(out, "p", "about", caution);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0, n; i < count; i += n) {
        n = rows_of_size(&rows[i], count - i);
        put_size(out, &rows[i], n, head->units);
    }
    text_put(out, "</div>\n");
    put_list(out, rows, count, kerf, head->units);
    text_free_part(&said, out);
}
