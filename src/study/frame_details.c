#include "study/frame_details.h"

#include "cases/case_words.h"

#include <math.h>

const char *frame_governs_name(const frame_details *d, int governs)
{
    return governs < FRAME_BY_DETAIL ? frame_governs_words[governs].word : d->at[governs - FRAME_BY_DETAIL].row->name;
}


double frame_detail_length(const frame_detail *d, const rbow_frame *frame)
{
    const rbow_frame_tube *t = &frame->tubes[d->tube];
    const double *a = frame->joints[t->from].at, *b = frame->joints[t->to].at;
    return hypot(hypot(b[RBOW_X] - a[RBOW_X], b[RBOW_Y] - a[RBOW_Y]), b[RBOW_Z] - a[RBOW_Z]);
}

rbow_detail frame_detail_on(const frame_detail *d, const rbow_frame *frame)
{
    return detail_on(d->row, frame_detail_length(d, frame));
}

rbow_status frame_details_fault(const frame_details *d, const rbow_frame *frame, size_t *which)
{
    for (size_t i = 0; d != NULL && i < d->count; i++) {
        rbow_status fault;
        const rbow_detail detail = frame_detail_on(&d->at[i], frame);
        if (which != NULL) *which = i;
        if (rbow_frame_detail_faults(frame, d->at[i].tube, &detail, &fault, 1) > 0) return fault;
    }
    return RBOW_OK;
}

void frame_detail_lower(rbow_frame_tube_result *tube, size_t which, const rbow_detail *detail, const rbow_detail_result *result)
{
    if (!(result->margin < tube->margin)) return;
    tube->margin = result->margin;
    tube->verdict = result->verdict;
    tube->governs = FRAME_BY_DETAIL + (int)which;
    tube->governs_at = detail->at;
}

rbow_status frame_details_margin(const frame_details *d, const rbow_frame *frame, rbow_frame_solver *solver, const rbow_frame_run *run,
                                 rbow_frame_lowest *lowest)
{
    for (size_t i = 0; d != NULL && i < d->count; i++) {
        rbow_detail_result r;
        const rbow_detail detail = frame_detail_on(&d->at[i], frame);
        const rbow_status status = rbow_frame_detail_check(solver, run, d->at[i].tube, &detail, &r);
        if (status != RBOW_OK) return status;
        if (!(r.margin < lowest->margin)) continue;
        *lowest = (rbow_frame_lowest){.margin = r.margin, .governs_at = detail.at, .tube = d->at[i].tube, .governs = FRAME_BY_DETAIL + (int)i,
                                      .fit_taken = r.fit_taken == RBOW_FIT_AS_BUILT ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED};
    }
    return RBOW_OK;
}
