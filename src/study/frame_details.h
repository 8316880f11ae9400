/* The details of a frame, held against their limits together with its tubes. */
#ifndef RAILBOW_STUDY_FRAME_DETAILS_H
#define RAILBOW_STUDY_FRAME_DETAILS_H

#include "cases/detail/detail_table.h"

#include <stdbool.h>

typedef struct frame_detail {
    const detail_row *row;
    size_t tube; /* that it sits on */
} frame_detail;

typedef struct frame_details {
    const frame_detail *at;
    size_t count;
    const char *file; /* of the table, for messages */
} frame_details;

/* A margin is set by a check of the tube or by the frame (rbow_frame_governs) or by the i-th detail: FRAME_BY_DETAIL + i. */
enum { FRAME_BY_DETAIL = RBOW_FRAME_GOVERNS_COUNT };

/* The name of what governs: of a check, or of a detail. */
const char *frame_governs_name(const frame_details *d, int governs);

/* The length of its tube as it is drawn. */
double frame_detail_length(const frame_detail *d, const rbow_frame *frame);

/* The details on their tubes as they are drawn. Given: room for d->count. d may be NULL: none. Returned: how many */
size_t frame_details_on(const frame_details *d, const rbow_frame *frame, rbow_frame_detail *to);
rbow_frame_detail frame_detail_on(const frame_detail *d, const rbow_frame *frame);

/* The first fault of a detail; RBOW_OK for none. Given: frame  without faults. Returned: which  detail it is; NULL: not wanted */
rbow_status frame_details_fault(const frame_details *d, const rbow_frame *frame, size_t *which);

/* Lowers the result of a tube to that of its detail, if that is the weaker: margin, verdict, what governs and where. */
void frame_detail_lower(rbow_frame_tube_result *tube, size_t which, const rbow_detail *detail, const rbow_detail_result *result);

#endif
