#include "report/page/compare_matrix.h"

#include "cases/compare_sum.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

enum { COLUMNS_MOST = 6, WALLS_MOST = 8 }; /* tubes side by side: what paper and a narrow window hold */

typedef struct matrix {
    text *out;
    const compare_row *rows;
    size_t count, first, end; /* tubes of this table */
    size_t pick;
    bool own_od;
    unit_system units;
} matrix;

static void put_tube(text *out, const matrix *m, size_t tube)
{
    const compared *t = &m->rows[tube].tried;
    if (!m->own_od) text_format(out, "%.5g × ", shown(t->od, DIM_LENGTH, m->units));
    text_format(out, "%.4g", shown(t->wall, DIM_LENGTH, m->units));
}

static void begin_cell(const matrix *m, size_t tube)
{
    text_put(m->out, "<td class=\"n\" data-label=\"");
    put_tube(m->out, m, tube);
    text_put(m->out, "\">");
}

static void put_margin_cell(const matrix *m, const compare_row *r)
{
    begin_cell(m, r->tube);
    if (!is_possible(r)) {
        text_put(m->out, "<span title=\"");
        html_text(m->out, r->verdict);
        text_put(m->out, "\">–</span></td>");
        return;
    }
    text_format(m->out, "<span class=\"%s\">%s ", tube_holds(r) ? "holds" : "short bold", tube_holds(r) ? "✓" : "✗");
    put_percent(m->out, r->tried.result.margin);
    text_put(m->out, r->pick == COMPARE_LIGHTEST ? "</span> *</td>" : "</span></td>");
}

static void put_head(const matrix *m)
{
    text_format(m->out, "<thead><tr><th scope=\"col\">%s, %s</th>", m->own_od ? "Wall" : "Diameter × wall", unit_name(DIM_LENGTH, m->units));
    for (size_t t = m->first; t < m->end; t++) {
        text_put(m->out, "<th scope=\"col\" class=\"n\">");
        put_tube(m->out, m, t);
        text_put(m->out, t == m->pick ? "<br/>pick</th>" : "</th>");
    }
    text_put(m->out, "</tr></thead>\n");
}

static void put_sums(const matrix *m)
{
    text_put(m->out, "<tr class=\"sum\"><th scope=\"row\">Holds in</th>");
    for (size_t t = m->first; t < m->end; t++) {
        const tube_sum s = sum_of_tube(m->rows, m->count, t);
        begin_cell(m, t);
        text_format(m->out, "%zu of %zu</td>", s.holds, s.cases);
    }
    text_put(m->out, "</tr>\n<tr class=\"sum\"><th scope=\"row\">Weight of all parts, ");
    text_format(m->out, "%s</th>", unit_name(DIM_MASS, m->units));
    for (size_t t = m->first; t < m->end; t++) {
        const tube_sum s = sum_of_tube(m->rows, m->count, t);
        begin_cell(m, t);
        if (s.impossible > 0) text_put(m->out, "–");
        else put_bare(m->out, s.weight, DIM_MASS, m->units, ROUND_NEAREST);
        text_put(m->out, "</td>");
    }
    text_put(m->out, "</tr>\n");
}

static void put_table(const matrix *m)
{
    const size_t tubes = m->rows[0].tubes;
    text_format(m->out, "<table class=\"stack matrix\"><caption>%s</caption>\n", m->first == 0 ? "Margin of every case with every tube. ✓: it holds; "
                "✗: it is short; –: this tube is not possible; *: the "
                "lightest that holds in every case of the part" : "The same with further tubes");
    put_head(m);
    text_put(m->out, "<tbody>\n");
    for (size_t i = 0; i < m->count; i += tubes) {
        text_put(m->out, "<tr><th scope=\"row\">");
        html_text(m->out, m->rows[i].name);
        text_put(m->out, "</th>");
        for (size_t t = m->first; t < m->end; t++) put_margin_cell(m, &m->rows[i + t]);
        text_put(m->out, "</tr>\n");
    }
    put_sums(m);
    text_put(m->out, "</tbody></table>\n");
}

void page_compare_matrix(text *out, const compare_row *rows, size_t count, size_t pick, bool own_od, unit_system units)
{
    const size_t tubes = rows[0].tubes, abreast = own_od ? WALLS_MOST : COLUMNS_MOST;
    for (size_t first = 0; first < tubes; first += abreast) {
        const matrix m = {out, rows, count, first, first + abreast < tubes ? first + abreast : tubes, pick, own_od, units};
        put_table(&m);
    }
}
