/* Every status has its text and the input at fault; every remark its words. */
#include "near.h"

#include <railbow/member.h>

#include <string.h>

#define ONE(name, value, input, text) {name, value, input, text},
static const struct {
    rbow_status status;
    int value;
    const char *input, *text;
} all[] = {RBOW_STATUS_LIST(ONE)};
enum { COUNT = sizeof all / sizeof *all };

START_TEST(every_status_has_its_text)
{
    for (int i = 0; i < COUNT; i++) {
        ck_assert_int_eq((int)all[i].status, all[i].value);
        ck_assert_str_eq(rbow_status_text(all[i].status), all[i].text);
        ck_assert_str_eq(rbow_status_input(all[i].status), all[i].input);
        ck_assert_uint_gt(strlen(all[i].text), 0);
        for (int k = 0; k < i; k++) {
            ck_assert_int_ne(all[i].value, all[k].value);
            ck_assert_str_ne(all[i].text, all[k].input);
        }
    }
}
END_TEST

START_TEST(unknown_statuses)
{
    static const int unknown[] = {1, 2, 99, -7, -9, -99, -1000, 2147483647, -2147483647};
    for (size_t i = 0; i < sizeof unknown / sizeof *unknown; i++) {
        rbow_status status = RBOW_OK;
        memcpy(&status, &unknown[i], sizeof status);
        ck_assert_str_eq(rbow_status_text(status), "unknown status");
        ck_assert_str_eq(rbow_status_input(status), "");
    }
}
END_TEST

START_TEST(remarks_in_their_order)
{
    static const char *const words[RBOW_REMARK_COUNT] = {
        "unstable as loaded",     "built-in state takes a set", "slender",
        "short tube",             "thin wall",                  "stiff ends",
        "weld zone taken as 1 in", "no bow given",              "is the size right?",
        "no effect: eccentricity", "no effect: moment_a",       "no effect: moment_b",
        "no effect: point_load",  "no effect: gap_stiffness",   "no effect: dressed",
    };
    for (unsigned i = 0; i < RBOW_REMARK_COUNT; i++) ck_assert_str_eq(rbow_remark_text(1U << i), words[i]);
    ck_assert_ptr_null(rbow_remark_text(1U << RBOW_REMARK_COUNT));
    ck_assert_ptr_null(rbow_remark_text(0));
    ck_assert_ptr_null(rbow_remark_text(3)); /* two at once */
    ck_assert_ptr_null(rbow_remark_text(~0U));
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, every_status_has_its_text);
    tcase_add_test(cases, unknown_statuses);
    tcase_add_test(cases, remarks_in_their_order);
}

int main(void)
{
    return run_tests("mechanics/status", fill);
}
