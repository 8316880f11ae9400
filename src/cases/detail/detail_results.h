/* The results of details as tables. */
#ifndef RAILBOW_CASES_DETAIL_DETAIL_RESULTS_H
#define RAILBOW_CASES_DETAIL_DETAIL_RESULTS_H

#include "cases/check_table.h"
#include "cases/detail/detail_table.h"
#include "cases/frame_results.h"

#define DETAIL_REMARK_JOINED(value, text) text "; "
enum { DETAIL_REMARKS_ROOM = sizeof(RBOW_DETAIL_REMARK_LIST(DETAIL_REMARK_JOINED)) };

typedef struct detail_answer {
    const char *of, *run; /* the case, or the tube and the run of a frame */
    const char *name, *note;
    const char *remarks;  /* of the result, separated by semicolons */
    rbow_detail detail;
    rbow_detail_result result;
    double factor, factor_yield; /* asked for; the second as resolved */
    double length;        /* in, of the tube */
} detail_answer;

extern const field_list case_details_list, frame_details_list; /* of detail_answer */

/* A row of check with details: a case, or one of its details behind it. */
typedef struct checked_row {
    check_row row;
    detail_answer detail;
    bool is_detail;
} checked_row;
extern const field_list checked_list; /* of checked_row: its texts alone */

/* All remarks of a detail, separated by semicolons. */
void detail_remarks_write(char out[DETAIL_REMARKS_ROOM], unsigned remarks);

/* The order in which details are shown: the smaller margin first, among equals the one that stands first. As a comparison for qsort. */
int detail_by_margin(const detail_answer *a, const detail_answer *b);

/* The answer of a detail of a frame in the run with its smallest margin; NULL where no run has an answer. */
const detail_answer *frame_weakest_detail(const frame_answers *a, size_t detail);

/* What a detail says of the margin that it sets. */
governing_detail governing_detail_of(const detail_answer *d);

#endif
