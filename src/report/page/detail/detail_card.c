#include "report/page/detail/detail_card.h"

#include "cases/detail/detail_sentences.h"
#include "report/detail_words.h"
#include "report/html.h"
#include "report/page/detail/detail_drawing.h"
#include "report/page/parts.h"
#include "report/page/working_table.h"
#include "report/values.h"

#include <math.h>
#include <string.h>

/* ---- the verdict ---------------------------------------------------------------------------------------------------- */

static void put_verdict(text *out, const detail_worked *d)
{
    const bool holds = d->result->verdict == RBOW_HOLDS;
    text_put(out, "<h3>");
    html_text(out, d->name);
    text_format(out, " <span class=\"soft\">(%s on ‘", rbow_detail_kind_name(d->detail->kind));
    html_text(out, d->of);
    if (*d->run != '\0') {
        text_put(out, "’, run ‘");
        html_text(out, d->run);
    }
    text_format(out, "’)</span></h3>\n<p><span class=\"word %s\">%s</span>: ", holds ? "holds" : "short", holds ? "✓ holds" : "✗ SHORT");
    const governing_detail limit = detail_limit_of(d);
    put_detail_limit(out, &limit, d->result->margin);
    if (*d->note != '\0') {
        text_put(out, " Note: ");
        html_text(out, d->note);
    }
    text_put(out, "</p>\n");
}

/* ---- forces and utilisations ------------------------------------------------------------------------------------------ */

enum { COLUMNS = DETAIL_STATES };

static const char *const state_words[COLUMNS] = {
    [DETAIL_AT_YIELD] = "at yield", [DETAIL_AT_WELD] = "at the weld’s limit", [DETAIL_AS_LOADED] = "as loaded"};

typedef struct force_table {
    text *out;
    const detail_worked *d;
    const detail_state *states;
    unit_system units;
    bool shown[COLUMNS];
    double use[COLUMNS][RBOW_DETAIL_MODES];
} force_table;

static void begin_row(text *out, const char *name, const char *of_unit)
{
    text_put(out, "<tr><th scope=\"row\">");
    html_text(out, name);
    if (*of_unit != '\0') {
        text_put(out, ", ");
        html_unit(out, of_unit);
    }
    text_put(out, "</th>");
}

static void cell(const force_table *t, double value, dimension d)
{
    text_put(t->out, "<td class=\"n\">");
    if (isnan(value)) text_put(t->out, "–");
    else if (d == DIM_NONE) put_decimals(t->out, value, 3, ROUND_NEAREST);
    else put_bare(t->out, value, d, t->units, ROUND_NEAREST);
    text_put(t->out, "</td>");
}

static double force_of(const detail_state *s, size_t which)
{
    const rbow_section_forces *f = &s->forces;
    const double values[] = {f->axial, hypot(f->moment_up, f->moment_right), fabs(f->torque), hypot(f->shear_up, f->shear_right)};
    return s->status == RBOW_OK ? values[which] : (double)NAN;
}

static void force_rows(const force_table *t)
{
    static const struct {
        const char *name;
        dimension dimension;
    } rows[] = {{"axial, push positive", DIM_FORCE}, {"moment", DIM_MOMENT}, {"torque", DIM_MOMENT}, {"shear", DIM_FORCE}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        begin_row(t->out, rows[i].name, unit_name(rows[i].dimension, t->units));
        for (int k = 0; k < COLUMNS; k++)
            if (t->shown[k]) cell(t, force_of(&t->states[k], i), rows[i].dimension);
        text_put(t->out, "</tr>\n");
    }
}

static void use_rows(const force_table *t)
{
    static const char *const names[RBOW_DETAIL_MODES] = {
        [RBOW_DETAIL_BY_YIELD] = "utilisation of yield", [RBOW_DETAIL_BY_WELD] = "utilisation of the weld",
        [RBOW_DETAIL_BY_ROSETTES] = "utilisation of the rosettes", [RBOW_DETAIL_BY_BEARING] = "utilisation of their bearing",
    };
    for (int mode = 0; mode < RBOW_DETAIL_MODES; mode++) {
        bool any = false;
        for (int k = 0; k < COLUMNS; k++) any = any || (t->shown[k] && !isnan(t->use[k][mode]));
        if (!any) continue;
        begin_row(t->out, names[mode], "");
        for (int k = 0; k < COLUMNS; k++)
            if (t->shown[k]) cell(t, t->use[k][mode], DIM_NONE);
        text_put(t->out, "</tr>\n");
    }
}

static void fill_uses(force_table *t)
{
    for (int k = 0; k < COLUMNS; k++) {
        t->shown[k] = k == DETAIL_AS_LOADED || t->states[k].status == RBOW_OK;
        for (int mode = 0; mode < RBOW_DETAIL_MODES; mode++) t->use[k][mode] = NAN;
        if (t->states[k].status == RBOW_OK) rbow_detail_use(t->d->detail, t->d->member, t->d->material, &t->states[k].forces, t->use[k]);
    }
}

static void put_table(text *out, const page_head *head, const detail_worked *d, const detail_state states[DETAIL_STATES])
{
    force_table t = {.out = out, .d = d, .states = states, .units = head->units};
    fill_uses(&t);
    text_put(out, "<table class=\"detail\"><caption>What acts at the detail; a utilisation of 1 is a limit</caption>\n"
                  "<thead><tr><th scope=\"col\">quantity</th>");
    for (int k = 0; k < COLUMNS; k++)
        if (t.shown[k]) text_format(out, "<th scope=\"col\" class=\"n\">%s</th>", state_words[k]);
    text_put(out, "</tr></thead>\n<tbody>\n");
    begin_row(out, "load factor", "");
    for (int k = 0; k < COLUMNS; k++)
        if (t.shown[k]) cell(&t, detail_state_factor(d->result, k), DIM_NONE);
    text_put(out, "</tr>\n");
    force_rows(&t);
    use_rows(&t);
    text_put(out, "</tbody></table>\n");
}

/* ---- remarks and working ---------------------------------------------------------------------------------------------- */

static void put_remarks(text *out, const detail_worked *d)
{
    if (d->result->remarks == 0) return;
    text_put(out, "<ul>\n");
    for (int i = 0; i < RBOW_DETAIL_REMARK_COUNT; i++) {
        if ((d->result->remarks & 1u << i) == 0) continue;
        html_element(out, "li", NULL, detail_remark_list[i].sentence);
        text_char(out, '\n');
    }
    text_put(out, "</ul>\n");
}

void page_detail_card(text *out, const page_head *head, const detail_worked *d, const detail_state states[DETAIL_STATES], const working *w)
{
    text_put(out, "<section class=\"detail\">\n");
    put_verdict(out, d);
    text_put(out, "<div class=\"figures\">\n");
    page_detail_drawing(out, d, head->units);
    text_put(out, "<div>\n");
    put_table(out, head, d, states);
    put_remarks(out, d);
    text_put(out, "</div>\n</div>\n");
    page_working(out, w, false);
    text_put(out, "</section>\n");
}
