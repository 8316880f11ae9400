#include "report/page/orientation_page.h"

#include "report/chart/polar.h"
#include "report/chart/stops.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <railbow/member.h>

#include <math.h>
#include <stdlib.h>

static const double degree = 3.14159265358979323846 / 180;

/* A clock once round: 0 ... 360 degrees. */
static double once_round(double clock)
{
    const double rest = fmod(clock, 360 * degree);
    return rest < 0 ? rest + 360 * degree : rest;
}

/* ---- names beside the clock --------------------------------------------------------------------------- */

typedef struct named_clock { /* a clock that is named */
    const char *name, *style; /* style: of its point */
    double clock, margin;
} named_clock;

enum { CLOCKS_NAMED = 3, NAME_HEIGHT = 44 };

static void put_name(const chart_polar *p, const named_clock *h, double y)
{
    const double side = sin(h->clock) >= 0 ? 1 : -1;
    const char *anchor = side > 0 ? "start" : "end";
    double x, at;
    text words = {0};
    chart_polar_place(p, h->clock, 100 * h->margin, &x, &at);
    const double elbow = p->x + side * (p->radius + 28);
    text_format(p->out, "<path d=\"M%.2f %.2fL%.2f %.2f\" class=\"leader\"/>\n", x, at, elbow, y);
    chart_words(p->out, elbow + 3 * side, y + 2, anchor, "bold", h->name);
    text_format(&words, "%.1f°", h->clock / degree);
    chart_words(p->out, elbow + 3 * side, y + 16, anchor, "", page_said(&words));
    text_clear(&words);
    put_percent(&words, h->margin);
    chart_words(p->out, elbow + 3 * side, y + 30, anchor, h->margin < 0 ? "red bold" : "", page_said(&words));
    text_free_part(&words, p->out);
}

/* Each on its side of the clock, from the top down. */
static void put_names(const chart_polar *p, const named_clock named[], size_t count)
{
    for (int side = 0; side < 2; side++) {
        const named_clock *here[CLOCKS_NAMED];
        double y[CLOCKS_NAMED];
        size_t n = 0;
        for (size_t i = 0; i < count; i++) {
            if ((sin(named[i].clock) >= 0) != (side == 0)) continue;
            size_t k = n++;
            for (; k > 0 && cos(here[k - 1]->clock) < cos(named[i].clock); k--) here[k] = here[k - 1];
            here[k] = &named[i];
        }
        for (size_t i = 0; i < n; i++) y[i] = p->y - p->radius * cos(here[i]->clock);
        chart_spread(y, n, NAME_HEIGHT, p->y - p->radius, p->y + p->radius - 24);
        for (size_t i = 0; i < n; i++) put_name(p, here[i], y[i]);
    }
    for (size_t i = 0; i < count; i++) chart_polar_point(p, named[i].clock, 100 * named[i].margin, named[i].style);
}

/* ---- margin round the clock ----------------------------------------------------------------------------- */

/* Per cent: the middle is a round place under the least margin and under 0, so that the ring of margin 0 is a ring. */
static void scale(chart_polar *p, double least, double most)
{
    const double low = 100 * fmin(least, 0), high = 100 * fmin(fmax(most, 0), 3);
    const double step = chart_ticks_in(0, fmax(high - low, 10), 4).step;
    p->low = step * floor(low / step);
    if (!(p->low < low)) p->low -= step;
    p->high = fmax(step, step * ceil(high / step));
}

/* What rounding leaves is no difference: both are then at the smallest clock. */
static bool is_level(const orientation_row *r)
{
    return !(r->found.best_margin > r->found.worst_margin) || !(fabs(r->found.best_clock - r->found.worst_clock) > 0);
}

static void caption(text *out, const orientation_row *r, double p_high)
{
    text words = {0};
    if (r->is_part) text_format(&words, "Of this part the lowest margin of its %zu cases: a tube has one clock. ", r->cases);
    if (is_level(r))
        text_put(&words, "The clock of the bow does not matter here.");
    else if (r->found.worst_margin >= 0)
        text_put(&words, "It holds whichever way the bow points.");
    else if (r->found.best_margin >= 0)
        text_put(&words, "Some ways it holds, some ways it is short: mark the tube before it is fitted.");
    else
        text_put(&words, "It is short whichever way the bow points.");
    if (100 * r->found.best_margin > p_high) text_put(&words, " What lies above the scale stands at the rim.");
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
}

/* Strokes across the disc of what is short. */
static void hatch_short(const chart_polar *p)
{
    const double radius = p->radius * (0 - p->low) / (p->high - p->low), slant = sqrt(0.5);
    enum { GAP = 5 };
    text_put(p->out, "<path d=\"");
    for (double away = -floor(radius / GAP) * GAP; away < radius; away += GAP) {
        const double half = sqrt(radius * radius - away * away), x = p->x + slant * away, y = p->y + slant * away;
        text_format(p->out, "M%.1f %.1fL%.1f %.1f", x - slant * half, y + slant * half, x + slant * half, y - slant * half);
    }
    text_put(p->out, "\" class=\"hatch\"/>\n");
}

/* Every 15 degrees; the Tab key reaches every 90. */
static void put_stops(const chart_polar *p, const orientation_row *r)
{
    enum { EVERY = ORIENTATION_CLOCKS / 24 };
    for (size_t i = 0; i < ORIENTATION_CLOCKS; i += EVERY) {
        const double clock = 360 * degree * (double)i / ORIENTATION_CLOCKS;
        text words = {0};
        if (isnan(r->round[i])) continue;
        text_format(&words, "bow at %.0f°: margin ", clock / degree);
        put_percent(&words, r->round[i]);
        chart_polar_stop(p, clock, 100 * r->round[i], page_said(&words), i % (ORIENTATION_CLOCKS / 4) == 0);
        text_free_part(&words, p->out);
    }
}

