/* The page of cases on a frame: the frame as it was read, without margins. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_CASES_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_CASES_PAGE_H

#include "report/page/page.h"
#include "working/frame_picture.h"

typedef struct frame_as_read {
    const frame_model *model; /* with a tube at least; its runs do not count */
    const bool *named;        /* of each tube: its name stands beside it, where there is room */
    bool is_turned;           /* there is a further view, from `turned` */
    frame_direction turned;
} frame_as_read;

void frame_cases_page(text *out, const page_head *head, const frame_as_read *f);

#endif
