/* Which row of a list serves a wall. */
#include "near.h"

#include <railbow/material.h>

static const rbow_material list[] = {
    {.name = "4130", .wall_over = -INFINITY, .wall_up_to = 0.187, .yield = 75e3},
    {.name = "4130-125", .wall_over = -INFINITY, .wall_up_to = INFINITY, .yield = 100e3},
    {.name = "4130", .wall_over = 0.187, .wall_up_to = 0.5, .yield = 70e3},
    {.name = "4130", .wall_over = 0, .wall_up_to = 1, .yield = 1}, /* shadowed up to 0.5 */
};
enum { COUNT = sizeof list / sizeof *list };

static void finds(const char *name, double wall, int want_row, int want_known)
{
    int known = 2;
    const rbow_material *found = rbow_material_find(list, COUNT, name, wall, &known);
    ck_assert_msg(known == want_known, "%s, %g: known %d", name, wall, known);
    if (want_row < 0)
        ck_assert_msg(found == NULL, "%s, %g", name, wall);
    else
        ck_assert_msg(found == &list[want_row], "%s, %g", name, wall);
}

START_TEST(the_row_that_serves_a_wall)
{
    finds("4130", 0.049, 0, 1);
    finds("4130", 0.187, 0, 1); /* up to: the border belongs to the thinner row */
    finds("4130", nextafter(0.187, 1), 0, 1); /* a last bit, from a change of units, is no other wall */
    finds("4130", 0.187 * (1 + 1e-9), 2, 1);
    finds("4130", 0.5, 2, 1);
    finds("4130", nextafter(0.5, 1), 2, 1);
    finds("4130", 0.5 * (1 + 1e-9), 3, 1); /* the first row that serves */
    finds("4130-125", 3, 1, 1);
    finds("4130-125", 1e-9, 1, 1);
}
END_TEST

START_TEST(no_row)
{
    finds("4130", 1.5, -1, 1); /* known, but not for this wall */
    finds("4130", NAN, -1, 1);
    finds("4140", 0.1, -1, 0);
    finds("", 0.1, -1, 0);
    finds("4130-1", 0.1, -1, 0);   /* not a beginning */
    finds("4130-125 ", 0.1, -1, 0); /* not more */
    int known = 2;
    ck_assert_ptr_null(rbow_material_find(list, 0, "4130", 0.1, &known));
    ck_assert_int_eq(known, 0);
    ck_assert_ptr_null(rbow_material_find(&(rbow_material){.name = "Aa", .wall_up_to = 1}, 1, "aA", 0.5, &known));
    ck_assert_int_eq(known, 0); /* case matters */
}
END_TEST

/* A range begins above its lower border, even where no other row serves the border itself. */
START_TEST(the_lower_border_is_not_served)
{
    const rbow_material one = {.name = "a", .wall_over = 0.187, .wall_up_to = INFINITY};
    int known;
    ck_assert_ptr_null(rbow_material_find(&one, 1, "a", 0.187, &known));
    ck_assert_ptr_eq(rbow_material_find(&one, 1, "a", 0.188, &known), &one);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, the_lower_border_is_not_served);
    tcase_add_test(cases, the_row_that_serves_a_wall);
    tcase_add_test(cases, no_row);
}

int main(void)
{
    return run_tests("mechanics/material", fill);
}
