#include "report/text/detail_working_text.h"

#include "cases/detail/detail_sentences.h"
#include "report/detail_words.h"
#include "report/lines.h"
#include "report/text/cells.h"
#include "report/text/working_text.h"

#include <math.h>

static void put_place(text *line, const detail_worked *d, unit_system units)
{
    text_format(line, " (%s, ", rbow_detail_kind_name(d->detail->kind));
    if (d->detail->at <= 0) {
        text_put(line, "at joint A)");
    } else if (d->detail->at >= d->member->length) {
        text_put(line, "at joint B)");
    } else {
        put_value(line, d->detail->at, DIM_LENGTH, units);
        text_put(line, " from A)");
    }
}

static void put_verdict(text *out, const detail_worked *d, const screen *s)
{
    const bool holds = d->result->verdict == RBOW_HOLDS;
    text verdict = {0}, line = {0};
    text_put(&verdict, "Detail ");
    put_name(&verdict, d->name);
    text_put(&verdict, " of ");
    put_name(&verdict, d->of);
    text_put(&verdict, holds ? " holds." : " is SHORT.");
    put_paragraph(out, &verdict, 2, holds ? TONE_GOOD : TONE_BAD, s);
    text_free(&verdict);
    put_name(&line, d->name);
    put_place(&line, d, s->units);
    text_put(&line, ": ");
    const governing_detail limit = detail_limit_of(d);
    put_detail_limit(&line, &limit, d->result->margin);
    put_lines(out, &line, 2, s);
    if (*d->note == '\0') return;
    text_put(&line, "Note: ");
    put_printable(&line, d->note);
    put_lines(out, &line, 2, s);
}

static void put_remarks(text *out, const detail_worked *d, const screen *s)
{
    if (d->result->remarks != 0) text_put(out, "\nRemarks:\n");
    for (int i = 0; i < RBOW_DETAIL_REMARK_COUNT; i++) {
        text line = {0};
        if ((d->result->remarks & 1u << i) == 0) continue;
        text_format(&line, "  %s: %s", rbow_detail_remark_text(1u << i), detail_remark_list[i].sentence);
        put_lines(out, &line, 4, s);
    }
}

void detail_working_text(text *out, const detail_worked *d, const working *w, const screen *s)
{
    put_verdict(out, d, s);
    put_remarks(out, d, s);
    working_text(out, w, s);
}
