/* Bow shapes: values by hand at simple fractions of the length. */
#include "near.h"

#include "working/bow.h"

static rbow_member bowed(int shape, double at)
{
    rbow_member m = rbow_member_default();
    m.length = 40;
    m.bow_shape = shape;
    m.bow_at = at;
    return m;
}

static void ck_share(int shape, double at, double x, double want)
{
    const rbow_member m = bowed(shape, at);
    near_within(bow_share(&m, x), want, 0, 1e-15);
}

START_TEST(every_shape_is_0_at_the_joints_and_1_at_its_top)
{
    for (int shape = 0; shape < RBOW_BOW_SHAPE_COUNT; shape++) {
        ck_share(shape, RBOW_UNSET, 0, 0);
        ck_share(shape, RBOW_UNSET, 40, 0);
        ck_share(shape, RBOW_UNSET, 20, 1);
    }
    ck_share(RBOW_BOW_KINK, 10, 10, 1);
}
END_TEST

START_TEST(between)
{
    ck_share(RBOW_BOW_SINE, RBOW_UNSET, 10, sqrt(0.5)); /* sin 45 degrees */
    ck_share(RBOW_BOW_ARC, RBOW_UNSET, 10, 0.75);       /* 4 x 1/4 x 3/4 */
    ck_share(RBOW_BOW_KINK, RBOW_UNSET, 10, 0.5);
    ck_share(RBOW_BOW_KINK, 10, 5, 0.5);
    ck_share(RBOW_BOW_KINK, 10, 25, 0.5); /* half way from 10 to 40 */
}
END_TEST

START_TEST(no_shape_no_number)
{
    const rbow_member m = bowed(7, RBOW_UNSET);
    ck_assert(isnan(bow_share(&m, 10)));
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, every_shape_is_0_at_the_joints_and_1_at_its_top);
    tcase_add_test(c, between);
    tcase_add_test(c, no_shape_no_number);
}

int main(void)
{
    return run_tests("bow", fill);
}
