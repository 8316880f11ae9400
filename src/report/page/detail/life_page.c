#include "report/page/detail/life_page.h"

#include "cases/detail/life_words.h"
#include "report/caution.h"
#include "report/html.h"
#include "report/page/detail/sn_chart.h"
#include "report/page/parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const char life_accuracy[] = "orders of magnitude: a life is an estimate";

static const life_row *ranked(const life_told *t, size_t place)
{
    return &t->rows[t->order[place].row];
}

static void put_detail(text *out, const life_row *r)
{
    text_format(out, "'%s' of '%s'", r->detail, r->of);
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* A paragraph; a number that is grouped by blanks stays on one line. Empties the words. */
static void put_paragraph(text *out, const char *style, text *words)
{
    text kept = {0};
    for (const char *at = page_said(words), *from = at; *at != '\0'; at++) {
        const bool inside = *at == ' ' && at > from && is_digit(at[-1]) && is_digit(at[1]);
        if (inside) text_put(&kept, "\u00a0");
        else text_char(&kept, *at);
    }
    html_element(out, "p", style, page_said(&kept));
    text_char(out, '\n');
    text_free_part(&kept, out);
    text_free_part(words, out);
}

/* ---- the answer ------------------------------------------------------------------------------------------- */

/* Details without a number, then what cracks first. Returned: the sentence */
static text headline(const life_told *t, size_t unknown)
{
    enum { NAMED = 4 };
    text said = {0};
    for (size_t i = 0; i < unknown && i < NAMED; i++) {
        const life_row *r = ranked(t, i);
        text_put(&said, i > 0 ? "; " : "");
        put_detail(&said, r);
        text_put(&said, (r->result.remarks & RBOW_LIFE_LOW_CYCLE) != 0 ? ": beyond yield: low-cycle, no number" : ": no equilibrium, no life");
    }
    if (unknown > NAMED) text_format(&said, "; and %zu more", unknown - NAMED);
    if (unknown > 0) text_put(&said, ". ");
    if (unknown == t->count) return said;
    const life_row *first = ranked(t, unknown);
    if (isinf(first->result.runs)) {
        text_put(&said, unknown > 0 ? "The others do not crack by their curves." : "No detail cracks by its curve.");
        return said;
    }
    text_put(&said, unknown > 0 ? "Of the others first to crack: " : "First to crack: ");
    put_detail(&said, first);
    text_put(&said, ": ");
    life_put_runs(&said, first->result.runs);
    text_char(&said, '.');
    return said;
}

static void put_reasons(text *out, const life_told *t, size_t unknown)
{
    const life_row *first = ranked(t, unknown < t->count ? unknown : 0), *most = life_most_forced(t->rows, t->count);
    text forced = {0}, curve = {0};
    life_put_forced(&forced, first);
    put_paragraph(out, NULL, &forced);
    if (most != NULL && most != first) {
        text costs = {0};
        text_put(&costs, "Forcing costs most at ");
        put_detail(&costs, most);
        text_put(&costs, ": ");
        life_put_runs(&costs, most->result.runs);
        text_put(&costs, ", without it ");
        life_put_runs(&costs, most->result.runs_unforced);
        text_char(&costs, '.');
        put_paragraph(out, NULL, &costs);
    }
    life_put_curve(&curve, first);
    put_paragraph(out, NULL, &curve);
}

/* ---- the table -------------------------------------------------------------------------------------------- */

static void put_cell(text *out, const char *label, bool number, const char *words)
{
    text_format(out, "<td data-label=\"%s\"%s>", label, number ? " class=\"n\"" : "");
    html_text(out, words);
    text_put(out, "</td>");
}

static void put_life(text *out, const char *label, double number)
{
    text words = {0};
    life_put_number(&words, number);
    put_cell(out, label, true, page_said(&words));
    text_free_part(&words, out);
}

static void put_row(text *out, const life_told *t, size_t place, unit_system units)
{
    const life_row *r = ranked(t, place);
    text cost = {0}, range = {0};
    life_put_cost(&cost, r);
    if (isfinite(r->result.range)) page_quantity(&range, r->result.range, DIM_STRESS, units);
    text_format(out, "<tr><th scope=\"row\">%zu ", place + 1);
    html_text(out, r->detail);
    text_put(out, "</th>");
    put_cell(out, t->of_frame ? "tube" : "part", false, r->of);
    put_life(out, "runs", r->result.runs);
    put_life(out, "unforced", r->result.runs_unforced);
    put_cell(out, "forcing costs", true, page_said(&cost));
    put_cell(out, "curve", false, r->curve);
    put_cell(out, "most damage in", false, r->most);
    text_format(out, "<td data-label=\"range\" class=\"n\">%s</td>", page_said(&range));
    put_life(out, "cycles", r->result.cycles_to_crack);
    put_cell(out, "remarks", false, r->remarks);
    text_put(out, "</tr>\n");
    text_free_part(&cost, out);
    text_free_part(&range, out);
}

static void put_table(text *out, const life_told *t, unit_system units)
{
    text_format(out, "<table class=\"stack frame list\"><caption>Lives, first to crack first. Runs of the car to a crack, to two digits; range and cycles "
                     "are those of the load that does most damage, alone.</caption>\n<thead><tr><th scope=\"col\">detail</th><th scope=\"col\">%s</th>"
                     "<th scope=\"col\" class=\"n\">runs</th><th scope=\"col\" class=\"n\">runs unforced</th><th scope=\"col\" class=\"n\">forcing "
                     "costs</th><th scope=\"col\">curve</th><th scope=\"col\">most damage in</th><th scope=\"col\" class=\"n\">range</th>"
                     "<th scope=\"col\" class=\"n\">cycles</th><th scope=\"col\">remarks</th></tr></thead>\n<tbody>\n", t->of_frame ? "tube" : "part");
    for (size_t i = 0; i < t->count; i++) put_row(out, t, i, units);
    text_put(out, "</tbody></table>\n");
}

/* ---- charts ----------------------------------------------------------------------------------------------- */

static bool is_drawn(const life_row *r)
{
    return isfinite(r->result.equivalent) && !isnan(r->result.cycles_to_crack);
}

static void caption(text *out, const life_told *t, const rbow_sn_curve *curve, const sn_point *points, size_t count)
{
    text words = {0};
    bool any_forced = false, any_endless = false;
    text_put(&words, "Full points: the load that does most damage to each detail, as built. ");
    for (size_t i = 0; i < count; i++) {
        any_forced = any_forced || points[i].forced;
        any_endless = any_endless || isinf(points[i].cycles);
    }
    if (any_forced) text_put(&words, "Rings, with their numbers in brackets: the same without misses and gap. ");
    if (any_endless) text_put(&words, "A point at the right border has no end of life. ");
    for (size_t i = 0; i < count; i++) {
        text_format(&words, "%s%zu: ", i > 0 ? ", " : "", points[i].number);
        put_detail(&words, ranked(t, points[i].number - 1));
    }
    if (curve->source != NULL && *curve->source != '\0') text_format(&words, ". Source of the curve: %s.", curve->source);
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
}

/* The points of one curve, in their rank. Returned: how many */
static size_t points_of(const life_told *t, const rbow_sn_curve *curve, sn_point *points)
{
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++) {
        const life_row *r = ranked(t, i);
        if (r->sn != curve || !is_drawn(r)) continue;
        points[count++] = (sn_point){i + 1, r->result.equivalent, r->result.cycles_to_crack, r->forced, r->unforced.equivalent,
                                     r->unforced.cycles_to_crack};
    }
    return count;
}

