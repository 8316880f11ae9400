#include "report/page/scatter_page.h"

#include "cases/field_lines.h"
#include "report/chart/stops.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

/* ---- distribution --------------------------------------------------------------------------------------- */

static void put_as_given(const chart *c, double nominal)
{
    if (!(nominal >= c->x_low && nominal <= c->x_high)) return;
    const double x = chart_x(c, nominal);
    chart_upright(c, nominal, "dashed");
    chart_words(c->out, fmin(fmax(x, c->left + 32), c->left + c->width - 32), c->top - 6, "middle", "", "as given");
}

static void put_short(const chart *c, const scatter_row *r)
{
    text words = {0};
    chart_upright(c, 0, "mark");
    if (!(r->margins.short_share > 0)) return;
    text_format(&words, r->margins.short_share < 0.0001 ? "short: under 0.01 %%" : "short: %.2f %%", 100 * r->margins.short_share);
    const double mark = chart_x(c, 0);
    const bool fits = mark - c->left >= chart_text_width(page_said(&words)); /* left of the mark */
    chart_words(c->out, fits ? mark : c->left, c->top - 21, fits ? "end" : "start", "red bold", page_said(&words));
    text_free_part(&words, c->out);
}

/* The Tab key reaches the outermost bars, the tallest, and the two beside 0. */
static bool is_notable(const scatter_row *r, size_t bar)
{
    const double width = (r->high - r->low) / SCATTER_BARS, from = r->low + width * (double)bar;
    size_t first = SCATTER_BARS, last = 0, tallest = 0;
    for (size_t i = 0; i < SCATTER_BARS; i++) {
        if (!(r->bars[i] > 0)) continue;
        if (i < first) first = i;
        last = i;
        if (r->bars[i] > r->bars[tallest]) tallest = i;
    }
    return bar == first || bar == last || bar == tallest || fabs(from) < width / 2 || fabs(from + width) < width / 2;
}

/* Over the whole height, so that a low bar is met, too. */
static void put_bar_stops(const chart *c, const scatter_row *r, double all)
{
    const double width = 100 * (r->high - r->low) / SCATTER_BARS;
    for (size_t i = 0; i < SCATTER_BARS; i++) {
        const double from = 100 * r->low + width * (double)i;
        text words = {0};
        if (!(r->bars[i] > 0)) continue;
        text_format(&words, "margin %.1f to %.1f %%\n%.1f %% of the samples", from, from + width, 100 * r->bars[i] / all);
        chart_stop_box(c->out, (chart_box){chart_x(c, from), c->top, chart_x(c, from + width) - chart_x(c, from), c->height}, page_said(&words), is_notable(r, i));
        text_free_part(&words, c->out);
    }
}

/* No bar lies across 0, so the short part is whole bars. */
static void put_distribution(text *out, const scatter_row *r, double least, double most_margin)
{
    double most = 0, all = 0;
    for (size_t i = 0; i < SCATTER_BARS; i++) {
        most = fmax(most, r->bars[i]);
        all += r->bars[i];
    }
    const double width = 100 * (r->high - r->low) / SCATTER_BARS, low = 100 * r->low, gap = 0.04 * width;
    const chart c = {.out = out, .left = 22, .top = 36, .width = FIGURE_WIDTH - 44, .height = 140, .x_low = 100 * fmin(least, 0),
                     .x_high = 100 * fmax(most_margin, 0), .y_high = 1.05 * most};
    chart_axis_x(&c, "margin, %");
    for (size_t i = 0; i < SCATTER_BARS; i++) {
        const double from = low + width * (double)i, tall = c.height * r->bars[i] / c.y_high;
        if (!(r->bars[i] > 0)) continue;
        chart_bar(&c, from + gap, from + width - gap, c.top + c.height - tall / 2, tall, from + width / 2 < 0 ? "fill-red" : "fill-blue");
    }
    put_as_given(&c, 100 * r->nominal);
    put_short(&c, r);
    put_bar_stops(&c, r, all);
}

