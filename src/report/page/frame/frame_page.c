#include "cases/frame_results.h"
#include "report/page/frame/frame_page.h"

#include "cases/case_words.h"
#include "report/advice_words.h"
#include "report/caution.h"
#include "report/chart/stops.h"
#include "report/html.h"
#include "report/page/frame/frame_findings.h"
#include "report/page/frame/frame_views.h"
#include "report/page/parts.h"
#include "report/page/pin.h"
#include "report/values.h"

#include <math.h>

/* ---- the verdict -------------------------------------------------------------------------------------------- */

static void put_reached(text *out, const frame_tube_answer *r)
{
    const double factor = frame_deciding_factor(r);
    if (isinf(factor)) {
        text_put(out, "no run load could make it yield or buckle");
        return;
    }
    text_put(out, "it yields or buckles at ");
    put_factor(out, factor);
    text_put(out, " times the run load, where ");
    put_required(out, frame_asked_factor(r));
    text_put(out, " is required");
}

static void put_verdict(text *out, const page_head *head, const frame_answers *a)
{
    const frame_tube_answer *worst = frame_worst(a);
    const char *picked = a->judged < a->model->tube_count ? "picked " : "", *runs = head->faults ? "the other runs" : "every run";
    size_t holds = 0;
    for (size_t i = 0; i < a->judged; i++) holds += frame_tube_holds(a, i);
    text_format(out, "<p class=\"verdict %s\">", holds == a->judged ? "holds" : "short");
    if (holds == a->judged && a->judged == 1) text_format(out, "The %stube holds in %s. ", picked, runs);
    else if (holds == a->judged) text_format(out, "All %zu %stubes hold in %s. ", a->judged, picked, runs);
    else text_format(out, "%zu of %zu %stubes %s short. ", a->judged - holds, a->judged, picked, a->judged - holds == 1 ? "is" : "are");
    text_put(out, "Worst: ‘<a href=\"#tube-1\">");
    html_text(out, worst->given.name);
    text_put(out, "</a>’ in run ‘");
    html_text(out, worst->run);
    text_put(out, "’: ");
    put_reached(out, worst);
    text_put(out, ".</p>\n");
}

static void put_what_to_do(text *out, const frame_advice *a, unit_system units)
{
    text words = {0};
    if (a == NULL || (a->tube == NULL && !a->lost)) return;
    put_frame_advice(&words, a, units);
    html_element(out, "p", "advice", page_said(&words));
    text_char(out, '\n');
    text_free_part(&words, out);
}

static void put_refused_runs(text *out, const frame_answers *a)
{
    for (size_t run = 0; run < a->run_count; run++) {
        if (a->runs[run].solved) continue;
        text_put(out, "<p><strong>Run ‘");
        html_text(out, a->runs[run].name);
        text_put(out, "’ could not be checked and is not on this page:</strong> the messages of the run say why.</p>\n");
    }
}

static void put_propped(text *out, const frame_answers *a)
{
    for (size_t i = 0; i < a->judged; i++) {
        const frame_tube_answer *r = frame_worst_run(a, i);
        if (!frame_holds_by_fit(r)) continue;
        text_put(out, "<p><strong>Careful: ‘");
        html_text(out, r->given.name);
        text_put(out, "’ would hold only by what is locked in</strong> (margin as built ");
        put_percent(out, r->result.margin_as_built);
        text_put(out, "). That can relax, so it does not count as help.</p>\n");
    }
}

/* ---- tables ------------------------------------------------------------------------------------------------- */

static void begin_cell(text *out, const char *style, const char *label)
{
    text_format(out, "<td class=\"%s\" data-label=\"%s\">", style, label);
}

static void put_text_cell(text *out, const char *label, const char *words)
{
    begin_cell(out, "", label);
    html_text(out, words);
    text_put(out, "</td>");
}

static void put_percent_cell(text *out, const char *label, double share)
{
    begin_cell(out, "n", label);
    put_percent(out, share);
    text_put(out, "</td>");
}

static void put_factor_cell(text *out, const char *label, double factor)
{
    begin_cell(out, "n", label);
    put_factor(out, factor);
    text_put(out, "</td>");
}

static void put_value_cell(text *out, const char *label, double own, dimension d, unit_system units)
{
    text_format(out, "<td class=\"n\" data-label=\"%s, %s\">", label, unit_name(d, units));
    put_bare(out, own, d, units, ROUND_NEAREST);
    text_put(out, "</td>");
}

