#include "report/text/frame/frame_explain_text.h"

#include "report/caution.h"
#include "report/lines.h"
#include "report/text/cells.h"
#include "report/text/frame/frame_text.h"
#include "report/text/working_text.h"

void frame_explain_text(text *out, const frame_answers *a, const char *folder, const working *w, const text *details, const screen *s)
{
    const frame_tube_answer *r = a->tubes;
    text line = {0};
    frame_verdict_text(out, a, s);
    text_format(&line, "Given in line %zu of ", r->given.line);
    put_printable(&line, folder);
    text_put(&line, "/tubes.csv: joint A is ");
    put_name(&line, r->given.from);
    text_put(&line, ", joint B is ");
    put_name(&line, r->given.to);
    text_char(&line, '.');
    text_char(out, '\n');
    put_lines(out, &line, 2, s);
    text_char(out, '\n');
    if (frame_has_open_bow(a->model))
        put_sentence(out, "Bows of unknown clock point to the side on which the margin of this tube is lower. The joints that check tells are those "
                          "of the side that is worse for the worst tube of the run.", 0, s);
    put_sentence(out, "The working. x is forward, y to the left, z up. Numbers carry ten digits; a line done again with the digits shown agrees to "
                      "six. Angles with \u00b0 are degrees, all others radians.", 0, s);
    working_text(out, w, s);
    if (details->length > 0) text_put(out, details->at);
    out->failed = out->failed || details->failed;
    text_char(out, '\n');
    put_sentence(out, frame_assumptions, 0, s);
    put_end(out, s);
}
