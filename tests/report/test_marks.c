/* Marks of details along a tube: places, numbers, and the list of their names. */
#include "near.h"

#include "report/chart/marks.h"
#include "report/page/tube_marks.h"

#include <stdio.h>
#include <string.h>

enum { MANY = 60 };

/* The x of the n-th element that begins so. */
static double x_of(const char *svg, const char *begin, const char *format, int n)
{
    double x = NAN;
    for (const char *at = svg; n >= 0 && (at = strstr(at, begin)) != NULL; at++, n--)
        if (n == 0) ck_assert_int_eq(sscanf(at, format, &x), 1);
    return x;
}

START_TEST(marks_stand_at_their_places)
{
    const chart_mark marks[] = {{30, "end", true}, {0, "start", false}, {12, "<hole>", true}, {12.1, "beside", true}};
    text out = {0};
    chart_marks(&out, marks, 4, 40, 300, 30, 50);
    static const double at[] = {0, 12, 12.1, 30}; /* in the order of their places */
    double last = -INFINITY;
    for (int i = 0; i < 4; i++) {
        near_within(x_of(out.at, "<path d=\"M", "<path d=\"M%lf", i), 40 + 10 * at[i], 0, .01);
        const double number = x_of(out.at, "<text x=\"", "<text x=\"%lf", i);
        ck_assert(number >= last + 14.9 && number >= 40 && number <= 340);
        last = number;
    }
    ck_assert_ptr_nonnull(strstr(out.at, "dot-red"));
    text_free(&out);
}
END_TEST

START_TEST(names_in_a_list)
{
    static chart_mark marks[MANY];
    text out = {0};
    chart_mark_list(&out, marks, 0);
    ck_assert_uint_eq(out.length, 0);
    marks[0] = (chart_mark){1, "<hole>", true};
    marks[1] = (chart_mark){2, "splice", false};
    chart_mark_list(&out, marks, 2);
    ck_assert_str_eq(out.at, "Details: 1 &lt;hole&gt;, 2 splice (short).");
    text_free(&out);
    for (int i = 0; i < MANY; i++) marks[i] = (chart_mark){i, "x", true};
    text more = {0};
    chart_mark_list(&more, marks, MANY);
    ck_assert_ptr_nonnull(strstr(more.at, " and 20 more."));
    chart_marks(&more, marks, MANY, 0, 100, MANY, 10);
    ck_assert(!more.failed);
    text_free(&more);
}
END_TEST

START_TEST(marks_of_a_picture)
{
    static picture p;
    const picture_mark marks[] = {{15, "splice", true}};
    text out = {0};
    p.length = 30;
    page_marks(&out, &p, 40, 300, 50);
    page_mark_list(&out, &p);
    ck_assert_uint_eq(out.length, 0);
    p.marks = marks;
    p.mark_count = 1;
    page_marks(&out, &p, 40, 300, 50);
    near_within(x_of(out.at, "<path d=\"M", "<path d=\"M%lf", 0), 190, 0, .01);
    page_mark_list(&out, &p);
    ck_assert_ptr_nonnull(strstr(out.at, " Details: 1 splice."));
    text_free(&out);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, marks_of_a_picture);
    tcase_add_test(c, marks_stand_at_their_places);
    tcase_add_test(c, names_in_a_list);
}

int main(void)
{
    return run_tests("marks along a tube", fill);
}
