#include "report/page/detail/sn_chart.h"

#include "report/chart/stops.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>
#include <stdio.h>

/* The chart's axes are powers of ten: log10 of cycles, and of stress in the unit shown. */
typedef struct bounds {
    double x_low, x_high, y_low, y_high;
} bounds;

static double height_of(double stress, unit_system units)
{
    return log10(shown(stress, DIM_STRESS, units));
}

static void widen(bounds *b, double stress, double cycles, unit_system units)
{
    if (!(stress > 0 && isfinite(stress))) return;
    page_stretch(height_of(stress, units), &b->y_low, &b->y_high);
    if (cycles > 0 && isfinite(cycles)) page_stretch(log10(cycles), &b->x_low, &b->x_high);
}

/* The stress, psi, at which the curve gives so many cycles, or below which it has no end. Bisection between 1e-3 and 1e9 psi. */
static double stress_at(const rbow_sn_curve *c, double cycles)
{
    double low = -3, high = 9;
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2, stress = pow(10, middle);
        double found;
        if (rbow_sn_cycles(c, stress, stress, 0, &found) != RBOW_OK) return NAN;
        if (found > cycles) low = middle;
        else high = middle;
    }
    return pow(10, high);
}

/* Whole decades with room round the points, four of them at least; the knee where it is near. Then the curve fits in. */
static bounds bounds_of(const rbow_sn_curve *c, const sn_point *points, size_t count, unit_system units)
{
    bounds b = {INFINITY, -INFINITY, INFINITY, -INFINITY};
    for (size_t i = 0; i < count; i++) {
        widen(&b, points[i].stress, points[i].cycles, units);
        if (points[i].forced) widen(&b, points[i].stress_unforced, points[i].cycles_unforced, units);
    }
    if (!(b.x_high >= b.x_low)) b.x_low = b.x_high = 6;
    if (!(b.y_high >= b.y_low)) b.y_low = b.y_high = 4;
    if (c->kind == RBOW_SN_WELD && c->knee_cycles > 0) b.x_high = fmax(b.x_high, fmin(log10(c->knee_cycles), b.x_high + 2));
    b.x_low = floor(b.x_low - 0.5);
    b.x_high = ceil(fmax(b.x_high + 0.5, b.x_low + 4));
    page_stretch(height_of(stress_at(c, pow(10, b.x_low)), units), &b.y_low, &b.y_high);
    page_stretch(height_of(stress_at(c, pow(10, b.x_high)), units), &b.y_low, &b.y_high);
    b.y_low -= 0.1;
    b.y_high += 0.05;
    return b;
}

/* ---- axes ------------------------------------------------------------------------------------------------- */

static void power_words(char words[16], int power)
{
    static const char *const raised[] = {"\u2070", "\u00b9", "\u00b2", "\u00b3", "\u2074", "\u2075", "\u2076", "\u2077", "\u2078", "\u2079"};
    const int n = power < 0 ? -power : power;
    snprintf(words, 16, "10%s%s%s", power < 0 ? "\u207b" : "", n >= 10 ? raised[n / 10 % 10] : "", raised[n % 10]);
}

static void axis_x(const chart *c)
{
    for (int power = (int)ceil(c->x_low); power <= (int)floor(c->x_high); power++) {
        char words[16];
        power_words(words, power);
        chart_upright(c, power, "grid");
        chart_words(c->out, chart_x(c, power), c->top + c->height + 15, "middle", "tick", words);
    }
    chart_words(c->out, c->left + c->width, c->top + c->height + 30, "end", "name", "cycles to a crack");
}

static void axis_y(const chart *c, const char *name)
{
    static const int steps[] = {1, 2, 5};
    for (int power = (int)floor(c->y_low); power <= (int)floor(c->y_high); power++)
        for (int i = 0; i < 3; i++) {
            const double value = steps[i] * pow(10, power), at = log10(value);
            const double x[] = {c->x_low, c->x_high}, y[] = {at, at};
            char words[CHART_TICK_ROOM];
            if (at < c->y_low || at > c->y_high) continue;
            chart_tick_words(words, value, power < 0 ? -power : 0);
            chart_line(c, x, y, 2, "grid");
            chart_words(c->out, c->left - 5, chart_y(c, at) + 4, "end", "tick", words);
        }
    chart_words(c->out, 0, c->top - 9, "start", "name", name);
}

/* ---- the curve -------------------------------------------------------------------------------------------- */

/* Where it has an end of life; without one it breaks off, and a level line goes on to the right. */
static void draw_curve(const chart *c, const rbow_sn_curve *curve, unit_system units)
{
    enum { SAMPLES = 120 };
    double x[SAMPLES], y[SAMPLES];
    size_t count = 0;
    bool ends = false;
    for (int i = 0; i < SAMPLES && !ends; i++) { /* from above down */
        y[count] = c->y_high - (c->y_high - c->y_low) * i / (SAMPLES - 1);
        const double stress = pow(10, y[count]) / shown(1, DIM_STRESS, units);
        double cycles;
        if (rbow_sn_cycles(curve, stress, stress, 0, &cycles) != RBOW_OK) return;
        ends = isinf(cycles);
        if (!ends) x[count++] = log10(cycles);
    }
    chart_line(c, x, y, count, "strong");
    if (!ends || count == 0 || x[count - 1] >= c->x_high) return;
    const double level_x[] = {x[count - 1], c->x_high}, level_y[] = {y[count - 1], y[count - 1]};
    chart_line(c, level_x, level_y, 2, "dashed");
}