/* ---- drivers -------------------------------------------------------------------------------------------- */

enum { DRIVER_HEIGHT = 19, DRIVERS_TOP = 238, DRIVER_NAME = 22 /* characters */ };

static void put_drivers(text *out, const scatter_row *r)
{
    const chart c = {.out = out, .left = 130, .top = DRIVERS_TOP, .width = FIGURE_WIDTH - 130 - 64, .height = 1, .x_high = 1, .y_high = 1};
    chart_words(out, 0, DRIVERS_TOP - 6, "start", "name", "share of the spread");
    for (size_t i = 0; i < r->drivers; i++) {
        const double middle = DRIVERS_TOP + DRIVER_HEIGHT * ((double)i + 0.5), share = fmax(r->driver_shares[i], 0);
        text words = {0}, name = {0};
        text_format(&words, "%.1f %%", 100 * share);
        shorten(&name, r->driver_names[i], DRIVER_NAME);
        chart_words(out, 0, middle + 4, "start", "", page_said(&name));
        text_free_part(&name, out);
        chart_bar(&c, 0, 1, middle, 11, "wash");
        chart_bar(&c, 0, share, middle, 11, "fill-steel");
        chart_words(out, c.left + c.width + 8, middle + 4, "start", "", page_said(&words));
        text_free_part(&words, out);
    }
}

/* ---- a case --------------------------------------------------------------------------------------------- */

static void put_odd_ones(text *out, const scatter_row *r)
{
    if (r->margins.refused > 0) text_format(out, " Outside the model and not judged: %.0f.", r->margins.refused);
    if (r->margins.infinite > 0) text_format(out, " Without any limit, so they hold, and not drawn: %.0f.", r->margins.infinite);
    if (r->margins.unstable > 0) text_format(out, " Unstable as loaded: %.0f.", r->margins.unstable);
}

static void say_case(text *out, const scatter_row *r)
{
    if (isnan(r->margins.short_share)) {
        text_put(out, "No sample lies inside the model.");
    } else if (r->margins.short_share > 0) {
        text_format(out, "%.2f %% of %.0f samples are short; with 95 %% certainty %.2f to %.2f %%.",
                    100 * r->margins.short_share, r->margins.samples - r->margins.refused, 100 * r->margins.short_low, 100 * r->margins.short_high);
    } else {
        text_format(out, "None of %.0f samples is short; with 95 %% certainty under %.2f %%.", r->margins.samples - r->margins.refused, 100 * r->margins.short_high);
    }
    if (!isnan(r->margins.p50)) {
        text_put(out, " Half lie under ");
        put_percent(out, r->margins.p50);
        text_put(out, ", one in twenty under ");
        put_percent(out, r->margins.p05);
        text_char(out, '.');
    }
    put_odd_ones(out, r);
    if (r->drivers == 0 && !isnan(r->margins.p50)) text_put(out, " Nothing that varies moves the margin.");
}

void page_scatter_figure(text *out, const scatter_row *r, double least, double most)
{
    text said = {0};
    const bool spread = r->high > r->low, drivers = r->drivers > 0;
    say_case(&said, r);
    if (spread) {
        page_begin_chart(out, r->name, drivers ? DRIVERS_TOP + DRIVER_HEIGHT * (double)r->drivers + 4 : 212,
                          "Distribution of the margin, and what drives it");
        put_distribution(out, r, least, most);
        if (drivers) put_drivers(out, r);
        page_end_figure(out, page_said(&said));
    } else {
        page_words_figure(out, r->name, page_said(&said));
    }
    text_free_part(&said, out);
}

/* "about 1 in 3", "about 7 in 10". Given: a share between 0 and 1 */
static void put_odds(text *out, double share)
{
    if (share <= 0.5) text_format(out, "about 1 in %.0f", 1 / share);
    else if (share < 0.95) text_format(out, "about %.0f in 10", 10 * share);
    else text_put(out, "nearly all");
}