static void put_verdict_cell(text *out, int verdict)
{
    text_format(out, "<td class=\"word %s\">%s</td>", verdict == RBOW_HOLDS ? "holds" : "short", verdict == RBOW_HOLDS ? "✓ holds" : "✗ SHORT");
}

static void put_name(text *out, const char *name)
{
    text_put(out, "<tr><th scope=\"row\">");
    html_text(out, name);
    text_put(out, "</th>");
}

static void put_run(text *out, const frame_run_answer *r, unit_system units)
{
    put_name(out, r->name);
    put_verdict_cell(out, r->result.verdict);
    put_percent_cell(out, "Margin", r->result.margin);
    put_text_cell(out, "Worst tube", r->worst_tube);
    put_text_cell(out, "Governs:", r->governs);
    put_factor_cell(out, "Critical factor", r->result.critical_factor);
    put_factor_cell(out, "Path ends", r->result.path_end);
    put_value_cell(out, "Moves", r->result.move, DIM_LENGTH, units);
    put_text_cell(out, "Joint", r->move_joint);
    text_put(out, "</tr>\n");
}

static void put_runs(text *out, const frame_answers *a, unit_system units)
{
    const char *length = unit_name(DIM_LENGTH, units);
    text_format(out, "<h2>Runs</h2>\n<table class=\"stack list frame\"><caption>Critical factor: the straight frame buckles at this many times the run "
                     "load. Path ends: the frame as built does. Moves: largest movement of a joint.</caption>\n<thead><tr>"
                     "<th scope=\"col\">Run</th><th scope=\"col\">Verdict</th><th scope=\"col\" class=\"n\">Margin</th>"
                     "<th scope=\"col\">Worst tube</th><th scope=\"col\">What governs</th><th scope=\"col\" class=\"n\">Critical factor</th>"
                     "<th scope=\"col\" class=\"n\">Path ends</th><th scope=\"col\" class=\"n\">Moves, %s</th><th scope=\"col\">Joint</th>"
                     "</tr></thead>\n<tbody>\n", length);
    for (size_t run = 0; run < a->run_count; run++)
        if (a->runs[run].solved) put_run(out, &a->runs[run], units);
    text_put(out, "</tbody></table>\n");
}

static void put_tube(text *out, const frame_tube_answer *r, unit_system units)
{
    put_name(out, r->given.name);
    put_verdict_cell(out, r->result.verdict);
    put_percent_cell(out, "Margin", r->result.margin);
    put_text_cell(out, "In run", r->run);
    put_text_cell(out, "Governs:", r->governs);
    put_factor_cell(out, "Load factor", frame_deciding_factor(r));
    put_value_cell(out, "Push", r->result.axial, DIM_FORCE, units);
    put_value_cell(out, "Locked in", r->result.fit_stress, DIM_STRESS, units);
    text_format(out, "<td data-label=\"Size, %s\">", unit_name(DIM_LENGTH, units));
    text_format(out, units == UNITS_SI ? "%.5g × %.3g" : "%.5g × %.4g", shown(r->given.tube.od, DIM_LENGTH, units),
                shown(r->given.tube.wall, DIM_LENGTH, units));
    text_put(out, "</td></tr>\n");
}

static void put_tubes(text *out, const frame_answers *a, const frame_order *order, unit_system units)
{
    text_format(out, "<h2>Tubes</h2>\n<table class=\"stack list frame\"><caption>Each tube in its worst run, the smallest margin first. Push: axial force "
                     "under the run load, a pull below 0. Locked in: stress before any run load.</caption>\n<thead><tr>"
                     "<th scope=\"col\">Tube</th><th scope=\"col\">Verdict</th><th scope=\"col\" class=\"n\">Margin</th>"
                     "<th scope=\"col\">In run</th><th scope=\"col\">What governs</th><th scope=\"col\" class=\"n\">Load factor</th>"
                     "<th scope=\"col\" class=\"n\">Push, %s</th><th scope=\"col\" class=\"n\">Locked in, %s</th><th scope=\"col\">Size, %s</th>"
                     "</tr></thead>\n<tbody>\n", unit_name(DIM_FORCE, units), unit_name(DIM_STRESS, units), unit_name(DIM_LENGTH, units));
    for (size_t i = 0; i < order->count; i++) put_tube(out, frame_worst_run(a, order->tubes[i]), units);
    text_put(out, "</tbody></table>\n");
}