static const char *name_of_knee(const rbow_sn_curve *curve)
{
    return curve->kind == RBOW_SN_WELD && curve->knee_cycles > 0 ? "knee" : NULL;
}

static void draw_knee(const chart *c, const rbow_sn_curve *curve)
{
    const char *name = name_of_knee(curve);
    const double x = name != NULL ? log10(curve->knee_cycles) : (double)NAN;
    if (!(x > c->x_low && x < c->x_high)) return;
    chart_upright(c, x, "dashed");
    chart_words(c->out, chart_x(c, x) - 4, c->top + 11, "end", "quiet", name);
}

/* ---- points ----------------------------------------------------------------------------------------------- */

/* What has no end stands at the right border. */
static double place_of(const chart *c, double cycles)
{
    return isinf(cycles) ? c->x_high : log10(cycles);
}

typedef struct point_names {
    char words[CHART_NAMES_MOST][28];
    chart_name names[CHART_NAMES_MOST];
    size_t count;
} point_names;

static void add_name(point_names *n, double x, double y, const char *form, size_t number, const char *style)
{
    if (n->count >= CHART_NAMES_MOST) return;
    snprintf(n->words[n->count], sizeof n->words[0], "%s%zu%s", form, number, *form == '(' ? ")" : "");
    n->names[n->count] = (chart_name){x, y, n->words[n->count], style};
    n->count++;
}

static bool is_drawn(double stress, double cycles)
{
    return stress > 0 && isfinite(stress) && !isnan(cycles);
}

static void draw_points(const chart *c, const sn_point *points, size_t count, unit_system units)
{
    point_names names = {.count = 0};
    for (size_t i = 0; i < count; i++) { /* rings, larger, under the full points */
        const sn_point *p = &points[i];
        if (!p->forced || !is_drawn(p->stress_unforced, p->cycles_unforced)) continue;
        text_format(c->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"7\" class=\"ring\"/>\n", chart_x(c, place_of(c, p->cycles_unforced)),
                    chart_y(c, height_of(p->stress_unforced, units)));
    }
    for (size_t i = 0; i < count; i++) {
        const sn_point *p = &points[i];
        if (!is_drawn(p->stress, p->cycles)) continue;
        const double x = place_of(c, p->cycles), y = height_of(p->stress, units);
        chart_point(c, x, y, "dot");
        add_name(&names, x, y, "", p->number, "halo bold");
    }
    for (size_t i = 0; i < count; i++) { /* named after the points: they come first */
        const sn_point *p = &points[i];
        if (!p->forced || !is_drawn(p->stress_unforced, p->cycles_unforced)) continue;
        add_name(&names, place_of(c, p->cycles_unforced), height_of(p->stress_unforced, units), "(", p->number, "halo quiet");
    }
    chart_names(c, names.names, names.count);
}

static void put_stop(const chart *c, const char *what, const sn_point *p, double stress, double cycles, size_t i, unit_system units)
{
    text words = {0};
    if (!is_drawn(stress, cycles)) return;
    text_format(&words, "%zu%s\n%.4g %s\n", p->number, what, shown(stress, DIM_STRESS, units), unit_name(DIM_STRESS, units));
    if (isinf(cycles)) text_put(&words, "no end");
    else text_format(&words, "%.3g cycles", cycles);
    chart_stop(c, place_of(c, cycles), height_of(stress, units), page_said(&words), i < CHART_TABS_MOST);
    text_free_part(&words, c->out);
}

/* The Tab key reaches the first points; the table has all. */
static void put_stops(const chart *c, const sn_point *points, size_t count, unit_system units)
{
    for (size_t i = 0; i < count; i++)
        if (points[i].forced) put_stop(c, ", without the forced fit", &points[i], points[i].stress_unforced, points[i].cycles_unforced, i, units);
    for (size_t i = 0; i < count; i++) put_stop(c, "", &points[i], points[i].stress, points[i].cycles, i, units);
}

void sn_chart(text *out, const rbow_sn_curve *curve, const sn_point *points, size_t count, unit_system units)
{
    const bounds b = bounds_of(curve, points, count, units);
    const chart c = {.out = out, .left = 52, .top = 26, .width = FIGURE_WIDTH - 52 - 12, .height = SN_CHART_HIGH - 26 - 36,
                     .x_low = b.x_low, .x_high = b.x_high, .y_low = b.y_low, .y_high = b.y_high};
    text name = {0};
    text_format(&name, curve->kind == RBOW_SN_WELD ? "range of stress, %s" : "equivalent stress S_eq, %s", unit_name(DIM_STRESS, units));
    axis_x(&c);
    axis_y(&c, page_said(&name));
    draw_knee(&c, curve);
    draw_curve(&c, curve, units);
    draw_points(&c, points, count, units);
    put_stops(&c, points, count, units);
    text_free_part(&name, out);
}
