#include "report/page/rail_drawing.h"

#include "report/chart/chart.h"
#include "report/page/parts.h"

#include <math.h>

enum { PLANE_UP, PLANE_RIGHT };

typedef struct view { /* one plane of the rail on the drawing */
    text *out;
    const picture *p;
    int plane;
    double left, width, middle, high; /* high: half of it, for what is exaggerated */
    double along, across;            /* drawing units an inch */
    unit_system units;
    bool second; /* of two on the drawing */
} view;

static const double *sideways(const picture_state *s, int plane)
{
    return plane == PLANE_UP ? s->up : s->right;
}

static double view_x(const view *v, double at)
{
    return v->left + v->along * at;
}

static double view_y(const view *v, double offset)
{
    return v->middle - v->across * offset;
}

/* From tail to tip, with a filled head. */
static void arrow(text *out, double x1, double y1, double x2, double y2)
{
    const double length = hypot(x2 - x1, y2 - y1);
    if (!(length > 0)) return;
    const double ux = (x2 - x1) / length, uy = (y2 - y1) / length, bx = x2 - 7 * ux, by = y2 - 7 * uy;
    text_format(out, "<path d=\"M%.2f %.2fL%.2f %.2f\" class=\"plain\"/><path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fZ\" class=\"head\"/>\n",
                x1, y1, bx, by, x2, y2, bx - 3 * uy, by + 3 * ux, bx + 3 * uy, by - 3 * ux);
}

static void curve(const view *v, const double offsets[], const char *style)
{
    double x[PICTURE_STATIONS], y[PICTURE_STATIONS];
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        x[i] = view_x(v, v->p->at[i]);
        y[i] = view_y(v, offsets[i]);
    }
    chart_path(v->out, x, y, PICTURE_STATIONS, style);
}

static void value_words(const view *v, double x, double y, const char *anchor, const char *name, double own, dimension d)
{
    text words = {0};
    text_put(&words, name);
    page_value(&words, own, d, v->units, 4);
    chart_words(v->out, x, y, anchor, "", page_said(&words));
    text_free_part(&words, v->out);
}

static void put_push(const view *v)
{
    const double push = v->p->compression, x = view_x(v, v->p->length), y = v->middle;
    if (!(fabs(push) > 0)) return;
    const double away = push > 0 ? 30 : 8, tip = push > 0 ? 8 : 30;
    arrow(v->out, v->left - away, y, v->left - tip, y);
    arrow(v->out, x + away, y, x + tip, y);
    if (!v->second) value_words(v, FIGURE_WIDTH - 4, y + 34, "end", "", fabs(push), DIM_FORCE);
}

static void put_point(const view *v)
{
    const double load = v->p->point[v->plane], x = view_x(v, v->p->point_at), toward = load > 0 ? 1 : -1;
    if (!(fabs(load) > 0)) return;
    arrow(v->out, x, v->middle + toward * (v->high + 26), x, v->middle + toward * (v->high - 2));
    value_words(v, x + 6, v->middle + toward * (v->high + 18) + 4, "start", "", fabs(load), DIM_FORCE);
}

static void put_spread(const view *v)
{
    const double load = v->p->spread[v->plane], toward = load > 0 ? 1 : -1;
    if (!(fabs(load) > 0)) return;
    const double tail = v->middle + toward * (v->high + 14), tip = v->middle + toward * (v->high + 1);
    for (int i = 0; i <= 8; i++) {
        const double x = v->left + v->width * i / 8;
        arrow(v->out, x, tail, x, tip);
    }
    text_format(v->out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"plain\"/>\n", v->left, tail, v->left + v->width, tail);
    value_words(v, v->left + 0.06 * v->width, toward > 0 ? tail + 13 : tail - 5, "start", "", fabs(load), DIM_FORCE_PER_LENGTH);
}

/* Where a straight bar in the socket would go. */
static void put_miss(const view *v, double miss, bool from_a)
{
    const double x[] = {view_x(v, from_a ? 0 : v->p->length), view_x(v, from_a ? v->p->length : 0)};
    const double y[] = {v->middle, view_y(v, miss)};
    if (!(fabs(miss) > 0)) return;
    chart_path(v->out, x, y, 2, "limit");
    text_format(v->out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"mark\"/>\n", x[1], v->middle, x[1], y[1]);
    text words = {0};
    text_put(&words, from_a ? "A misses by " : "B misses by ");
    page_value(&words, fabs(miss), DIM_LENGTH, v->units, 4);
    chart_words(v->out, from_a ? x[1] - 6 : x[1] + 6, v->middle + (miss > 0 ? -0.3 * v->high : 0.3 * v->high + 9), from_a ? "end" : "start", "red", page_said(&words));
    text_free_part(&words, v->out);
}

static void put_joint(const view *v, double x, const char *name, bool left, bool free)
{
    const double y = v->middle;
    if (!free) text_format(v->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"5\" class=\"ring\"/>\n", x, y);
    chart_words(v->out, left ? x - 9 : x + 9, y + 18, left ? "end" : "start", "bold", name);
}

