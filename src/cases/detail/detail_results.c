#include "cases/detail/detail_results.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"
#include "cases/remark_list.h"

#include <math.h>

#define RESULT(at, dimension_, meaning_) NUMBER(detail_answer, #at, result.at, dimension_, meaning_)
#define DETAIL_RESULTS                                                                                         \
    TEXT(detail_answer, "detail", name, "name of the detail"),                                                 \
    WORD(detail_answer, "kind", detail.kind, detail_kind_words, "place, hole, ring weld, sleeve or socket"),   \
    NUMBER(detail_answer, "at", detail.at, DIM_LENGTH, "its distance from A"),                                 \
    WORD(detail_answer, "verdict", result.verdict, verdict_words, "holds if the margin is 0 or more, else short"), \
    RESULT(margin, DIM_NONE, "smallest ratio of a load factor of its modes to the factor asked for, less 1"),  \
    RESULT(factor, DIM_NONE, "load factor at which the first of its modes reaches its limit"),                 \
    WORD(detail_answer, "mode", result.mode, detail_mode_words,                                                \
         "mode that sets the margin: yield, weld, rosettes, bearing, buckling (the tube as a whole goes first) or none"), \
    RESULT(axial, DIM_FORCE, "axial force there at load factor 1, compression positive"),                      \
    RESULT(moment, DIM_MOMENT, "moment there at load factor 1"),                                               \
    RESULT(torque, DIM_MOMENT, "torque there at load factor 1"),                                               \
    RESULT(shear, DIM_FORCE, "force across the tube there at load factor 1"),                                  \
    RESULT(clearance, DIM_LENGTH, "of a sleeve or socket: bore less outside diameter of what it holds"),       \
    RESULT(play, DIM_LENGTH, "how far this lets the tube's far end move to either side, unless the weld draws it tight"), \
    RESULT(prying, DIM_FORCE, "force of the couple by which a sleeve or socket carries the moment: M/(2/3 overlap)"), \
    TEXT(detail_answer, "remarks", remarks, "remarks, separated by semicolons"),                               \
    TEXT(detail_answer, "note", note, "note of the detail")

static const field case_details_fields[] = {
    TEXT(detail_answer, "case", of, "name of the load case"),
    DETAIL_RESULTS,
};
static const field frame_details_fields[] = {
    TEXT(detail_answer, "tube", of, "name of the tube"),
    TEXT(detail_answer, "run", run, "name of the run"),
    DETAIL_RESULTS,
};
const field_list case_details_list = FIELD_LIST("detail", case_details_fields, detail_answer);
const field_list frame_details_list = FIELD_LIST("detail", frame_details_fields, detail_answer);

#define KEPT(at) TEXT(checked_row, #at, at, "")
static const field checked_fields[] = {
    KEPT(row.given.name), KEPT(row.given.note), KEPT(row.given.part), KEPT(row.given.material), KEPT(row.remarks), KEPT(row.governs),
    KEPT(detail.of), KEPT(detail.run), KEPT(detail.name), KEPT(detail.note), KEPT(detail.remarks),
};
const field_list checked_list = FIELD_LIST("result", checked_fields, checked_row);

void detail_remarks_write(char out[DETAIL_REMARKS_ROOM], unsigned remarks)
{
    *out = '\0';
    for (int i = 0; i < RBOW_DETAIL_REMARK_COUNT; i++)
        if ((remarks & 1u << i) != 0) remark_add(out, rbow_detail_remark_text(1u << i));
}

governing_detail governing_detail_of(const detail_answer *d)
{
    const rbow_detail_result *r = &d->result;
    governing_detail g = {true, d->detail.kind, r->mode, r->factor, fmax(d->factor, d->factor_yield)};
    if (r->mode == RBOW_DETAIL_BY_YIELD) {
        g.factor = r->yield_factor;
        g.required = d->factor_yield;
    } else if (r->mode < RBOW_DETAIL_MODES) {
        g.factor = r->weld_factor;
        g.required = d->factor;
    }
    return g;
}

int detail_by_margin(const detail_answer *a, const detail_answer *b)
{
    if (a->result.margin < b->result.margin || a->result.margin > b->result.margin) return a->result.margin < b->result.margin ? -1 : 1;
    return (a > b) - (a < b);
}

const detail_answer *frame_weakest_detail(const frame_answers *a, size_t detail)
{
    const detail_answer *worst = NULL;
    for (size_t run = 0; run < a->run_count; run++) {
        const detail_answer *d = &a->details[run * a->detail_count + detail];
        if (a->runs[run].solved && (worst == NULL || d->result.margin < worst->result.margin)) worst = d;
    }
    return worst;
}
