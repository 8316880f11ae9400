#include "cases/case_words.h"

#define PAIR(value, word) {word, value},
#define CURVE_PAIR(value, formula, word, imperfection, source) {word, value},
#define HELD_PAIR(name, bit, word) {word, name},
#define LAST {NULL, 0}

const field_word end_a_words[] = {RBOW_END_LIST(PAIR) LAST};
const field_word end_b_words[] = {RBOW_END_B_LIST(PAIR) LAST};
const field_word curve_words[] = {RBOW_CURVE_LIST(CURVE_PAIR) LAST};
const field_word bow_shape_words[] = {RBOW_BOW_SHAPE_LIST(PAIR) LAST};
const field_word verdict_words[] = {RBOW_VERDICT_LIST(PAIR) LAST};
const field_word clock_words[] = {{"any", RBOW_ANY_CLOCK}, LAST};
const field_word joints_words[] = {RBOW_JOINTS_LIST(PAIR) LAST};
const field_word fit_words[] = {RBOW_FIT_LIST(PAIR) LAST};
const field_word governs_words[] = {RBOW_GOVERNS_LIST(PAIR) LAST};
const field_word held_words[] = {
    {"fixed", RBOW_HELD_FIXED}, {"pinned", RBOW_HELD_PINNED}, RBOW_HELD_LIST(HELD_PAIR) LAST};
const field_word frame_end_words[] = {{"rigid", RBOW_FIXED}, {"pinned", RBOW_PINNED}, LAST};
const field_word frame_governs_words[] = {RBOW_FRAME_GOVERNS_LIST(PAIR) LAST};

const char *end_word(double end)
{
    for (const field_word *w = end_b_words; w->word != NULL; w++)
        if (!(end < w->value) && !(end > w->value)) return w->word;
    if (end <= RBOW_SOFT_WELD && end >= RBOW_SOFT_WELD) return "welded, soft";
    if (end <= RBOW_STIFF_WELD && end >= RBOW_STIFF_WELD) return "welded, stiff";
    return NULL;
}