/* like: the scale of all clocks of the page. */
static void put_figure(text *out, const orientation_row *r, const chart_polar *like)
{
    chart_polar p = *like;
    double percent[ORIENTATION_CLOCKS];
    p.out = out;
    for (size_t i = 0; i < ORIENTATION_CLOCKS; i++) percent[i] = 100 * r->round[i];
    page_begin_chart(out, r->is_part ? r->part : r->name, 200, "Margin round the clock of the bow");
    hatch_short(&p);
    chart_polar_axes(&p);
    chart_polar_ring(&p, 0, "limit");
    chart_polar_line(&p, percent, ORIENTATION_CLOCKS, "strong");
    const double now = r->marked_clock > RBOW_ANY_CLOCK ? once_round(r->marked_clock) : (double)NAN; /* not known: not drawn */
    const bool is_best = fabs(now - r->found.best_clock) < 0.05 * degree, is_worst = fabs(now - r->found.worst_clock) < 0.05 * degree;
    const char *bad = r->found.worst_margin < 0 ? "dot-red" : "dot-ink"; /* red is for what is short alone */
    const named_clock named[CLOCKS_NAMED] = {{is_best ? "now, best" : "best", r->found.best_margin < 0 ? "dot-red" : "dot", r->found.best_clock, r->found.best_margin},
                               {is_worst ? "now, worst" : "worst", bad, r->found.worst_clock, r->found.worst_margin},
                               {"now", "ring", now, r->found.margin_as_marked}};
    if (!is_level(r))
        put_names(&p, named, is_best || is_worst || isnan(now) ? 2 : 3);
    else if (!isnan(now))
        put_names(&p, &named[2], 1);
    put_stops(&p, r);
    caption(out, r, p.high);
}

static bool is_drawn(const orientation_row *r)
{
    return r->bow > 0 && (!r->is_part || r->cases > 1);
}

/* The lowest margin as marked first. Returned: NULL where memory ran out; to be freed */
static const orientation_row **worst_first(const orientation_row *rows, size_t count)
{
    const orientation_row **order = malloc((count + 1) * sizeof *order);
    for (size_t i = 0; i < count && order != NULL; i++) {
        size_t k = i;
        for (; k > 0 && order[k - 1]->found.margin_as_marked > rows[i].found.margin_as_marked; k--) order[k] = order[k - 1];
        order[k] = &rows[i];
    }
    return order;
}

static void put_figures(text *out, const orientation_row *rows, size_t count, const chart_polar *like)
{
    const orientation_row **order = worst_first(rows, count);
    if (order == NULL) out->failed = true;
    for (size_t i = 0; i < count && order != NULL; i++)
        if (is_drawn(order[i])) put_figure(out, order[i], like);
    free(order);
}

/* ---- the page ------------------------------------------------------------------------------------------- */

/* Given: the cases. Returned: whether every case holds. */
static bool say_verdict(text *out, const orientation_row *rows, size_t count)
{
    size_t fallen = 0, mended = 0;
    for (size_t i = 0; i < count; i++) {
        fallen += !(rows[i].found.margin_as_marked >= 0);
        mended += !(rows[i].found.margin_as_marked >= 0) && rows[i].found.best_margin >= 0;
    }
    if (fallen == 0)
        text_format(out, count == 1 ? "The case holds with the bow as marked." : "All %zu cases hold with the bow as marked.", count);
    else
        text_format(out, "%zu of %zu cases %s short with the bow as marked; turning the bow mends ", fallen, count,
                    fallen == 1 ? "is" : "are");
    if (fallen == 1)
        text_put(out, mended > 0 ? "it." : "nothing.");
    else if (fallen > 1 && mended == 0)
        text_put(out, "none of them.");
    else if (fallen > 1)
        text_format(out, "%zu of them.", mended);
    return fallen == 0;
}

void page_orientation(text *out, const page_head *head, const orientation_row *rows, size_t count)
{
    size_t straight = 0;
    text said = {0};
    const size_t parts = orientation_parts(rows, count), all = count - parts;
    const orientation_row *cases = &rows[parts];
    const bool fine = say_verdict(&said, cases, all);
    page_sentence(out, fine, &said);
    page_refused(out, head);
    for (size_t i = 0; i < all; i++) straight += !(cases[i].bow > 0);
    if (straight > 0)
        text_format(out, "<p class=\"soft\">%zu of %zu cases %s no bow, so there is nothing to turn: not drawn.</p>\n", straight, all,
                    straight == 1 ? "has" : "have");
    chart_polar like = {.out = out, .x = FIGURE_WIDTH / 2.0, .y = 100, .radius = 66};
    double least = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        if (!is_drawn(&rows[i])) continue;
        page_stretch(rows[i].found.worst_margin, &least, &most);
        page_stretch(rows[i].found.best_margin, &least, &most);
    }
    scale(&like, least, most);
    text_put(out, "<p class=\"soft\">Margin in per cent, by the clock to which the bow points, seen from A toward B; 0° is up. Inside the dashed ring, "
                  "hatched, the case is short. All clocks have one scale.</p>\n<div class=\"figures\">\n");
    put_figures(out, rows, parts, &like);
    put_figures(out, cases, all, &like);
    text_put(out, "</div>\n");
    page_table(out, &orientation_list, rows, count, head->units, "Turning the bow");
    text_free_part(&said, out);
}
