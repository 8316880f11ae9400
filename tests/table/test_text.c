#include "near.h"
#include "table/messages.h"
#include "table/text.h"

#include <stdint.h>
#include <string.h>

START_TEST(a_text_grows)
{
    text t = {0};
    ck_assert_ptr_null(t.at);
    text_put(&t, "");
    ck_assert_str_eq(t.at, "");
    for (int i = 0; i < 1000; i++) {
        text_char(&t, 'a');
        text_put(&t, "bc");
        text_add(&t, "defg", 2);
        text_format(&t, "%d-%s", 7, "x");
    }
    ck_assert_uint_eq(t.length, 8000);
    ck_assert_uint_eq(strlen(t.at), 8000);
    ck_assert_mem_eq(t.at + 7992, "abcde7-x", 9);
    text_clear(&t);
    ck_assert_str_eq(t.at, "");
    ck_assert_uint_eq(t.length, 0);
    text_free(&t);
    ck_assert_ptr_null(t.at);
}
END_TEST

START_TEST(room_is_reserved)
{
    text t = {0};
    memset(text_reserve(&t, 500), 'x', 501); /* the NUL has its room too */
    ck_assert_uint_eq(t.length, 0);
    t.length = 500;
    text_char(&t, '!');
    ck_assert_str_eq(t.at + 499, "x!");
    text_free(&t);
}
END_TEST

START_TEST(too_much_fails_and_stays_failed)
{
    text t = {0};
    text_put(&t, "kept");
    ck_assert_ptr_null(text_reserve(&t, SIZE_MAX));
    ck_assert(t.failed);
    ck_assert_ptr_null(text_reserve(&t, 1));
    text_put(&t, "lost");
    text_format(&t, "%d", 1);
    ck_assert_str_eq(t.at, "kept");
    text_clear(&t);
    ck_assert(t.failed);
    text_free(&t);
    ck_assert(!t.failed);
}
END_TEST

static void quotes(const char *bytes, size_t n, const char *want)
{
    text t = {0};
    text_quote(&t, bytes, n);
    ck_assert_str_eq(t.at, want);
    text_free(&t);
}
#define QUOTES(bytes, want) quotes(bytes, sizeof(bytes) - 1, want)

START_TEST(what_a_user_wrote_is_shown_safely)
{
    QUOTES("", "''");
    QUOTES("plain text", "'plain text'");
    QUOTES("a\tb\r\n\x1b[31m\x7f\0z", "'a\\x09b\\x0D\\x0A\\x1B[31m\\x7F\\x00z'");
    QUOTES("caf\xC3\xA9 \xE2\x88\x92 \xF0\x9F\x94\xA7", "'caf\xC3\xA9 \xE2\x88\x92 \xF0\x9F\x94\xA7'");
    QUOTES("caf\xE9", "'caf\\xE9'");
    QUOTES("\xC2\x9B", "'\\u009B'");           /* a C1 control */
    QUOTES("a\xE2\x80\xAE" "b\xE2\x81\xA6", "'a\\u202Eb\\u2066'"); /* turn the order of what follows */
    QUOTES("\xC2\xAD\xE2\x80\x8B\xE2\x80\xA8\xEF\xBB\xBF", "'\\u00AD\\u200B\\u2028\\uFEFF'"); /* are not seen */
    QUOTES("\xF3\xA0\x81\x81", "'\\U000E0041'");
    QUOTES("\xC0\xAF", "'\\xC0\\xAF'");                   /* overlong */
    QUOTES("\xE0\x9F\xBF", "'\\xE0\\x9F\\xBF'");          /* overlong */
    QUOTES("\xF0\x8F\xBF\xBF", "'\\xF0\\x8F\\xBF\\xBF'"); /* overlong */
    QUOTES("\xED\xA0\x80", "'\\xED\\xA0\\x80'");          /* a surrogate */
    QUOTES("\xF4\x90\x80\x80", "'\\xF4\\x90\\x80\\x80'"); /* above U+10FFFF */
    QUOTES("\xED\x9F\xBF\xF4\x8F\xBF\xBF", "'\xED\x9F\xBF\xF4\x8F\xBF\xBF'");
    QUOTES("\xE2\x88", "'\\xE2\\x88'"); /* cut off */
    QUOTES("\xE2\x88x", "'\\xE2\\x88x'");
    QUOTES("\x80", "'\\x80'");
    QUOTES("1234567890123456789012345678901234567890", "'1234567890123456789012345678901234567890'");
    QUOTES("12345678901234567890123456789012345678901", "'1234567890123456789012345678901234567890'...");
}
END_TEST

START_TEST(a_message_is_one_printable_line)
{
    text t = {0};
    message_add(&t, "f.csv", 12, "length", "is %d", 3);
    message_add(&t, "f.csv", 0, NULL, "has %s", "nothing");
    message_add(&t, "evil\n\x1b.csv", 1, NULL, "caf\xC3\xA9 %s", "\xE9\n");
    ck_assert_str_eq(t.at, "f.csv:12: length: is 3\n"
                           "f.csv: has nothing\n"
                           "evil\\x0A\\x1B.csv:1: caf\xC3\xA9 \\xE9\\x0A\n");
    text_free(&t);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_text_grows);
    tcase_add_test(cases, room_is_reserved);
    tcase_add_test(cases, too_much_fails_and_stays_failed);
    tcase_add_test(cases, what_a_user_wrote_is_shown_safely);
    tcase_add_test(cases, a_message_is_one_printable_line);
}

int main(void)
{
    return run_tests("table/text", fill);
}
