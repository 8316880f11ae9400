#include "report/page/clock_drawing.h"

#include "report/chart/chart.h"
#include "report/page/joint_symbols.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

enum { DIRECTIONS_MOST = 8, LINE = 19, RADIUS = 52 };

typedef struct direction {
    const char *name;
    double value, clock, taken; /* taken: where the clock was not given; NaN without one */
    dimension dimension;
} direction;

static const double degree = 3.14159265358979323846 / 180;

static bool is_any(const direction *d)
{
    return d->clock <= RBOW_ANY_CLOCK;
}

static size_t directions_of(const check_row *r, direction list[DIRECTIONS_MOST])
{
    const rbow_member *m = &r->given.member;
    const rbow_result *t = &r->result;
    const direction all[DIRECTIONS_MOST] = {
        {"bow", m->bow, m->bow_clock, t->bow_clock_taken, DIM_LENGTH},
        {"miss_a", m->miss_a, m->miss_a_clock, t->miss_a_clock_taken, DIM_LENGTH},
        {"miss_b", m->miss_b, m->miss_b_clock, t->miss_b_clock_taken, DIM_LENGTH},
        {"eccentricity", m->eccentricity, m->eccentricity_clock, t->eccentricity_clock_taken, DIM_LENGTH},
        {"point_load", m->point_load, m->point_clock, NAN, DIM_FORCE},
        {"spread_load", m->spread_load, m->spread_clock, NAN, DIM_FORCE_PER_LENGTH},
        {"moment_a", m->moment_a, m->moment_clock, NAN, DIM_MOMENT},
        {"moment_b", m->moment_b, m->moment_clock, NAN, DIM_MOMENT},
    };
    size_t count = 0;
    for (size_t i = 0; i < DIRECTIONS_MOST; i++)
        if (fabs(all[i].value) > 0) list[count++] = all[i];
    return count;
}

static void put_face(text *out, double x, double y)
{
    static const char *const names[] = {"0", "90", "180", "270"};
    text_format(out, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"%d\" class=\"axis\"/><circle cx=\"%.1f\" cy=\"%.1f\" r=\"13\" class=\"end-face\"/>\n", x, y, (int)RADIUS, x, y);
    for (int i = 0; i < 12; i++) {
        const double c = 30 * i * degree, in = i % 3 == 0 ? RADIUS - 6 : RADIUS - 3;
        text_format(out, "<path d=\"M%.1f %.1fL%.1f %.1f\" class=\"axis\"/>", x + in * sin(c), y - in * cos(c), x + RADIUS * sin(c), y - RADIUS * cos(c));
        if (i % 3 == 0) chart_words(out, x + (RADIUS + 14) * sin(c), y - (RADIUS + 11) * cos(c) + 4.5, "middle", "tick", names[i / 3]);
    }
}

static void put_line(text *out, const direction *d, size_t number, double x, double y, unit_system units)
{
    text words = {0};
    text_format(&words, "%zu  %s ", number, d->name);
    put_value(&words, d->value, d->dimension, units);
    chart_words(out, x, y, "start", "bold", page_said(&words));
    text_clear(&words);
    if (!is_any(d)) text_format(&words, "toward %.6g°", d->clock / degree + 0.0);
    else if (isnan(d->taken)) text_put(&words, "clock not given");
    else text_format(&words, "clock not given; worst %.1f°", d->taken / degree + 0.0);
    chart_words(out, x + 14, y + LINE - 3, "start", "", page_said(&words));
    text_free_part(&words, out);
}

static double pointing(const direction *d)
{
    return is_any(d) ? d->taken : d->clock;
}

/* Angle between two directions, 0 ... 180 degrees; NaN where one points nowhere. */
static double apart(const direction *a, const direction *b)
{
    return fabs(remainder(pointing(a) - pointing(b), 360 * degree)) / degree;
}

/* One arrow for all that point the same way, with their numbers beside it; near arrows have theirs at other distances. */
static void put_arrow(text *out, const direction list[], size_t count, size_t i, double x, double y)
{
    const double clock = pointing(&list[i]), across = clock + 90 * degree;
    size_t near = 0, same = 0;
    text numbers = {0};
    for (size_t k = 0; k < i; k++) {
        if (apart(&list[k], &list[i]) < 0.5) return; /* drawn with that one */
        near += apart(&list[k], &list[i]) < 50;
    }
    for (size_t k = i; k < count; k++)
        if (apart(&list[k], &list[i]) < 0.5) text_format(&numbers, "%s%zu", same++ > 0 ? "," : "", k + 1);
    const double away = near % 2 == 0 ? 40 : 21, side = 7 + 3.5 * (double)(2 * same - 1);
    drawn_arrow(out, x + 13 * sin(clock), y - 13 * cos(clock), x + (RADIUS - 4) * sin(clock), y - (RADIUS - 4) * cos(clock));
    chart_words(out, x + away * sin(clock) + side * sin(across), y - away * cos(clock) - side * cos(across) + 4.5, "middle", "bold halo", page_said(&numbers));
    text_free_part(&numbers, out);
}

void page_clock_drawing(text *out, const check_row *r, unit_system units)
{
    direction list[DIRECTIONS_MOST];
    const size_t count = directions_of(r, list);
    if (count == 0) return;
    const double rows = 2 * LINE * (double)count, high = fmax(2 * RADIUS + 44, rows + 16), x = RADIUS + 26, y = RADIUS + 22;
    text_put(out, "<figure><h3>Clock, seen from A toward B</h3>");
    chart_open(out, FIGURE_WIDTH, high, "Where bow, misses and loads point, with their values as given", "");
    put_face(out, x, y);
    for (size_t i = 0; i < count; i++)
        if (!isnan(pointing(&list[i]))) put_arrow(out, list, count, i, x, y);
    for (size_t i = 0; i < count; i++) put_line(out, &list[i], i + 1, 2 * RADIUS + 66, 18 + 2 * LINE * (double)i, units);
    chart_close(out);
    text_put(out, "</figure>\n");
}
