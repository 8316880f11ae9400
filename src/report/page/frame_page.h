/* The page of a frame: its drawings, its runs, its tubes, and the moments along the worst of them. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_PAGE_H
#define RAILBOW_REPORT_PAGE_FRAME_PAGE_H

#include "report/page/page.h"
#include "working/frame_picture.h"

enum { FRAME_CARDS_MOST = 6 };

typedef struct frame_card { /* a tube in its worst run */
    const frame_tube_answer *answer;
    frame_moments moments;
} frame_card;

typedef struct frame_picture {
    size_t run;               /* that is drawn */
    const frame_shape *shapes; /* of every tube of the model */
    frame_card cards[FRAME_CARDS_MOST]; /* the smallest margin first */
    size_t card_count;
} frame_picture;

/* What stands between page_open and page_close. At least one run has an answer. */
void frame_page(text *out, const page_head *head, const frame_answers *a, const frame_picture *p);

#endif
