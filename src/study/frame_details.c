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

rbow_frame_detail frame_detail_on(const frame_detail *d, const rbow_frame *frame)
{
    return (rbow_frame_detail){d->tube, detail_on(d->row, frame_detail_length(d, frame))};
}

size_t frame_details_on(const frame_details *d, const rbow_frame *frame, rbow_frame_detail *to)
{
    if (d == NULL) return 0;
    for (size_t i = 0; i < d->count; i++) to[i] = frame_detail_on(&d->at[i], frame);
    return d->count;
}

rbow_status frame_details_fault(const frame_details *d, const rbow_frame *frame, size_t *which)
{
    for (size_t i = 0; d != NULL && i < d->count; i++) {
        rbow_status fault;
        const rbow_frame_detail on = frame_detail_on(&d->at[i], frame);
        if (which != NULL) *which = i;
        if (rbow_frame_detail_faults(frame, on.tube, &on.detail, &fault, 1) > 0) return fault;
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