/* ---- cards -------------------------------------------------------------------------------------------------- */

enum { RIGHT_ROOM = 76 };

double frame_largest_moment(const frame_card *cards, size_t count)
{
    double most = 0;
    for (size_t k = 0; k < count; k++)
        for (int i = 0; i < FRAME_MOMENT_STATIONS; i++) {
            if (cards[k].moments.locked[i] > most) most = cards[k].moments.locked[i];
            if (cards[k].moments.loaded[i] > most) most = cards[k].moments.loaded[i];
        }
    return most;
}

/* Where the tube is governed, on the line of the moment as loaded; on the axis where there is none. */
static void put_pin(const chart *c, const frame_card *card, const double x[], const double loaded[], unit_system units)
{
    const double governs_at = card->answer->result.governs_at, at = shown(governs_at, DIM_LENGTH, units);
    if (isnan(governs_at)) return;
    int i = 1;
    while (i + 1 < FRAME_MOMENT_STATIONS && x[i] < at) i++;
    const double share = (at - x[i - 1]) / (x[i] - x[i - 1]), moment = (1 - share) * loaded[i - 1] + share * loaded[i];
    const double y = chart_y(c, isfinite(moment) ? moment : 0);
    page_pin(c->out, chart_x(c, at), y, y < c->top + c->height / 2 ? 1 : -1); /* the head inside the plot */
}

/* The ends and the largest moments; many: every fourth station, too. */
static void put_moment_stops(const chart *c, const double x[], const double locked[], const double loaded[], bool many, unit_system units)
{
    chart_strip strips[FRAME_MOMENT_STATIONS];
    size_t n = 0, of_locked = 0, of_loaded = 0;
    for (size_t i = 1; i < FRAME_MOMENT_STATIONS; i++) {
        if (locked[i] > locked[of_locked]) of_locked = i;
        if (loaded[i] > loaded[of_loaded]) of_loaded = i;
    }
    const bool forced = locked[of_locked] > 0, in_balance = isfinite(loaded[of_loaded]);
    for (size_t i = 0; i < FRAME_MOMENT_STATIONS; i++) {
        const bool tab = i == 0 || i + 1 == FRAME_MOMENT_STATIONS || (forced && i == of_locked) || (in_balance && i == of_loaded);
        if (!tab && !(many && i % 4 == 0)) continue;
        strips[n] = (chart_strip){.x = x[i], .y = in_balance ? loaded[i] : locked[i], .tab = tab};
        text *words = &strips[n++].words;
        text_format(words, "%.4g %s from A, %s", x[i], unit_name(DIM_LENGTH, units), unit_name(DIM_MOMENT, units));
        if (forced) text_format(words, "\nlocked in: %.4g%s", locked[i], i == of_locked ? ", largest" : "");
        if (in_balance) text_format(words, "\nas loaded: %.4g%s", loaded[i], i == of_loaded ? ", largest" : "");
    }
    chart_strips(c, NULL, strips, n);
    for (size_t i = 0; i < n; i++) text_free_part(&strips[i].words, c->out);
}

static void put_moments(text *out, const frame_card *card, double largest, bool many, unit_system units)
{
    double x[FRAME_MOMENT_STATIONS], locked[FRAME_MOMENT_STATIONS], loaded[FRAME_MOMENT_STATIONS];
    const double most = shown(largest, DIM_MOMENT, units);
    for (int i = 0; i < FRAME_MOMENT_STATIONS; i++) {
        x[i] = shown(card->moments.at[i], DIM_LENGTH, units);
        locked[i] = shown(card->moments.locked[i], DIM_MOMENT, units);
        loaded[i] = shown(card->moments.loaded[i], DIM_MOMENT, units);
    }
    const int last = FRAME_MOMENT_STATIONS - 1;
    const chart c = {.out = out, .left = 52, .top = 22, .width = FIGURE_WIDTH - 52 - RIGHT_ROOM, .height = 120, .x_high = x[last],
                     .y_high = chart_round_up(most > 0 ? 1.04 * most : 1, 5)};
    chart_label labels[2];
    size_t count = 0;
    text axis = {0};
    chart_open_stops(out, FIGURE_WIDTH, 180, "Bending moment along the tube");
    text_format(&axis, "moment, %s", unit_name(DIM_MOMENT, units));
    chart_axis_y(&c, page_said(&axis));
    text_clear(&axis);
    text_format(&axis, "from A, %s", unit_name(DIM_LENGTH, units));
    chart_axis_x(&c, page_said(&axis));
    text_free_part(&axis, out);
    if (card->answer->result.fit_moment > 0) {
        chart_line(&c, x, locked, FRAME_MOMENT_STATIONS, "dotted");
        labels[count++] = (chart_label){locked[last], "locked in", ""};
    }
    if (isfinite(loaded[last])) {
        chart_line(&c, x, loaded, FRAME_MOMENT_STATIONS, "strong");
        labels[count++] = (chart_label){loaded[last], "as loaded", "blue"};
    }
    chart_labels(&c, labels, count);
    put_pin(&c, card, x, loaded, units);
    put_moment_stops(&c, x, locked, loaded, many, units);
    chart_close(out);
}

