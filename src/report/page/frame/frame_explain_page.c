#include "report/page/frame/frame_explain_page.h"

#include "report/caution.h"
#include "report/html.h"
#include "report/page/frame/frame_views.h"
#include "report/page/working_table.h"
#include "report/values.h"

static void put_verdict(text *out, const frame_tube_answer *r)
{
    const bool holds = r->result.verdict == RBOW_HOLDS;
    text_format(out, "<p class=\"verdict %s\">Tube ‘", holds ? "holds" : "short");
    html_text(out, r->given.name);
    text_put(out, "’ in run ‘");
    html_text(out, r->run);
    text_format(out, "’ %s: margin ", holds ? "holds" : "is short");
    put_percent(out, r->result.margin);
    text_put(out, ".</p>\n");
}

void frame_explain_page(text *out, const page_head *head, const frame_answers *a, const frame_picture *p, const working *w)
{
    put_verdict(out, a->tubes);
    html_element(out, "p", "about", frame_assumptions);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
    frame_view_at_an_angle(out, a, p, head->units);
    text_put(out, "<h2>Bending moment along the tube</h2>\n<div class=\"figures\">\n");
    frame_page_card(out, &p->cards[0], 1, frame_largest_moment(p->cards, 1), true, head->units);
    text_put(out, "</div>\n");
    page_working(out, w, true);
}
