/* The words that files use for ends, column curves, bow shapes, verdicts and governing checks. */
#ifndef RAILBOW_CASES_CASE_WORDS_H
#define RAILBOW_CASES_CASE_WORDS_H

#include "table/field.h"

#include <railbow/frame.h>

/* Each list is that of the public headers, in the same order. */
extern const field_word end_a_words[], end_b_words[], curve_words[], bow_shape_words[];
extern const field_word verdict_words[], governs_words[], joints_words[], fit_words[]; /* by rbow_verdict ... */
extern const field_word clock_words[]; /* a direction that is not known */
extern const field_word held_words[], frame_end_words[], frame_governs_words[]; /* of a frame; the last by rbow_frame_governs */

/* The word of an end, or NULL for a stiffness. */
const char *end_word(double end);

#endif
