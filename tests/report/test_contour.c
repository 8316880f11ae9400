/* Values over two others: expected geometry by hand. */
#include "near.h"

#include "report/chart/contour.h"

#include <stdio.h>
#include <string.h>

static size_t times(const char *in, const char *what)
{
    size_t n = 0;
    for (const char *at = in; (at = strstr(at, what)) != NULL; at += strlen(what)) n++;
    return n;
}

typedef struct grid {
    const double *values; /* rows of columns */
    size_t columns;
} grid;

static double place_on_axis(const void *context, size_t i)
{
    (void)context;
    return (double)i;
}

static double value_on_grid(const void *context, size_t column, size_t line)
{
    const grid *g = context;
    return g->values[line * g->columns + column];
}

/* One unit is 10 on the drawing, whose plot begins at 0, 0 above left; row 0 is at its foot. */
static chart_field field_of(chart *c, text *out, const grid *g, size_t lines)
{
    *c = (chart){.out = out, .width = 10 * (double)(g->columns - 1), .height = 10 * (double)(lines - 1),
                 .x_high = (double)(g->columns - 1), .y_high = (double)(lines - 1)};
    return (chart_field){g->columns, lines, place_on_axis, place_on_axis, value_on_grid, g};
}

START_TEST(a_contour_of_a_plane)
{
    /* value = x, 0 ... 2 over two cells beside each other: the level 0.25 is upright at x = 2.5, from 0 to 10 */
    text t = {0};
    chart c;
    const grid g = {(const double[]){0, 1, 2, 0, 1, 2}, 3};
    const chart_field f = field_of(&c, &t, &g, 2);
    double length = 0, top = INFINITY, foot = -(double)INFINITY;
    ck_assert(chart_contour(&c, &f, 0.25, "s"));
    for (const char *at = t.at; (at = strchr(at, 'M')) != NULL; at++) {
        double x1, y1, x2, y2;
        ck_assert_int_eq(sscanf(at, "M%lf %lfL%lf %lf", &x1, &y1, &x2, &y2), 4);
        near_within(x1, 2.5, 0, 1e-9);
        near_within(x2, 2.5, 0, 1e-9);
        length += fabs(y2 - y1);
        top = fmin(top, fmin(y1, y2));
        foot = fmax(foot, fmax(y1, y2));
    }
    near_within(length, 10, 0, 1e-9);
    near_within(top, 0, 0, 1e-9);
    near_within(foot, 10, 0, 1e-9);
    text_clear(&t);
    ck_assert(!chart_contour(&c, &f, -1, "s"));
    ck_assert(!chart_contour(&c, &f, 0, "s")); /* nothing is under it */
    ck_assert(!chart_contour(&c, &f, 3, "s"));
    ck_assert_uint_eq(t.length, 0);
    text_free(&t);
}
END_TEST

/* The area of the closed pieces of a path, by the shoelace rule, and the box around it. */
static double area_of(const char *path, double box[4])
{
    double area = 0, first_x = 0, first_y = 0, x = 0, y = 0, next_x, next_y;
    int used;
    for (const char *at = strchr(path, '"') + 1; *at != '"';) {
        if (*at == 'Z') {
            area += (x * first_y - first_x * y) / 2;
            at++;
            continue;
        }
        ck_assert_int_eq(sscanf(at + 1, "%lf %lf%n", &next_x, &next_y, &used), 2);
        if (*at == 'M')
            first_x = next_x, first_y = next_y;
        else
            area += (x * next_y - next_x * y) / 2;
        x = next_x;
        y = next_y;
        box[0] = fmin(box[0], x), box[1] = fmin(box[1], y), box[2] = fmax(box[2], x), box[3] = fmax(box[3], y);
        at += 1 + used;
    }
    return fabs(area);
}

static double band_area(const chart *c, const chart_field *f, double low, double high, double box[4])
{
    text_clear(c->out);
    box[0] = box[1] = INFINITY, box[2] = box[3] = -INFINITY;
    chart_band(c, f, low, high, "s");
    return c->out->length > 0 ? area_of(c->out->at, box) : 0;
}

START_TEST(bands_of_a_plane)
{
    /* value = x: a band is an upright strip */
    text t = {0};
    chart c;
    double box[4];
    const grid g = {(const double[]){0, 1, 2, 0, 1, 2}, 3};
    const chart_field f = field_of(&c, &t, &g, 2);
    near_within(band_area(&c, &f, 0.5, 1.75, box), 12.5 * 10, 0, 1e-9);
    near_within(box[0], 5, 0, 1e-9);
    near_within(box[2], 17.5, 0, 1e-9);
    near_within(box[1], 0, 0, 1e-9);
    near_within(box[3], 10, 0, 1e-9);
    near_within(band_area(&c, &f, -(double)INFINITY, 0.5, box), 50, 0, 1e-9);
    near_within(band_area(&c, &f, 1.5, INFINITY, box), 50, 0, 1e-9);
    near_within(band_area(&c, &f, 5, INFINITY, box), 0, 0, 0);
    /* whole cells beside each other are one piece */
    near_within(band_area(&c, &f, -(double)INFINITY, INFINITY, box), 200, 0, 1e-9);
    ck_assert_str_eq(t.at, "<path d=\"M0.00 10.00L20.00 10.00L20.00 0.00L0.00 0.00Z\" class=\"s\"/>\n");
    text_free(&t);
}
END_TEST

