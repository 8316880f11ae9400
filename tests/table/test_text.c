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

static void ck_lines(const char *bytes, size_t n, const char *of_lines, const char *of_one)
{
    text lines = {0}, one = {0};
    text_add(&lines, bytes, n);
    text_put(&one, "kept\x1b ");
    text_add(&one, bytes, n);
    text_make_lines_printable(&lines);
    text_make_printable(&one, 6);
    ck_assert_str_eq(lines.at, of_lines);
    ck_assert(strncmp(one.at, "kept\x1b ", 6) == 0);
    ck_assert_str_eq(one.at + 6, of_one);
    ck_assert(!lines.failed && !one.failed);
    text_free(&lines);
    text_free(&one);
}
#define LINES(bytes, of_lines, of_one) ck_lines(bytes, sizeof(bytes) - 1, of_lines, of_one)

/* What goes to a terminal keeps its line ends, a message has none. */
START_TEST(lines_stay_lines)
{
    LINES("a,b\n1,2\n", "a,b\n1,2\n", "a,b\\x0A1,2\\x0A");
    LINES("a\x1b[2J\n\r\0b\n", "a\\x1B[2J\n\\x0D\\x00b\n", "a\\x1B[2J\\x0A\\x0D\\x00b\\x0A");
    LINES("caf\xC3\xA9 \xE9\n", "caf\xC3\xA9 \\xE9\n", "caf\xC3\xA9 \\xE9\\x0A");
    LINES("plain", "plain", "plain");
    text none = {0};
    text_make_lines_printable(&none);
    ck_assert_ptr_null(none.at);
}
END_TEST

/* A part that failed takes the whole with it; one that did not leaves it. */
START_TEST(a_part_and_the_whole)
{
    text whole = {0}, part = {0}, lost = {0};
    bool is_lost = false;
    text_put(&part, "x");
    text_free_part(&part, &whole);
    ck_assert(!whole.failed && part.at == NULL);
    text_reserve(&lost, SIZE_MAX);
    ck_assert_str_eq(text_string(&lost, &is_lost), "");
    ck_assert(is_lost);
    text_free_part(&lost, &whole);
    ck_assert(whole.failed && !lost.failed);
    text_free_part(&part, &whole);
    ck_assert(whole.failed);
    text_free(&whole);
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
    tcase_add_test(cases, lines_stay_lines);
    tcase_add_test(cases, a_part_and_the_whole);
    tcase_add_test(cases, a_message_is_one_printable_line);
}

int main(void)
{
    return run_tests("table/text", fill);
}
