/* Published vectors: NIST, "Cryptographic Standards and Guidelines: examples with intermediate values" for FIPS 180-4 (one
 * block "abc", two blocks), and the Secure Hash Algorithm Validation System's empty message and million of "a"; from memory,
 * and each agrees with sha256sum of GNU coreutils. */
#include "program/bytes/sha256.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

/* In pieces of `piece` bytes, so that every border of a block is crossed. */
static void hashes(const char *message, size_t n, size_t piece, const char *want)
{
    char got[SHA256_DIGITS + 1];
    sha256 s;
    sha256_start(&s);
    for (size_t i = 0; i < n; i += piece) sha256_add(&s, message + i, n - i < piece ? n - i : piece);
    sha256_end(&s, got);
    ck_assert_str_eq(got, want);
}

START_TEST(published_messages)
{
    static const struct {
        const char *message, *digest;
    } known[] = {
        {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
        {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
        {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
         "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
        {"abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu",
         "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1"}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        for (size_t piece = 1; piece < 70; piece++) hashes(known[i].message, strlen(known[i].message), piece, known[i].digest);
}
END_TEST

START_TEST(a_million_letters)
{
    enum { MILLION = 1000000 };
    char *letters = malloc(MILLION);
    ck_assert_ptr_nonnull(letters);
    memset(letters, 'a', MILLION);
    hashes(letters, MILLION, 1001, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    free(letters);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("program/sha256");
    TCase *cases = tcase_create("all");
    tcase_add_test(cases, published_messages);
    tcase_add_test(cases, a_million_letters);
    suite_add_tcase(s, cases);
    SRunner *runner = srunner_create(s);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed > 0;
}
