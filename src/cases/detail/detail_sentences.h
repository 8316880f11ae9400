/* Sentences about details: what each remark means, and what happens at the limit. */
#ifndef RAILBOW_CASES_DETAIL_DETAIL_SENTENCES_H
#define RAILBOW_CASES_DETAIL_DETAIL_SENTENCES_H

#include "cases/remark_list.h"

#include <railbow/detail.h>

#include <stdbool.h>

/* All remarks, in the order in which they are printed. */
extern const remark_meaning detail_remark_list[RBOW_DETAIL_REMARK_COUNT];

/* What happens at the limit, by rbow_detail_mode: "its section yields"; "" for none. */
extern const char *const detail_limit_words[RBOW_DETAIL_MODE_COUNT];

/* Whose margin it is without the forced fit: "the margin", where a detail governs "the margin of the tube itself, its details left out,". */
const char *unforced_margin_words(bool detail_governs);

#endif
