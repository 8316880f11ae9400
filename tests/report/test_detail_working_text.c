/* The text of a detail's answer and working. */
#include "detail/details.h"

#include "cases/detail/detail_sentences.h"
#include "report/text/detail_working_text.h"

#include <gsl/gsl_errno.h>
#include <string.h>

static working w;

/* The text with its line breaks and indents as blanks. */
static void joined(char *said)
{
    char *to = said;
    for (const char *from = said; *from != '\0'; from++) {
        const bool blank = *from == ' ' || *from == '\n';
        if (!blank || to == said || to[-1] != ' ') *to++ = blank ? ' ' : *from;
    }
    *to = '\0';
}

static rbow_detail_result text_of(text *out, const rbow_member *m, const rbow_detail *d, const char *name, size_t width)
{
    rbow_detail_result r;
    const screen s = {.width = width, .units = UNITS_US};
    ck_assert_int_eq(rbow_detail_check(d, m, &steel, &r), RBOW_OK);
    const rbow_member taken = detail_member_taken(m, &steel, &r);
    const detail_worked shown = {"rail", "", name, "as drilled", d, &taken, &steel, &r};
    ck_assert(detail_working_of(&w, d, &taken, &steel, &r, UNITS_US));
    detail_working_text(out, &shown, &w, &s);
    ck_assert(!out->failed);
    return r;
}

static rbow_member rail(double push)
{
    rbow_member m = tube_of(1.25, .058, 30);
    m.compression = push;
    m.bow = .03;
    m.point_load = 150;
    return m;
}

START_TEST(verdict_remarks_and_steps)
{
    for (int i = 0; i < 3; i++) {
        const rbow_member m = rail(i == 1 ? 5000 : 2500);
        const rbow_detail d = i == 2 ? detail_of(RBOW_DETAIL_RING_WELD, 30) : hole_at(10, .25, 2);
        text out = {0};
        const rbow_detail_result r = text_of(&out, &m, &d, "line hole", 100);
        for (size_t at = 0, line = 0; at < out.length; at++) {
            line = out.at[at] == '\n' ? 0 : line + 1;
            ck_assert_uint_le(line, 130); /* bytes of at most 100 columns */
        }
        joined(out.at);
        ck_assert_ptr_nonnull(strstr(out.at, r.verdict == RBOW_HOLDS ? "Detail 'line hole' of 'rail' holds." : "Detail 'line hole' of 'rail' is SHORT."));
        ck_assert_ptr_nonnull(strstr(out.at, i == 2 ? "(ring weld, at joint B): its weld tears at" : "(hole, 10 in from A): its section yields at"));
        ck_assert_ptr_nonnull(strstr(out.at, "1.50 is required: margin"));
        ck_assert_ptr_nonnull(strstr(out.at, "Note: as drilled"));
        for (int k = 0; k < RBOW_DETAIL_REMARK_COUNT; k++)
            ck_assert_int_eq(strstr(out.at, detail_remark_list[k].sentence) != NULL, (r.remarks & 1u << k) != 0);
        for (size_t k = 0; k < w.count; k++) ck_assert_ptr_nonnull(strstr(out.at, w.rows[k].step));
        working_free(&w);
        text_free(&out);
    }
}
END_TEST

START_TEST(names_are_printable)
{
    const rbow_member m = rail(1000);
    const rbow_detail d = hole_at(10, .25, 2);
    text out = {0};
    text_of(&out, &m, &d, "a\x1b[31mb", 80);
    ck_assert_ptr_null(strchr(out.at, '\x1b'));
    ck_assert_ptr_nonnull(strstr(out.at, "\\x1B"));
    working_free(&w);
    text_free(&out);
}
END_TEST

START_TEST(without_a_limit)
{
    rbow_member m = rail(0);
    m.point_load = 0;
    const rbow_detail d = hole_at(10, .25, 2);
    text out = {0};
    text_of(&out, &m, &d, "hole", 80);
    joined(out.at);
    ck_assert_ptr_nonnull(strstr(out.at, "no run load brings it to a limit."));
    working_free(&w);
    text_free(&out);
}
END_TEST

START_TEST(every_remark_has_its_words)
{
    for (int k = 0; k < RBOW_DETAIL_REMARK_COUNT; k++) ck_assert(detail_remark_list[k].sentence != NULL && *detail_remark_list[k].sentence != '\0');
    for (int k = 0; k < RBOW_DETAIL_MODE_COUNT; k++) ck_assert_ptr_nonnull(detail_limit_words[k]);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, verdict_remarks_and_steps);
    tcase_add_test(c, names_are_printable);
    tcase_add_test(c, without_a_limit);
    tcase_add_test(c, every_remark_has_its_words);
}

int main(void)
{
    return run_tests("text of details", fill);
}
