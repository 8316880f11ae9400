/* The meaning of each remark on a detail, and what limits a detail in words. */
#ifndef RAILBOW_CASES_DETAIL_DETAIL_REMARKS_H
#define RAILBOW_CASES_DETAIL_DETAIL_REMARKS_H

#include <railbow/detail.h>

typedef struct detail_remark_meaning {
    unsigned bit;         /* of rbow_detail_result.remarks */
    const char *meaning;  /* a clause that follows the remark and a colon */
    const char *sentence; /* sentences: the meaning, and what to do */
} detail_remark_meaning;

/* All remarks, in the order in which they are printed. */
extern const detail_remark_meaning detail_remark_list[RBOW_DETAIL_REMARK_COUNT];

/* What happens at the limit, by rbow_detail_mode: "its section yields"; "" for none. */
extern const char *const detail_limit_words[RBOW_DETAIL_MODE_COUNT];

#endif
