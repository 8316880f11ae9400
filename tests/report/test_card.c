/* The card of a case: with its working, and with the sentence that it is missing where a step of it did not converge. */
#include "near.h"

#include "cases/case_table.h"
#include "report/page/card.h"
#include "working/working.h"

#include <gsl/gsl_errno.h>
#include <string.h>

static const char missing[] = "The working is missing here: the numerical solution of one of its steps did not converge.";

/* Round numbers, no table's. */
static const rbow_material steel = {
    .name = "steel", .wall_up_to = 0.12, .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 75e3,
    .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
    .source = "",
};

static check_row row(void)
{
    check_row r = {.given = {.name = "rail", .material = "steel", .part = "", .note = ""}, .material = &steel, .governs = "yield", .remarks = ""};
    rbow_member m = rbow_member_default();
    m.od = 1.25;
    m.wall = 0.058;
    m.length = 36;
    m.compression = 4000;
    m.bow = 0.03;
    ck_assert_int_eq(rbow_member_check(&m, &steel, &r.result), RBOW_OK);
    r.tube = r.result;
    r.given.member = m;
    r.taken = rbow_member_taken(&m, &r.result);
    return r;
}

/* Given: worked  with its working */
static text card_of(const check_row *r, bool worked)
{
    static working w;
    static picture p;
    text out = {0};
    const page_head head = {.title = "cards", .units = UNITS_US};
    w = (working){.count = 0};
    ck_assert(working_of(&w, &r->taken, r->material, &r->tube, UNITS_US));
    picture_of(&p, &r->taken, r->material, &r->tube);
    page_card(&out, &head, r, 3, &p, worked ? &w : NULL);
    working_free(&w);
    ck_assert(!out.failed);
    return out;
}

START_TEST(a_working_that_is_missing)
{
    const check_row r = row();
    text with = card_of(&r, true), without = card_of(&r, false);
    ck_assert_ptr_nonnull(strstr(with.at, "<summary>The working"));
    ck_assert_ptr_null(strstr(with.at, missing));
    ck_assert_ptr_null(strstr(without.at, "<summary>The working"));
    ck_assert_ptr_nonnull(strstr(without.at, missing));
    ck_assert_ptr_nonnull(strstr(without.at, "<section class=\"card\" id=\"case-3\">"));
    /* all that stands before the working is the same */
    const size_t before = (size_t)(strstr(with.at, "<details>") - with.at);
    ck_assert_int_eq(strncmp(with.at, without.at, before), 0);
    text_free(&with);
    text_free(&without);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, a_working_that_is_missing);
}

int main(void)
{
    return run_tests("card of a case", fill);
}
