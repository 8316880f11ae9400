#include "report/page/front.h"

#include "report/advice_words.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>
#include <railbow/detail.h>

/* What happens at the limit. */
static void put_what(text *out, const check_row *r)
{
    if (!r->detail.governs) {
        text_put(out, "yields or buckles");
        return;
    }
    text_format(out, "reaches the limit of its %s ‘", rbow_detail_kind_name(r->detail.kind));
    html_text(out, r->governs);
    text_put(out, "’");
}

static void put_reached(text *out, const check_row *r)
{
    const double reached = deciding_factor(r);
    if (isinf(reached)) {
        text_put(out, "no run load could make yield or buckle");
        return;
    }
    if (!(reached > 0)) {
        put_what(out, r);
        text_put(out, " with no run load at all");
        return;
    }
    put_what(out, r);
    text_put(out, " at ");
    put_factor(out, reached);
    text_put(out, " times the run load, where ");
    put_required(out, asked_factor(r));
    text_put(out, " is required");
}

static void put_sentence(text *out, const check_row *rows, size_t count, size_t holds, bool faults)
{
    const check_row *worst = check_worst(rows, count);
    const size_t fallen = count - holds;
    if (count == 1)
        text_format(out, "The %scase %s: ‘", faults ? "other " : "", fallen > 0 ? "is short" : "holds");
    else if (fallen == 0)
        text_format(out, faults ? "The %zu other cases hold; the least margin has ‘" : "All %zu cases hold; the least margin has ‘", count);
    else
        text_format(out, "%zu of %s%zu %scases %s short; the worst is ‘", fallen, faults ? "the " : "", count, faults ? "other " : "",
                    fallen == 1 ? "is" : "are");
    text_format(out, "<a href=\"#case-%zu\">", (size_t)(worst - rows) + 1);
    html_text(out, worst->given.name);
    text_put(out, count == 1 ? "</a>’ " : "</a>’, which ");
    put_reached(out, worst);
    text_char(out, '.');
}

static void put_what_to_do(text *out, const advice *a, size_t fallen, unit_system units)
{
    text words = {0};
    put_advice(&words, a, fallen - 1, units);
    html_element(out, "p", "advice", page_said(&words));
    text_char(out, '\n');
    text_free_part(&words, out);
}

/* What the text names above its table, too: a case of which nothing was asked, and one that only its forced fit would hold. */
static void put_warnings(text *out, const check_row *rows, size_t count)
{
    size_t idle = 0;
    for (size_t i = 0; i < count; i++) idle += !rows[i].result.runs;
    if (idle > 0)
        text_format(out, "<p><strong>%zu of the cases %s no run load at all:</strong> nothing was asked of the tube.</p>\n", idle,
                    idle == 1 ? "has" : "have");
    for (size_t i = 0; i < count; i++) {
        if (!holds_by_fit(&rows[i])) continue;
        text_put(out, "<p><strong>Careful: ‘");
        html_text(out, rows[i].given.name);
        text_put(out, "’ would hold only by its forced fit</strong> (margin as built ");
        put_percent(out, rows[i].result.margin_as_built);
        text_put(out, "). What is locked in can relax, so it does not count as help.</p>\n");
    }
}

/* ---- the table of cases ----------------------------------------------------------------------------- */

/* One whose margin is beyond the ends has a pointed end there. */
static void put_margin_bar(text *out, const check_row *r)
{
    const bool holds = r->result.verdict == RBOW_HOLDS, beyond = !(fabs(r->result.margin) <= 1);
    const double share = fmin(1, fmax(-1, isfinite(r->result.margin) ? r->result.margin : 1)), middle = 60, length = 50;
    const double from = share < 0 ? middle + length * share : middle;
    text_put(out, "<svg viewBox=\"0 0 120 12\" role=\"img\"><title>margin ");
    put_percent(out, r->result.margin);
    text_put(out, beyond ? ", beyond the end of the bar</title>" : "</title>");
    text_format(out, "<rect x=\"10\" y=\"2\" width=\"100\" height=\"8\" class=\"wash\"/><rect x=\"%.2f\" y=\"2\" width=\"%.2f\" height=\"8\" "
                     "class=\"%s\"/>", from, length * fabs(share), holds ? "fill-blue" : "fill-red");
    if (beyond)
        text_format(out, "<path d=\"M%d 0l%d 6l%d 6Z\" class=\"%s\"/>", share > 0 ? 111 : 9, share > 0 ? 8 : -8, share > 0 ? -8 : 8,
                    holds ? "fill-blue" : "fill-red");
    text_put(out, "<line x1=\"60\" y1=\"0\" x2=\"60\" y2=\"12\" class=\"plain\"/></svg>");
}

static void put_cell(text *out, const char *style, const char *label, const text *cell)
{
    text_format(out, "<td class=\"%s\" data-label=\"%s\">", style, label);
    if (cell->at != NULL) html_text(out, cell->at);
    text_put(out, "</td>");
}

static void put_cost(text *cell, const check_row *r)
{
    const double cost = fit_cost(r);
    if (!(fabs(r->result.fit_axial) > 0 || fabs(cost) > 0))
        text_put(cell, "none");
    else if (isfinite(cost))
        text_format(cell, "%.1f points", round(10 * cost) / 10 + 0.0);
    else
        text_put(cell, "all");
}

