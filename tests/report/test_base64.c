/* Base64: the test vectors of RFC 4648, section 10, and bytes of every value. */
#include "report/live/base64.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

START_TEST(test_vectors_of_the_standard)
{
    static const char *const vectors[][2] = {{"", ""}, {"f", "Zg=="}, {"fo", "Zm8="}, {"foo", "Zm9v"}, {"foob", "Zm9vYg=="},
                                             {"fooba", "Zm9vYmE="}, {"foobar", "Zm9vYmFy"}};
    for (size_t i = 0; i < sizeof vectors / sizeof *vectors; i++) {
        text t = {0};
        text_put(&t, "<");
        base64_put(&t, vectors[i][0], strlen(vectors[i][0]));
        ck_assert(!t.failed);
        ck_assert_str_eq(t.at + 1, vectors[i][1]);
        ck_assert_uint_eq(t.length, 1 + strlen(vectors[i][1]));
        text_free(&t);
    }
}
END_TEST

/* 0xFB 0xEF 0xBE are four times 62, and 0xFF 0xFF 0xFF four times 63: section 4, table 1. */
START_TEST(test_high_bytes)
{
    static const unsigned char bytes[] = {0xFB, 0xEF, 0xBE, 0xFF, 0xFF, 0xFF, 0x00};
    text t = {0};
    base64_put(&t, bytes, sizeof bytes);
    ck_assert_str_eq(t.at, "++++////AA==");
    text_free(&t);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("base64");
    TCase *c = tcase_create("base64");
    tcase_add_test(c, test_vectors_of_the_standard);
    tcase_add_test(c, test_high_bytes);
    suite_add_tcase(suite, c);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