static void say_share(text *out, const scatter_row *r)
{
    text_format(out, "‘%s’ falls short in %.2f %% of its samples, ", r->name, 100 * r->margins.short_share);
    put_odds(out, r->margins.short_share);
    text_char(out, '.');
}

/* Of the cases of which some samples are short and some are not, the one with the most short. */
static void say_next(text *out, const scatter_row *rows, size_t count)
{
    const scatter_row *next = NULL;
    for (size_t i = 0; i < count; i++)
        if (rows[i].margins.short_share > 0 && rows[i].margins.short_share < 1 && (next == NULL || rows[i].margins.short_share > next->margins.short_share))
            next = &rows[i];
    if (next == NULL) return;
    text_char(out, ' ');
    say_share(out, next);
}

/* Returned: whether no sample of any case is short. */
static bool say_verdict(text *out, const scatter_row *rows, size_t count)
{
    const scatter_row *worst = rows;
    for (size_t i = 1; i < count; i++)
        if (rows[i].margins.short_share > worst->margins.short_share || isnan(worst->margins.short_share)) worst = &rows[i];
    if (isnan(worst->margins.short_share))
        text_put(out, "No sample of any case lies inside the model.");
    else if (worst->margins.short_share >= 1)
        text_format(out, "Every sample of ‘%s’ is short.", worst->name);
    else if (worst->margins.short_share > 0)
        say_share(out, worst);
    else
        text_put(out, "No sample of any case is short.");
    size_t cases = 0, some_short = 0;
    for (size_t i = 0; i < count; i++) {
        cases += rows[i].rank == 0;
        some_short += rows[i].rank == 0 && rows[i].margins.short_share > 0;
    }
    if (worst->margins.short_share >= 1) say_next(out, rows, count);
    if (some_short > 1) text_format(out, " %zu of %zu cases have short samples.", some_short, cases);
    return worst->margins.short_share <= 0;
}

/* What a page has room for, under heads that need no manual; CSV has the rest. */
static const field fields[] = {
    TEXT(scatter_row, "case", name, ""),
    NUMBER(scatter_row, "samples", margins.samples, DIM_NONE, ""),
    NUMBER(scatter_row, "outside the model", margins.refused, DIM_NONE, ""),
    NUMBER(scatter_row, "share short", margins.short_share, DIM_NONE, ""),
    NUMBER(scatter_row, "spread of margin", margins.sd, DIM_NONE, ""),
    NUMBER(scatter_row, "margin, 1 in 100 lower", margins.p01, DIM_NONE, ""),
    NUMBER(scatter_row, "margin, 1 in 20 lower", margins.p05, DIM_NONE, ""),
    NUMBER(scatter_row, "margin, half lower", margins.p50, DIM_NONE, ""),
    TEXT(scatter_row, "spread comes from", driver, ""),
    NUMBER(scatter_row, "its share of the spread", driver_share, DIM_NONE, ""),
};
static const field_list shown_list = FIELD_LIST("scatter", fields, scatter_row);

void page_scatter(text *out, const page_head *head, const scatter_row *rows, size_t count)
{
    text said = {0};
    const bool fine = say_verdict(&said, rows, count);
    page_sentence(out, fine, &said);
    page_refused(out, head);
    double least = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        if (rows[i].rank != 0) continue;
        page_stretch(rows[i].low, &least, &most);
        page_stretch(rows[i].high, &least, &most);
    }
    text_put(out, "<p class=\"soft\">Each chart: how the margin of the samples is spread, all on one scale; what lies left of the mark at 0 is "
                  "short.</p>\n<div class=\"figures\">\n");
    for (size_t i = 0; i < count; i++)
        if (rows[i].rank == 0) page_scatter_figure(out, &rows[i], least, most);
    text_put(out, "</div>\n");
    page_table(out, &shown_list, rows, count, head->units, "Scatter of each case. Spread of margin: its standard deviation");
    text_free_part(&said, out);
}