static void put_size(text *out, const check_row *r, unit_system units)
{
    const unit *u = unit_shown(DIM_LENGTH, units);
    text_format(out, units == UNITS_SI ? "%.5g × %.3g %s" : "%.5g × %.4g %s", unit_from_own(u, r->given.member.od),
                unit_from_own(u, r->given.member.wall), u->name);
}

static void put_where(text *out, const check_row *r, unit_system units)
{
    static const char *const words[] = {"column", "yield", "interaction", "nothing"};
    if (r->detail.governs) text_format(out, "%s ‘%s’", rbow_detail_kind_name(r->detail.kind), r->governs);
    else text_put(out, words[r->result.governs]);
    if (isnan(r->result.governs_at)) return;
    text_put(out, " at ");
    if (r->result.governs_at <= 0 || r->result.governs_at >= r->given.member.length) text_put(out, r->result.governs_at <= 0 ? "A" : "B");
    else page_value(out, r->result.governs_at, DIM_LENGTH, units, 4);
    if (r->result.governs_in_weld_zone) text_put(out, ", weld zone");
}

static void put_row(text *out, const check_row *r, size_t number, bool has_sheet, unit_system units)
{
    const bool holds = r->result.verdict == RBOW_HOLDS;
    text margin = {0}, size = {0}, where = {0}, factor = {0}, cost = {0};
    put_percent(&margin, r->result.margin);
    put_size(&size, r, units);
    put_where(&where, r, units);
    put_factor(&factor, deciding_factor(r));
    text_put(&factor, " of ");
    put_required(&factor, asked_factor(r));
    put_cost(&cost, r);
    text_put(out, "<tr><th scope=\"row\">");
    if (has_sheet) text_format(out, "<a href=\"#case-%zu\">", number);
    html_text(out, r->given.name);
    text_format(out, "%s</th><td class=\"word %s\">%s</td>", has_sheet ? "</a>" : "", holds ? "holds" : "short", holds ? "✓ holds" : "✗ SHORT");
    put_cell(out, "n", "Margin", &margin);
    text_put(out, "<td class=\"bar\">");
    put_margin_bar(out, r);
    text_put(out, "</td>");
    put_cell(out, "n", "Load factor", &factor);
    put_cell(out, "", "Governs:", &where);
    put_cell(out, "n", "Fit costs", &cost);
    put_cell(out, "", "Tube", &size);
    text_put(out, "</tr>\n");
    text_free_part(&margin, out);
    text_free_part(&size, out);
    text_free_part(&where, out);
    text_free_part(&factor, out);
    text_free_part(&cost, out);
}

static void put_table(text *out, const check_row *rows, const sheets *s, unit_system units)
{
    text_put(out, "<table class=\"cases stack\"><caption>The smallest margin first. Margin: the load factor at which the tube yields or buckles "
                  "over the one required, less 1. Interaction: push and bending together. The bars run from −100 % to +100 % with 0 in the "
                  "middle; a pointed end: the margin is beyond.</caption>\n<thead><tr>"
                  "<th scope=\"col\">Case</th><th scope=\"col\">Verdict</th><th scope=\"col\" class=\"n\">Margin</th>"
                  "<th scope=\"col\">−100 … +100 %</th><th scope=\"col\" class=\"n\">Load factor, of required</th>"
                  "<th scope=\"col\">What governs</th><th scope=\"col\" class=\"n\">Forced fit costs</th>"
                  "<th scope=\"col\">Tube</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < s->cases; i++) put_row(out, &rows[s->order[i]], s->order[i] + 1, i < s->count, units);
    text_put(out, "</tbody></table>\n");
}

/* Which cases have a sheet, and what all sheets have in common. */
static void put_about_sheets(text *out, const sheets *s)
{
    if (s->count < s->cases)
        text_format(out, "<p class=\"soft\">A sheet follows for %zu of the %zu cases: the short ones, %d at most, or the tightest. With "
                         "<code>--pages all</code> each case has one.</p>\n", s->count, s->cases, (int)SHEETS_MOST);
    text_put(out, "<p class=\"soft reading\">On each sheet: the tube is drawn true along its length; its bend has a scale of its own, written "
                  "beside it. Load factors: how many times the run load each check reaches; the upright mark is what is required, and the check "
                  "with the smallest ratio of both governs. Moment: at the limit it touches what is allowed. Column curve: what the tube may carry as a straight "
                  "column, over its slenderness.</p>\n");
}

void page_front(text *out, const page_head *head, const check_row *rows, const sheets *s, const advice *a)
{
    const size_t count = s->cases;
    size_t holds = 0;
    for (size_t i = 0; i < count; i++) holds += rows[i].result.verdict == RBOW_HOLDS;
    text_format(out, "<p class=\"verdict %s\">", holds == count ? "holds" : "short");
    put_sentence(out, rows, count, holds, head->faults);
    text_put(out, "</p>\n");
    if (holds < count) put_what_to_do(out, a, count - holds, head->units);
    page_refused(out, head);
    put_warnings(out, rows, count);
    put_table(out, rows, s, head->units);
    page_caution(out);
    put_about_sheets(out, s);
}