START_TEST(bands_share_out_a_saddle)
{
    /* corners 1 and -1 crosswise, 0 in the middle: each half is two of the cell's quarters, cut by the diagonals'
     * lines to the middles of the sides: half of the cell */
    text t = {0};
    chart c;
    double box[4];
    const grid g = {(const double[]){1, -1, -1, 1}, 2};
    const chart_field f = field_of(&c, &t, &g, 2);
    near_within(band_area(&c, &f, 0, INFINITY, box), 50, 0, 1e-9);
    near_within(band_area(&c, &f, -(double)INFINITY, 0, box), 50, 0, 1e-9);
    /* along a side beside a high corner the value is 1 - x/5, up to the diagonal: over 0.5 is a square of 2.5 at each */
    near_within(band_area(&c, &f, 0.5, INFINITY, box), 2 * 2.5 * 2.5, 0, 1e-9);
    text_free(&t);
}
END_TEST

START_TEST(what_is_not_known_is_not_drawn)
{
    text t = {0};
    chart c;
    double box[4];
    const grid g = {(const double[]){0, 1, 2, 3, (double)NAN, 1, 2, 3}, 4};
    const chart_field f = field_of(&c, &t, &g, 2);
    near_within(band_area(&c, &f, -(double)INFINITY, INFINITY, box), 200, 0, 1e-9); /* two of three cells */
    near_within(box[0], 10, 0, 1e-9);
    text_clear(&t);
    ck_assert(!chart_contour(&c, &f, 0.5, "s"));
    chart_hatch(&c, &f, 0.9, "s"); /* only the unknown cell is under it */
    ck_assert_uint_eq(t.length, 0);
    text_free(&t);
}
END_TEST

START_TEST(strokes_end_on_the_level)
{
    /* value = x over 200 x 100, 100 units wide: what is under 1 is the left half */
    text t = {0};
    chart c = {.out = &t, .width = 200, .height = 100, .x_high = 2, .y_high = 1};
    const grid g = {(const double[]){0, 1, 2, 0, 1, 2}, 3};
    const chart_field f = {3, 2, place_on_axis, place_on_axis, value_on_grid, &g};
    chart_hatch(&c, &f, 1.005, "s");
    size_t strokes = 0;
    for (const char *at = t.at; (at = strchr(at, 'M')) != NULL; at++, strokes++) {
        double x1, y1, x2, y2;
        ck_assert_int_eq(sscanf(at, "M%lf %lfL%lf %lf", &x1, &y1, &x2, &y2), 4);
        near_within(x1 + y1, x2 + y2, 0, 0.11); /* slanting */
        ck_assert(x1 >= 0 && x2 <= 100.55 && y1 <= 100.05 && y2 >= -0.05);
        /* it goes on to a border or to the level; a step is one unit */
        ck_assert(fabs(x2 - 100.5) < 0.06 || y2 < 1.05);
        ck_assert(x1 < 1.05 || y1 > 98.95);
    }
    ck_assert_uint_eq(strokes, 28); /* sums of 7, 14 ... 196: those under 200.5 */
    text_free(&t);
}
END_TEST

START_TEST(a_level_is_named_on_its_line_once_there_is_room)
{
    text t = {0};
    chart c = {.out = &t, .width = 200, .height = 100, .x_high = 2, .y_high = 1};
    const grid g = {(const double[]){0, 1, 2, 0, 1, 2}, 3};
    const chart_field f = {3, 2, place_on_axis, place_on_axis, value_on_grid, &g};
    chart_taken taken = {0};
    chart_contour_name(&c, &f, 0.5, "0.5", "s", &taken);
    ck_assert_uint_eq(taken.count, 1);
    near_within(taken.x[0], 50, 0, 1e-9);
    chart_contour_name(&c, &f, 0.5, "0.5", "s", &taken); /* another piece of the same line, further down or up */
    for (size_t i = 0; i < 9; i++) chart_contour_name(&c, &f, 0.5, "0.5", "s", &taken);
    ck_assert_uint_eq(times(t.at, "<text"), taken.count);
    for (size_t i = 0; i < taken.count; i++)
        for (size_t k = 0; k < i; k++) ck_assert(fabs(taken.y[i] - taken.y[k]) > 16);
    text_clear(&t);
    chart_contour_name(&c, &f, 0.02, "0.02", "s", &taken); /* too near the border */
    chart_contour_name(&c, &f, 9, "9", "s", &taken);
    ck_assert_uint_eq(t.length, 0);
    text_free(&t);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, a_contour_of_a_plane);
    tcase_add_test(c, bands_of_a_plane);
    tcase_add_test(c, bands_share_out_a_saddle);
    tcase_add_test(c, what_is_not_known_is_not_drawn);
    tcase_add_test(c, strokes_end_on_the_level);
    tcase_add_test(c, a_level_is_named_on_its_line_once_there_is_room);
}

int main(void)
{
    return run_tests("contour", fill);
}
