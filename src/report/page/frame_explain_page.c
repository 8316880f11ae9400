#include "report/page/frame_explain_page.h"

#include "report/caution.h"
#include "report/html.h"
#include "report/page/frame_findings.h"
#include "report/page/frame_views.h"
#include "report/page/working_table.h"

void frame_explain_page(text *out, const page_head *head, const frame_answers *a, const frame_picture *p, const working *w)
{
    frame_page_verdict(out, head, a);
    frame_findings(out, a, head->units);
    html_element(out, "p", "about", frame_assumptions);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
    frame_view_at_an_angle(out, a, p, head->units);
    text_put(out, "<h2>Bending moment along the tube</h2>\n<div class=\"figures\">\n");
    frame_page_card(out, &p->cards[0], 1, head->units);
    text_put(out, "</div>\n");
    page_working(out, w);
}
