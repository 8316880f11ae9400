#include "report/page/working_table.h"

#include "report/html.h"

static void put_heading(text *out, const working_row *r)
{
    text_put(out, "<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"5\">");
    html_text(out, r->step);
    if (*r->source != '\0') {
        text_put(out, " <span class=\"source\">");
        html_text(out, r->source);
        text_put(out, "</span>");
    }
    text_put(out, "</th></tr>\n");
}

static void put_step(text *out, const working_row *r)
{
    text_put(out, "<tr><th scope=\"row\">");
    html_text(out, r->step);
    text_put(out, "</th>");
    html_element(out, "td", "formula", r->formula);
    html_element(out, "td", "numbers", r->numbers.at != NULL ? r->numbers.at : "");
    text_put(out, "<td class=\"n\">");
    html_text(out, r->result);
    if (*r->unit != '\0') {
        text_char(out, ' ');
        html_unit(out, r->unit);
    }
    text_put(out, "</td>");
    html_element(out, "td", "source", r->source);
    text_put(out, "</tr>\n");
}

void page_working(text *out, const working *w, bool open)
{
    if (w == NULL) {
        text_put(out, "<p>The working is missing here: the numerical solution of one of its steps did not converge. Verdict and margin do "
                      "not rest on it.</p>\n");
        return;
    }
    text_put(out, open ? "<details open=\"open\">" : "<details>");
    text_put(out, "<summary>The working, from the inputs to the margin</summary>\n"
                  "<table class=\"working stack\"><caption>Numbers carry ten digits; a line done again with the digits shown "
                  "agrees to six. Angles with ° are degrees, all others radians.</caption>\n<thead><tr><th scope=\"col\">Step</th>"
                  "<th scope=\"col\">Formula</th><th scope=\"col\">With numbers</th><th scope=\"col\" class=\"n\">Result</th>"
                  "<th scope=\"col\">Source</th></tr></thead>\n");
    for (size_t i = 0; i < w->count; i++) {
        const bool heading = *w->rows[i].formula == '\0';
        if (i == 0 || heading) text_put(out, i == 0 ? "<tbody>\n" : "</tbody>\n<tbody>\n");
        if (heading)
            put_heading(out, &w->rows[i]);
        else
            put_step(out, &w->rows[i]);
    }
    text_put(out, "</tbody></table>\n</details>\n");
}