void frame_page_card(text *out, const frame_card *card, size_t number, double largest, bool many, unit_system units)
{
    const frame_tube_answer *r = card->answer;
    text heading = {0};
    text_format(&heading, "%zu: %s, run ‘%s’: ", number, r->given.name, r->run);
    put_percent(&heading, r->result.margin);
    text_format(out, "<figure id=\"tube-%zu\">", number);
    html_element(out, "h3", NULL, page_said(&heading));
    text_free_part(&heading, out);
    put_moments(out, card, largest, many, units);
    text_put(out, "<figcaption>A is ‘");
    html_text(out, r->given.from);
    text_put(out, "’, B is ‘");
    html_text(out, r->given.to);
    text_format(out, isnan(r->result.governs_at) ? "’. Governs: %s" : "’. Governs (pin): %s", r->governs);
    if (r->result.governs_at <= 0 || r->result.governs_at >= r->result.length) {
        text_put(out, r->result.governs_at <= 0 ? ", at A" : ", at B");
    } else if (!isnan(r->result.governs_at)) {
        text_put(out, ", ");
        page_quantity(out, r->result.governs_at, DIM_LENGTH, units);
        text_put(out, " from A");
    }
    if (!isnan(r->result.peak_moment)) {
        text_put(out, ". Largest moment ");
        page_quantity(out, r->result.peak_moment, DIM_MOMENT, units);
    }
    if (isnan(r->result.axial)) {
        text_put(out, ". Under the run load there is no balance");
    } else {
        text_put(out, r->result.axial < 0 ? ". Pull " : ". Push ");
        page_quantity(out, fabs(r->result.axial), DIM_FORCE, units);
    }
    text_put(out, ", column load ");
    page_quantity(out, r->result.column_load, DIM_FORCE, units);
    if (*r->remarks != '\0') {
        text_put(out, ". Remarks: ");
        html_text(out, r->remarks);
    }
    text_put(out, ".</figcaption></figure>\n");
}

static void put_arch(text *out, const frame_answers *a, unit_system units)
{
    if (a->arch == NULL) return;
    text_put(out, "<h2>Where to weld each joint, so that run ‘");
    html_text(out, a->arch_run);
    text_put(out, "’ brings it to its drawn place</h2>\n");
    page_table(out, &frame_arch_list, a->arch, a->model->joint_count, units,
               "weld_x to weld_z: the place on the unloaded frame. rise_x to rise_z: how far that is from the drawn place.");
}

void frame_page(text *out, const page_head *head, const frame_answers *a, const frame_picture *p)
{
    frame_order order;
    if (!frame_order_of(&order, a)) out->failed = true;
    put_verdict(out, head, a);
    put_what_to_do(out, a->advice, head->units);
    put_refused_runs(out, a);
    put_propped(out, a);
    frame_findings(out, a, head->units);
    html_element(out, "p", "about", frame_assumptions);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
    frame_views(out, a, p, head->units);
    put_runs(out, a, head->units);
    text_put(out, "<h2>The smallest margins: bending moment along the tube</h2>\n<div class=\"figures\">\n");
    const double largest = frame_largest_moment(p->cards, p->card_count);
    for (size_t i = 0; i < p->card_count; i++) frame_page_card(out, &p->cards[i], i + 1, largest, false, head->units);
    text_put(out, "</div>\n");
    put_tubes(out, a, &order, head->units);
    put_arch(out, a, head->units);
    frame_order_free(&order);
}
