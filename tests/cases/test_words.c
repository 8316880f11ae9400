/* The words and remarks of files against those of the library, which both come from the lists of the public headers. */
#include "near.h"

#include "cases/case_words.h"
#include "cases/remark_list.h"

#include <string.h>

START_TEST(curves_have_the_librarys_names)
{
    for (int curve = RBOW_CURVE_OF_MATERIAL + 1; curve < RBOW_CURVE_COUNT; curve++) {
        const field_word *w = &curve_words[curve - 1];
        ck_assert_str_eq(w->word, rbow_curve_name((rbow_curve)curve));
        near_within(w->value, curve, 0, 0);
    }
    ck_assert_ptr_null(curve_words[RBOW_CURVE_COUNT - 1].word);
}
END_TEST

START_TEST(ends_are_words_or_stiffnesses)
{
    ck_assert_str_eq(end_word(RBOW_PINNED), "pinned");
    ck_assert_str_eq(end_word(RBOW_WELDED), "welded");
    ck_assert_str_eq(end_word(RBOW_FIXED), "fixed");
    ck_assert_str_eq(end_word(RBOW_FREE), "free");
    ck_assert_ptr_null(end_word(1));
    ck_assert_ptr_null(end_word(1e300));
}
END_TEST

START_TEST(words_stand_at_their_value)
{
    ck_assert_str_eq(verdict_words[RBOW_SHORT].word, "short");
    ck_assert_str_eq(governs_words[RBOW_BY_COLUMN].word, "column");
    ck_assert_str_eq(governs_words[RBOW_BY_NONE].word, "none");
    ck_assert_ptr_null(governs_words[RBOW_GOVERNS_COUNT].word);
    ck_assert_str_eq(bow_shape_words[RBOW_BOW_KINK].word, "kink");
}
END_TEST

/* One remark reads as the library says it, and each has its meaning. */
START_TEST(remarks_have_the_librarys_texts)
{
    char out[REMARKS_ROOM];
    for (int bit = 0; bit < RBOW_REMARK_COUNT; bit++) {
        remarks_write(out, 1U << bit);
        ck_assert_str_eq(out, rbow_remark_text(1U << bit));
        ck_assert_uint_eq(remark_list[bit].bit, 1U << bit);
        ck_assert(strlen(remark_list[bit].meaning) > 10 && strlen(remark_list[bit].sentence) > 10);
    }
}
END_TEST

START_TEST(all_remarks_fit)
{
    char out[REMARKS_ROOM + 1];
    memset(out, 'x', sizeof out);
    remarks_write(out, ~0U);
    ck_assert_uint_lt(strlen(out), REMARKS_ROOM);
    ck_assert_uint_gt(strlen(out), REMARKS_ROOM - 5);
    ck_assert_int_eq(out[REMARKS_ROOM], 'x');
    remarks_write(out, RBOW_REMARK_SLENDER | RBOW_REMARK_STIFF_ENDS);
    ck_assert_str_eq(out, "slender; stiff ends");
    remarks_write(out, 0);
    ck_assert_str_eq(out, "");
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, curves_have_the_librarys_names);
    tcase_add_test(c, ends_are_words_or_stiffnesses);
    tcase_add_test(c, words_stand_at_their_value);
    tcase_add_test(c, remarks_have_the_librarys_texts);
    tcase_add_test(c, all_remarks_fit);
}

int main(void)
{
    return run_tests("words", fill);
}
