#include "report/chart/polar.h"

#include "report/chart/stops.h"

#include <math.h>

static const double full_circle = 2 * 3.14159265358979323846;

static double radius_of(const chart_polar *p, double value)
{
    const double share = (value - p->low) / (p->high - p->low);
    return p->radius * fmin(fmax(share, 0), 1);
}

void chart_polar_place(const chart_polar *p, double clock, double value, double *x, double *y)
{
    const double radius = radius_of(p, value);
    *x = p->x + radius * sin(clock);
    *y = p->y - radius * cos(clock);
}

static void circle(const chart_polar *p, double x, double y, double radius, const char *style)
{
    text_format(p->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%.2f\" class=\"%s\"/>\n", x, y, radius, style);
}

void chart_polar_ring(const chart_polar *p, double value, const char *style)
{
    if (value > p->low && value <= p->high) circle(p, p->x, p->y, radius_of(p, value), style);
}

void chart_polar_point(const chart_polar *p, double clock, double value, const char *style)
{
    double x, y;
    if (isnan(clock) || isnan(value)) return;
    chart_polar_place(p, clock, value, &x, &y);
    circle(p, x, y, 4, style);
}

void chart_polar_stop(const chart_polar *p, double clock, double value, const char *words, bool tab)
{
    double x, y;
    chart_polar_place(p, clock, value, &x, &y);
    chart_stop_round(p->out, x, y, 8, words, tab);
}

static void put_degrees(const chart_polar *p)
{
    static const char *const words[] = {"0°", "90°", "180°", "270°"};
    static const char *const anchors[] = {"middle", "start", "middle", "end"};
    const double away = p->radius + 5;
    const double at[][2] = {{0, -away}, {away, -5}, {0, away + 9}, {-away, -5}};
    for (int i = 0; i < 4; i++) chart_words(p->out, p->x + at[i][0], p->y + at[i][1], anchors[i], "tick", words[i]);
}

/* Words of rings that lie close would stand on each other: that of 0 stays, and those far enough from it and from the one before. */
static bool has_words(const chart_polar *p, double value, double before)
{
    const double apart = 21;
    if (!(fabs(value) > 0)) return true;
    const bool zero = p->low < 0 && p->high >= 0;
    return radius_of(p, value) - before >= apart && !(zero && fabs(radius_of(p, value) - radius_of(p, 0)) < apart);
}

void chart_polar_axes(const chart_polar *p)
{
    const chart_ticks t = chart_ticks_in(p->low, p->high, 5);
    for (int i = 0; i < 12; i++) {
        double x, y;
        chart_polar_place(p, full_circle * i / 12, p->high, &x, &y);
        text_format(p->out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"grid\"/>\n", p->x, p->y, x, y);
    }
    for (size_t i = 0; i < t.count; i++) chart_polar_ring(p, t.at[i], "grid");
    circle(p, p->x, p->y, p->radius, "axis");
    put_degrees(p);
    double before = -INFINITY;
    for (size_t i = 0; i < t.count; i++) {
        char words[CHART_TICK_ROOM];
        double x, y;
        if (!(t.at[i] > p->low) || !has_words(p, t.at[i], before)) continue;
        before = radius_of(p, t.at[i]);
        chart_polar_place(p, full_circle / 8, t.at[i], &x, &y);
        chart_tick_words(words, t.at[i], t.decimals);
        chart_words(p->out, x, y + 4, "middle", "tick halo", words);
    }
}

void chart_polar_line(const chart_polar *p, const double values[], size_t count, const char *style)
{
    bool begun = false, down = false, whole = true;
    for (size_t i = 0; i <= count; i++) {
        const size_t k = i % count;
        double x, y;
        if (isnan(values[k])) {
            down = whole = false;
            continue;
        }
        chart_polar_place(p, full_circle * (double)k / (double)count, values[k], &x, &y);
        if (!begun) text_put(p->out, "<path d=\"");
        if (i == count && whole)
            text_char(p->out, 'Z');
        else
            text_format(p->out, "%c%.2f %.2f", down ? 'L' : 'M', x, y);
        begun = down = true;
    }
    if (begun) text_format(p->out, "\" class=\"%s\"/>\n", style);
}
