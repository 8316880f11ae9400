/* The table of details: holes, welds, sleeves and sockets on tubes. */
#ifndef RAILBOW_CASES_DETAIL_DETAIL_TABLE_H
#define RAILBOW_CASES_DETAIL_DETAIL_TABLE_H

#include "table/field.h"

#include <railbow/detail.h>

typedef struct detail_row {
    const char *of;       /* the case, its part or the tube of a frame that it sits on */
    const char *name;
    const char *sn;       /* name of an S-N curve; "": the usual one of its kind */
    const char *note;
    rbow_detail detail;   /* `at` INFINITY: joint B; rosettes are not set */
    double rosettes;
    size_t line;          /* of the file; no column */
} detail_row;

/* The same columns, but for the first: `case` of load cases, `tube` of a frame. */
extern const field_list case_detail_list, frame_detail_list; /* of detail_row */

extern const field_word detail_kind_words[], detail_mode_words[]; /* by rbow_detail_kind, rbow_detail_mode */

/* A size that its kind needs and the row has not, or that the row has and its kind does not use; NULL where there is none.
 * Returned: missing  which of the two it is */
const field *detail_size_fault(const detail_row *r, bool *missing);

/* The detail on a tube of that length. Given: r  without faults of sizes, its rosettes a whole number */
rbow_detail detail_on(const detail_row *r, double length);

#endif
