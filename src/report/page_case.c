#include "report/page.h"

#include "report/html.h"
#include "report/list_text.h"

#include <math.h>
#include <string.h>

/* ---- remarks ---------------------------------------------------------------------------------------- */

static const struct {
    const char *remark, *sentence;
} sentences[] = {
    {"unstable as loaded", "The push is at or above the elastic critical load: the tube buckles in the run. Take a larger or "
                           "thicker tube, or shorten the free length with a brace."},
    {"built-in state takes a set", "The forced fit alone takes the tube to yield, so it will stay bent. Cut it loose and pull the "
                                   "sockets into line before it is welded."},
    {"slender", "L'/r is above 150, beyond the usual practice for tubes that are pushed. Check the bow with care, or brace the "
                "tube at its middle."},
    {"short tube", "The tube is under ten diameters long: shear, which is left out here, bends it noticeably. Take its "
                   "deflection as too small, and ask for more margin."},
    {"thin wall", "The wall can buckle locally, so a reduced compression yield was used. Keep dents away from it, or take the "
                  "next wall."},
    {"stiff ends", "The joints are taken as stiffer than the usual welded joint (fixity above 2). Make sure that they are, or "
                   "check the case with welded ends."},
    {"no weld zone", "An end is welded or fixed but weld_zone is 0: metal that the weld has softened is not counted. Give the "
                     "length of the soft metal."},
    {"no effect: eccentricity", "The eccentricity has no effect: both joints are fixed and take its moment themselves. Check the "
                                "joints for it."},
    {"no effect: moment_a", "The moment given to A has no effect: joint A is fixed and takes it. Check the joint for it."},
    {"no effect: moment_b", "The moment given to B has no effect: joint B is fixed and takes it. Check the joint for it."},
    {"no effect: point_load", "The point load has no effect: it acts at a held joint, which takes it. Check point_at."},
    {"no effect: miss_a", "The miss at A has no effect: joint A is pinned and turns to its landing freely. If it is welded, say "
                          "so in end_a."},
    {"no effect: miss_b", "The miss at B has no effect: joint B is pinned and turns to its landing freely. If it is welded, say "
                          "so in end_b."},
    {"no effect: dressed", "The wall ground off has no effect: without a weld_zone there is nothing to dress, and the section was NOT "
                           "reduced. Give the length of the soft metal."},
};

void page_remarks(text *out, const check_row *r)
{
    const bool squeezed = isnan(r->fit_stress);
    if (*r->remarks == '\0' && !squeezed) return;
    text_put(out, "<h3>What to look at</h3>\n<ul>\n");
    for (size_t i = 0; i < sizeof sentences / sizeof *sentences; i++)
        if (has_remark(r->remarks, sentences[i].remark)) {
            html_element(out, "li", NULL, sentences[i].sentence);
            text_char(out, '\n');
        }
    if (squeezed)
        html_element(out, "li", NULL, "The locked-in squeeze alone is at or above the critical load: the tube bows out where it "
                                      "stands. Cut it loose and shorten it.");
    text_put(out, "</ul>\n");
}

/* ---- the card --------------------------------------------------------------------------------------- */

static void put_margin(text *out, const check_row *r)
{
    const double reached = page_reached(r);
    if (isinf(reached)) {
        text_put(out, "no run load brings it to a limit.");
    } else if (!(reached > 0)) {
        text_put(out, "it is at its limit with no run load at all.");
    } else {
        text_put(out, "it reaches its limit at ");
        put_factor(out, reached);
        text_put(out, " times the run load, ");
        put_factor(out, page_asked(r));
        text_put(out, " is asked: margin ");
        put_percent(out, r->margin);
        text_char(out, '.');
    }
}

static void put_governs(text *out, const check_row *r, unit_system units)
{
    static const char *const words[] = {
        [GOVERNS_COLUMN] = "What governs is the column load: the tube as a whole bows out",
        [GOVERNS_YIELD] = "What governs is yield of the outer fibre",
        [GOVERNS_INTERACTION] = "What governs is push and bending together",
    };
    if (r->governs == GOVERNS_NONE) return;
    text_format(out, " %s", words[r->governs]);
    if (!isnan(r->governs_at)) {
        text_put(out, ", ");
        page_value(out, r->governs_at, DIM_LENGTH, units, 4);
        text_put(out, " from joint A");
        if (r->governs_in_weld_zone) text_put(out, ", in the weld zone");
    }
    text_char(out, '.');
}

static void put_fit(text *out, const check_row *r, unit_system units)
{
    const double cost = 100 * (r->margin_unforced - r->margin);
    if (!(fabs(r->fit_axial) > 0 || fabs(cost) > 0)) return;
    if (isfinite(cost)) {
        text_format(out, " The forced fit %s %.1f points of margin; without it the margin is ", cost < 0 ? "brings" : "costs", fabs(cost));
        put_percent(out, r->margin_unforced);
    } else {
        text_put(out, " Without the forced fit there is no limit");
    }
    if (!isnan(r->fit_stress)) {
        text_put(out, "; it alone stresses the tube to ");
        page_value(out, r->fit_stress, DIM_STRESS, units, 5);
    }
    text_char(out, '.');
}

static void put_loaded(text *out, const check_row *r, unit_system units)
{
    if (isnan(r->peak_stress)) return;
    text_put(out, " As loaded the stress reaches ");
    page_value(out, r->peak_stress, DIM_STRESS, units, 5);
    text_format(out, ", %.0f %% of yield there, and the tube moves by ", 100 * r->stress_use);
    page_value(out, r->deflection, DIM_LENGTH, units, 3);
    text_char(out, '.');
}

void page_card(text *out, const page_head *head, const check_row *r, size_t number, const picture *p, const working *w)
{
    const bool holds = r->verdict == VERDICT_HOLDS;
    text_format(out, "<section class=\"card\" id=\"case-%zu\">\n", number);
    html_element(out, "h2", NULL, r->name);
    text_format(out, "\n<p><span class=\"word %s\">%s</span>: ", holds ? "holds" : "short", holds ? "✓ holds" : "✗ SHORT");
    put_margin(out, r);
    put_governs(out, r, head->units);
    put_fit(out, r, head->units);
    put_loaded(out, r, head->units);
    text_put(out, "</p>\n<p class=\"soft\">");
    html_text(out, r->material);
    text_put(out, ", ");
    page_value(out, r->length, DIM_LENGTH, head->units, 5);
    text_put(out, " joint to joint.");
    if (*r->note != '\0') {
        text_put(out, " Note: ");
        html_text(out, r->note);
    }
    text_put(out, "</p>\n<div class=\"figures\">\n<div>\n");
    page_rail_drawing(out, p, head->units);
    page_section_drawing(out, r, p, head->units);
    text_put(out, "</div>\n<div>\n");
    page_moment_chart(out, r, p, head->units);
    page_factor_chart(out, r);
    page_column_chart(out, r, p, head->units);
    text_put(out, "</div>\n</div>\n");
    page_remarks(out, r);
    page_working(out, w);
    text_put(out, "</section>\n");
}
