/* Sentences about details: what each remark means, and what happens at the limit. */
#ifndef RAILBOW_CASES_DETAIL_DETAIL_SENTENCES_H
#define RAILBOW_CASES_DETAIL_DETAIL_SENTENCES_H

#include <railbow/detail.h>

#include <stdbool.h>

/* The meaning of each remark, and what to do, by its place in the public list. */
extern const char *const detail_remark_sentences[RBOW_DETAIL_REMARK_COUNT];

/* What happens at the limit, by rbow_detail_mode: "its section yields"; "" for none. */
extern const char *const detail_limit_words[RBOW_DETAIL_MODE_COUNT];

/* Whose margin it is without the forced fit: "the margin", where a detail governs "the margin of the tube itself, its details left out,". */
const char *unforced_margin_words(bool detail_governs);

#endif