static void put_chart(text *out, const life_told *t, const rbow_sn_curve *curve, sn_point *points, unit_system units)
{
    const size_t count = points_of(t, curve, points);
    text title = {0};
    if (count == 0) return;
    text_format(&title, "S-N curve %s", curve->name);
    page_begin_chart(out, page_said(&title), SN_CHART_HIGH, page_said(&title));
    sn_chart(out, curve, points, count, units);
    caption(out, t, curve, points, count);
    text_free_part(&title, out);
}

/* One for each curve, in the order in which they first crack. */
static void put_charts(text *out, const life_told *t, unit_system units)
{
    sn_point *points = malloc((t->count + 1) * sizeof *points);
    if (points == NULL) {
        out->failed = true;
        return;
    }
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < t->count; i++) {
        const rbow_sn_curve *curve = ranked(t, i)->sn;
        bool drawn = false;
        for (size_t k = 0; k < i && !drawn; k++) drawn = ranked(t, k)->sn == curve;
        if (!drawn) put_chart(out, t, curve, points, units);
    }
    text_put(out, "</div>\n");
    free(points);
}

/* ---- the page --------------------------------------------------------------------------------------------- */

static void put_bare(text *out, const life_told *t)
{
    text words = {0};
    for (size_t i = 0; i < t->bare_count; i++) text_format(&words, "%s'%s'", i > 0 ? ", " : "", t->bare[i]);
    if (t->bare_count > 0) text_put(&words, t->bare_count == 1 ? " has no detail and no life here." : " have no detail and no life here.");
    if (words.length > 0) text_char(&words, ' ');
    life_put_loads(&words, t);
    if (words.length > 0) html_element(out, "p", "soft", page_said(&words));
    text_free_part(&words, out);
}

void page_life(text *out, const page_head *head, const life_told *t)
{
    const size_t unknown = life_unknown(t->rows, t->count);
    if (t->count == 0) {
        html_element(out, "p", "verdict short", "No detail has a life here.");
        page_refused(out, head);
        return;
    }
    text said = headline(t, unknown);
    put_paragraph(out, "verdict", &said);
    page_refused(out, head);
    put_reasons(out, t, unknown);
    html_element(out, "p", "about", t->of_frame ? frame_life_assumptions : life_assumptions);
    html_element(out, "p", "about", life_caution);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
    put_bare(out, t);
    put_table(out, t, head->units);
    put_charts(out, t, head->units);
}
