#include "report/page/card.h"

#include "cases/detail/detail_sentences.h"
#include "cases/remark_list.h"
#include "report/html.h"
#include "report/page/case_charts.h"
#include "report/page/clock_drawing.h"
#include "report/page/parts.h"
#include "report/page/rail_drawing.h"
#include "report/page/section_drawing.h"
#include "report/page/working_table.h"
#include "report/values.h"

#include <math.h>

static void put_remarks(text *out, const check_row *r)
{
    const bool squeezed = isnan(r->result.fit_stress);
    if (r->result.remarks == 0 && !squeezed) return;
    text_put(out, "<h3>What to look at</h3>\n<ul>\n");
    for (size_t i = 0; i < RBOW_REMARK_COUNT; i++)
        if ((r->result.remarks & remark_list[i].bit) != 0) {
            html_element(out, "li", NULL, remark_list[i].sentence);
            text_char(out, '\n');
        }
    if (squeezed)
        html_element(out, "li", NULL, "The locked-in squeeze alone is at or above the critical load: the tube bows out where it "
                                      "stands. Cut it loose and shorten it.");
    text_put(out, "</ul>\n");
}

/* What happens at the limit. */
static void put_what(text *out, const check_row *r)
{
    if (!r->detail.governs) {
        text_put(out, "it yields or buckles");
        return;
    }
    text_format(out, "its %s ‘", rbow_detail_kind_name(r->detail.kind));
    html_text(out, r->governs);
    text_format(out, "’ reaches its limit (%s)", detail_limit_words[r->detail.mode]);
}

static void put_margin(text *out, const check_row *r)
{
    const double reached = deciding_factor(r);
    if (isinf(reached)) {
        text_put(out, "no run load could make it yield or buckle.");
    } else if (!(reached > 0)) {
        put_what(out, r);
        text_put(out, " with no run load at all.");
    } else {
        put_what(out, r);
        text_put(out, " at ");
        put_factor(out, reached);
        text_put(out, " times the run load; ");
        put_required(out, asked_factor(r));
        text_put(out, " is required: margin ");
        put_percent(out, r->result.margin);
        text_char(out, '.');
    }
}

static void put_governs(text *out, const check_row *r, unit_system units)
{
    static const char *const words[] = {
        [RBOW_BY_COLUMN] = "What governs is the column: the tube as a whole bows out",
        [RBOW_BY_YIELD] = "What governs is yield of the outer fibre",
        [RBOW_BY_INTERACTION] = "What governs is the interaction of push and bending",
    };
    if (r->result.governs == RBOW_BY_NONE && !r->detail.governs) return;
    text_format(out, " %s", r->detail.governs ? "What governs is this detail" : words[r->result.governs]);
    const double at = r->result.governs_at;
    if (!isnan(at)) {
        if (at <= 0 || at >= r->given.member.length) {
            text_put(out, at <= 0 ? ", at joint A" : ", at joint B");
        } else {
            text_put(out, ", ");
            page_value(out, at, DIM_LENGTH, units, 4);
            text_put(out, " from joint A");
        }
        if (r->result.governs_in_weld_zone) text_put(out, ", in the weld zone");
    }
    text_char(out, '.');
}

static void put_fit(text *out, const check_row *r, unit_system units)
{
    const double cost = fit_cost(r);
    if (!(fabs(r->result.fit_axial) > 0 || fabs(cost) > 0)) return;
    if (isfinite(cost)) {
        text_format(out, " The forced fit %s %.1f points of margin; without it %s is ", cost < 0 ? "brings" : "costs", fabs(cost),
                    unforced_margin_words(r->detail.governs));
        put_percent(out, r->result.margin_unforced);
    } else {
        text_put(out, " Without the forced fit no run load could make it yield or buckle");
    }
    if (!isnan(r->result.fit_stress)) {
        text_put(out, "; before any load the forced tube already carries ");
        page_value(out, r->result.fit_stress, DIM_STRESS, units, 5);
    }
    text_char(out, '.');
}

static void put_loaded(text *out, const check_row *r, unit_system units)
{
    if (isnan(r->result.peak_stress)) return;
    text_put(out, " As loaded the stress reaches ");
    page_value(out, r->result.peak_stress, DIM_STRESS, units, 5);
    text_format(out, ", %.0f %% of yield there, and the tube moves by ", 100 * r->result.stress_use);
    page_value(out, r->result.deflection, DIM_LENGTH, units, 3);
    text_char(out, '.');
}

void page_card(text *out, const page_head *head, const check_row *r, size_t number, const picture *p, const working *w)
{
    const bool holds = r->result.verdict == RBOW_HOLDS;
    text_format(out, "<section class=\"card\" id=\"case-%zu\">\n", number);
    html_element(out, "h2", NULL, r->given.name);
    text_format(out, "\n<p><span class=\"word %s\">%s</span>: ", holds ? "holds" : "short", holds ? "✓ holds" : "✗ SHORT");
    put_margin(out, r);
    put_governs(out, r, head->units);
    put_fit(out, r, head->units);
    put_loaded(out, r, head->units);
    text_put(out, "</p>\n<p class=\"soft\">");
    html_text(out, r->given.material);
    text_put(out, ", ");
    page_value(out, r->given.member.length, DIM_LENGTH, head->units, 5);
    text_put(out, " joint to joint.");
    if (*r->given.note != '\0') {
        text_put(out, " Note: ");
        html_text(out, r->given.note);
    }
    text_put(out, "</p>\n<div class=\"figures\">\n<div>\n");
    page_rail_drawing(out, p, r->given.member.od, head->units);
    page_clock_drawing(out, r, head->units);
    page_section_drawing(out, r, p, head->units);
    text_put(out, "</div>\n<div>\n");
    page_moment_chart(out, r, p, head->units, head->alone);
    page_factor_chart(out, r);
    page_column_chart(out, r, p, head->units);
    text_put(out, "</div>\n</div>\n");
    put_remarks(out, r);
    page_working(out, w, head->working);
    text_put(out, "</section>\n");
}