static void put_zones(const view *v)
{
    const picture *p = v->p;
    const double from[] = {0, p->weld_ends[1]}, to[] = {p->weld_ends[0], p->length};
    for (int end = 0; end < 2; end++)
        if (isfinite(from[end]) && isfinite(to[end]))
            text_format(v->out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"zone\"/>\n", view_x(v, from[end]),
                        v->middle, view_x(v, to[end]), v->middle);
}

static void put_view(const view *v)
{
    const picture *p = v->p;
    const double line[] = {v->left, v->left + v->width}, level[] = {v->middle, v->middle};
    chart_words(v->out, 0, v->middle - v->high - 44, "start", "name",
                v->plane == PLANE_UP ? "from the side (up is up)" : "from below (up is right)");
    put_zones(v);
    chart_path(v->out, line, level, 2, "dashed");
    put_miss(v, p->miss_a[v->plane], true);
    put_miss(v, p->miss_b[v->plane], false);
    curve(v, p->bow[v->plane], "dotted");
    curve(v, sideways(&p->states[PICTURE_LOADED], v->plane), "strong");
    put_push(v);
    put_point(v);
    put_spread(v);
    put_joint(v, v->left, "A", true, false);
    put_joint(v, v->left + v->width, "B", false, p->free_b);
}

static double largest_offset(const picture *p, int plane)
{
    double most = fmax(fabs(p->miss_a[plane]), fabs(p->miss_b[plane]));
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        const double loaded = sideways(&p->states[PICTURE_LOADED], plane)[i];
        most = fmax(most, fabs(p->bow[plane][i]));
        if (isfinite(loaded)) most = fmax(most, fabs(loaded));
    }
    return most;
}

static bool acts_in(const picture *p, int plane)
{
    return largest_offset(p, plane) > 1e-9 * p->length || fabs(p->point[plane]) > 0 || fabs(p->spread[plane]) > 0
        || fabs(p->moment_a[plane]) > 0 || fabs(p->moment_b[plane]) > 0;
}

/* Two digits are enough. */
static void put_times(text *out, double times)
{
    const double ten = pow(10, fmax(0, floor(log10(times)) - 1));
    text_format(out, times < 10 ? "%.1f" : "%.0f", round(times / ten * 10) / 10 * ten);
}

static void put_end(text *out, const char *joint, const char *word)
{
    text_format(out, "%s is %s", joint, word != NULL ? word : "held by a stiffness");
}

static void rail_caption(text *out, const picture *p, double exaggerated, unit_system units)
{
    text_put(out, "<figcaption>");
    if (exaggerated > 0) {
        text_put(out, "Sideways ");
        put_times(out, exaggerated);
        text_put(out, " times exaggerated. ");
    }
    text_put(out, "Dotted: the tube’s own shape, unloaded");
    if (p->bow_size > 0) {
        text_put(out, ", bowed by ");
        page_value(out, p->bow_size, DIM_LENGTH, units, 4);
    }
    text_put(out, isfinite(p->states[PICTURE_LOADED].up[0]) ? "; thick: welded in, as loaded. " : "; as loaded it finds no equilibrium. ");
    put_end(out, "Joint A", p->end_a);
    put_end(out, ", joint B", p->end_b);
    text_char(out, '.');
    if (fabs(p->gap) > 0) {
        text_put(out, p->gap > 0 ? " The tube was too short by " : " The tube was too long by ");
        page_value(out, fabs(p->gap), DIM_LENGTH, units, 4);
        text_put(out, p->gap > 0 ? " and was pulled." : " and was squeezed.");
    }
    if (fabs(p->torque) > 0) {
        text_put(out, " It is twisted by ");
        page_value(out, fabs(p->torque), DIM_MOMENT, units, 4);
        text_char(out, '.');
    }
    if (p->eccentricity > 0) {
        text_put(out, " The push acts ");
        page_value(out, p->eccentricity, DIM_LENGTH, units, 4);
        text_put(out, " beside the axis.");
    }
    text_put(out, "</figcaption></figure>\n");
}

void page_rail_drawing(text *out, const picture *p, unit_system units)
{
    const bool up = acts_in(p, PLANE_UP), right = acts_in(p, PLANE_RIGHT), both = up && right;
    const double most = fmax(largest_offset(p, PLANE_UP), largest_offset(p, PLANE_RIGHT)), width = FIGURE_WIDTH - 96, high = 36;
    view v = {.out = out, .p = p, .left = 44, .width = width, .high = high, .along = width / p->length, .units = units};
    v.across = most > 0 ? fmax(high / most, 0) : v.along;
    v.middle = 96;
    text_put(out, "<figure><h3>The rail and its loads</h3>");
    chart_open(out, FIGURE_WIDTH, both ? 360 : 180, "The rail from joint A to joint B with its loads, bow and misses", "");
    v.plane = right && !up ? PLANE_RIGHT : PLANE_UP;
    put_view(&v);
    if (both) {
        v.plane = PLANE_RIGHT;
        v.second = true;
        v.middle = 276;
        put_view(&v);
    }
    chart_close(out);
    rail_caption(out, p, most > 0 ? v.across / v.along : 0, units);
}
