/* Closeness, in the order that makes NaN fail, and the frame of a Check program. */
#ifndef TESTS_NEAR_H
#define TESTS_NEAR_H

#include <check.h>
#include <math.h>
#include <stdlib.h>

#define near_within(got, want, rel, abs_)                                                                      \
    do {                                                                                                       \
        const double got_ = (got), want_ = (want);                                                             \
        ck_assert_msg(fabs(got_ - want_) <= (rel) * fabs(want_) + (abs_), "%s = %.15g, want %.15g (%s:%d)",    \
                      #got, got_, want_, __FILE__, __LINE__);                                                  \
    } while (0)

static inline int run_tests(const char *name, void (*fill)(TCase *))
{
    Suite *suite = suite_create(name);
    TCase *cases = tcase_create(name);
    tcase_set_timeout(cases, 300);
    fill(cases);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
