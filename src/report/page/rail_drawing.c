#include "report/page/rail_drawing.h"

#include "report/chart/chart.h"
#include "report/page/joint_symbols.h"
#include "report/page/parts.h"
#include "report/page/pin.h"
#include "report/page/tube_marks.h"
#include "report/values.h"

#include <math.h>

enum { PLANE_UP, PLANE_RIGHT };
enum { LEFT = 58, WIDTH = FIGURE_WIDTH - 2 * LEFT, BEND = 24 /* of the largest bend, as drawn */, GHOST = 30, ROW = 15 /* of words */ };

typedef struct view { /* one plane of the tube on the drawing */
    text *out;
    const picture *p;
    int plane;
    double top, middle, bottom; /* of the view, and where its straight axis lies */
    double along, across; /* drawing units an inch: along the tube, and of its bend */
    double half;          /* of the tube's depth */
    unit_system units;
    bool second;          /* of two on the drawing */
} view;

static const double *sideways(const picture_state *s, int plane)
{
    return plane == PLANE_UP ? s->up : s->right;
}

static double view_x(const view *v, double at)
{
    return LEFT + v->along * at;
}

static double view_y(const view *v, double offset)
{
    return v->middle - v->across * offset;
}

static void words_at(const view *v, double x, double y, const char *anchor, const char *style, const text *words)
{
    chart_words(v->out, x, y, anchor, style, page_said(words));
}

static void value_words(const view *v, double x, double y, const char *anchor, const char *name, double own, dimension d)
{
    text words = {0};
    text_put(&words, name);
    page_value(&words, own, d, v->units, 4);
    words_at(v, x, y, anchor, "halo", &words);
    text_free_part(&words, v->out);
}

/* ---- the tube ---------------------------------------------------------------------------------------------- */

/* The axis moved sideways by half the depth, there and back: the band between the tube's two lines. */
static void put_band(const view *v, const double offsets[], const char *style)
{
    if (!isfinite(offsets[0])) return;
    text_put(v->out, "<path d=\"");
    for (int edge = 0; edge < 2; edge++)
        for (size_t k = 0; k < PICTURE_STATIONS; k += 2) {
            const size_t i = edge == 0 ? k : PICTURE_STATIONS - 1 - k;
            text_format(v->out, "%c%.1f %.1f", edge == 0 && k == 0 ? 'M' : 'L', view_x(v, v->p->at[i]),
                        view_y(v, offsets[i]) + (edge == 0 ? -v->half : v->half));
        }
    text_format(v->out, "Z\" class=\"%s\"/>\n", style);
}

static void put_axis_line(const view *v, const double offsets[], const char *style)
{
    double x[PICTURE_STATIONS / 2 + 1], y[PICTURE_STATIONS / 2 + 1];
    for (size_t i = 0; i < PICTURE_STATIONS / 2 + 1; i++) {
        x[i] = view_x(v, v->p->at[2 * i]);
        y[i] = view_y(v, offsets[2 * i]);
    }
    chart_path(v->out, x, y, PICTURE_STATIONS / 2 + 1, style);
}

static void put_zones(const view *v)
{
    const picture *p = v->p;
    const double from[] = {0, p->weld_ends[1]}, to[] = {p->weld_ends[0], p->length};
    for (int end = 0; end < 2; end++)
        if (isfinite(from[end]) && isfinite(to[end]))
            text_format(v->out, "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" class=\"weld-zone\"/>\n", view_x(v, from[end]),
                        v->middle - v->half, v->along * (to[end] - from[end]), 2 * v->half);
}

/* Rows of words above and below the axis, from the load's arrows outward; with the row of the straight bar's words or without. */
static bool any_toward(const double values[], size_t count, double sign)
{
    for (size_t i = 0; i < count; i++)
        if (sign * values[i] > 0) return true;
    return false;
}

static double above(const view *v, bool ghost)
{
    const double point = -v->p->point[v->plane], spread = -v->p->spread[v->plane], misses[] = {v->p->miss_a[v->plane], v->p->miss_b[v->plane]};
    const double arrows = point > 0 ? 48 + 14 : spread > 0 ? 48 : 34;
    return arrows + (ghost && any_toward(misses, 2, 1) ? ROW : 0);
}

static double below(const view *v, bool ghost)
{
    const double point = v->p->point[v->plane], spread = v->p->spread[v->plane], misses[] = {v->p->miss_a[v->plane], v->p->miss_b[v->plane]};
    const double arrows = point > 0 ? 58 + 14 : spread > 0 ? 58 : 44;
    return arrows + (ghost && any_toward(misses, 2, -1) ? ROW : 0);
}

/* The straight bar in the socket of one joint: it passes the other by the miss. Its slope is not to scale. */
static void put_ghost(const view *v, double miss, bool from_a)
{
    if (!(fabs(miss) > 0)) return;
    const double near = view_x(v, from_a ? 0 : v->p->length), far = view_x(v, from_a ? v->p->length : 0), toward = miss > 0 ? -1 : 1;
    const double landing = v->middle + toward * GHOST, h = v->half;
    text words = {0};
    text_format(v->out, "<path d=\"M%.2f %.2fL%.2f %.2fV%.2fL%.2f %.2fZ\" class=\"ghost\"/>"
                        "<path d=\"M%.2f %.2fV%.2f\" class=\"mark\"/>\n", near, v->middle - h, far, landing - h, landing + h, near, v->middle + h,
                far, v->middle, landing);
    text_put(&words, from_a ? "A’s bar misses B by " : "B’s bar misses A by ");
    put_length(&words, fabs(miss), v->units, ROUND_NEAREST);
    words_at(v, from_a ? FIGURE_WIDTH - 4 : 4, v->middle + (toward < 0 ? -above(v, true) : below(v, true)), from_a ? "end" : "start", "red halo",
             &words);
    text_free_part(&words, v->out);
}

/* ---- loads -------------------------------------------------------------------------------------------------- */

/* Outside the joints' signs; beside the axis where the push is eccentric in this plane. */
static void put_push(const view *v)
{
    const double push = v->p->compression, x = view_x(v, v->p->length), beside = v->p->eccentric[v->plane];
    if (!(fabs(push) > 0)) return;
    const double y = v->middle - (beside > 0 ? 11 : beside < 0 ? -11 : 0), near = JOINT_DEEP + 2, far = LEFT - 2;
    drawn_arrow(v->out, LEFT - (push > 0 ? far : near), y, LEFT - (push > 0 ? near : far), y);
    drawn_arrow(v->out, x + (push > 0 ? far : near), y, x + (push > 0 ? near : far), y);
    if (fabs(beside) > 0) {
        text_format(v->out, "<path d=\"M%d %.2fV%.2f\" class=\"mark\"/>\n", LEFT - JOINT_DEEP - 8, v->middle, y);
        value_words(v, 4, v->middle + 40, "start", "off axis ", fabs(beside), DIM_LENGTH);
    }
    if (!v->second) value_words(v, FIGURE_WIDTH - 4, v->middle + 40, "end", push > 0 ? "push " : "pull ", fabs(push), DIM_FORCE);
}

static void put_point(const view *v)
{
    const double load = v->p->point[v->plane], x = view_x(v, v->p->point_at), from = load > 0 ? 1 : -1;
    if (!(fabs(load) > 0)) return;
    drawn_arrow(v->out, x, v->middle + from * 60, x, v->middle + from * (BEND + 4));
    value_words(v, x + 6, v->middle + (from > 0 ? below(v, false) : -above(v, false)), "start", "", fabs(load), DIM_FORCE);
}

static void put_spread(const view *v)
{
    const double load = v->p->spread[v->plane], from = load > 0 ? 1 : -1;
    if (!(fabs(load) > 0)) return;
    const double tail = v->middle + from * (BEND + 18), tip = v->middle + from * (BEND + 5);
    for (int i = 0; i <= 8; i++) {
        const double x = LEFT + (double)WIDTH * i / 8;
        drawn_arrow(v->out, x, tail, x, tip);
    }
    text_format(v->out, "<path d=\"M%d %.2fh%d\" class=\"plain\"/>\n", LEFT, tail, WIDTH);
    value_words(v, LEFT, from > 0 ? tail + 14 : tail - 5, "start", "", fabs(load), DIM_FORCE_PER_LENGTH);
}

/* A moment that makes the tube convex upward on the paper turns A against the clock and B with it. */
static void put_moments(const view *v)
{
    const double moments[] = {v->p->moment_a[v->plane], v->p->moment_b[v->plane]};
    for (int end = 0; end < 2; end++) {
        const double turn = (end == 0 ? -1 : 1) * moments[end], x = end == 0 ? LEFT : LEFT + WIDTH;
        if (!(fabs(turn) > 0)) continue;
        turning_arrow(v->out, x, v->middle, 22, turn > 0 ? 1 : -1, end == 0 ? 1 : -1);
        value_words(v, end == 0 ? 4 : FIGURE_WIDTH - 4, v->middle - 30, end == 0 ? "start" : "end", "", fabs(turn), DIM_MOMENT);
    }
}

/* A turn about the tube's own axis, drawn as a loop round it. */
static void put_torque(const view *v)
{
    const double x = LEFT + 0.42 * WIDTH, deep = v->half + 9;
    if (!(fabs(v->p->torque) > 0) || v->second) return;
    text_format(v->out, "<path d=\"M%.2f %.2fA6 %.2f 0 1 1 %.2f %.2f\" class=\"plain\"/>", x - 3, v->middle + deep, deep, x + 3, v->middle + deep);
    drawn_arrow(v->out, x + 5, v->middle + deep - 8, x + 2, v->middle + deep + 2);
    value_words(v, x + 12, v->middle + v->half + 22, "start", "torque ", fabs(v->p->torque), DIM_MOMENT);
}

/* ---- the place that governs --------------------------------------------------------------------------------- */

/* Where the axis is drawn there: as loaded, where it finds equilibrium. */
static double axis_at(const view *v, double at)
{
    const double *offsets = sideways(&v->p->states[PICTURE_LOADED], v->plane);
    size_t i = 1;
    while (i + 1 < PICTURE_STATIONS && v->p->at[i] < at) i++;
    const double before = v->p->at[i - 1], step = v->p->at[i] - before, share = step > 0 ? fmin(fmax((at - before) / step, 0), 1) : 0;
    const double offset = (1 - share) * offsets[i - 1] + share * offsets[i];
    return isfinite(offset) ? view_y(v, offset) : v->middle;
}

static bool has_pin_words(const picture *p)
{
    return p->governs != NULL;
}

/* The pin hangs from the tube, so that it stands clear of the numbers of details; a line leads to its words in a row of their own. */
static void put_pin(const view *v)
{
    const picture *p = v->p;
    if (!has_pin_words(p) || v->second) return;
    text words = {0};
    page_pin_words(&words, p->governs, p->governs_at, p->length, v->units);
    const bool somewhere = !isnan(p->governs_at);
    const double half = 0.5 * chart_text_width(page_said(&words)), row = v->middle + below(v, true) + ROW;
    const double x = somewhere ? view_x(v, p->governs_at) : LEFT + WIDTH / 2, y = somewhere ? axis_at(v, p->governs_at) : 0;
    if (somewhere) {
        text_format(v->out, "<path d=\"M%.2f %.2fV%.2f\" class=\"leader\"/>", x, y, row - 11);
        page_pin(v->out, x, y, 1);
    }
    words_at(v, fmin(fmax(x, half), FIGURE_WIDTH - half), row, "middle", "halo", &words);
    text_free_part(&words, v->out);
}

/* ---- scale and view ----------------------------------------------------------------------------------------- */

/* The largest round length that is drawn no longer than BEND. */
static double round_bend(const view *v)
{
    const double most = shown(BEND / v->across, DIM_LENGTH, v->units), ten = pow(10, floor(log10(most)));
    return unit_to_own(unit_shown(DIM_LENGTH, v->units), (most >= 5 * ten ? 5 : most >= 2 * ten ? 2 : 1) * ten);
}

static void put_bend_scale(const view *v)
{
    if (!(v->across > 0)) return;
    const double bend = round_bend(v), high = v->across * bend, x = LEFT, y = v->bottom - 6;
    text words = {0};
    text_format(v->out, "<path d=\"M%.2f %.2fh8m-4 0v%.2fm-4 0h8\" class=\"plain\"/>\n", x, y, -high);
    page_value(&words, bend, DIM_LENGTH, v->units, 3);
    text_put(&words, " of bend");
    words_at(v, x + 13, y, "start", "tick", &words);
    text_free_part(&words, v->out);
}

static void put_joint(const view *v, bool is_a)
{
    const joint_kind kind = joint_kind_of(is_a ? v->p->end_a : v->p->end_b);
    const double x = is_a ? LEFT : LEFT + WIDTH, side = is_a ? -1 : 1;
    joint_symbol(v->out, kind, x, v->middle, side, 2 * v->half);
    chart_words(v->out, x + 24 * side, v->middle + 24, is_a ? "end" : "start", "bold halo", is_a ? "A" : "B");
}

static void put_view(const view *v)
{
    const picture *p = v->p;
    const double line[] = {LEFT, LEFT + WIDTH}, level[] = {v->middle, v->middle};
    chart_words(v->out, 0, v->top + 13, "start", "name", v->plane == PLANE_UP ? "from the side (up is up)" : "from below (up is right)");
    put_ghost(v, p->miss_a[v->plane], true);
    put_ghost(v, p->miss_b[v->plane], false);
    put_band(v, sideways(&p->states[PICTURE_LOADED], v->plane), "tube");
    put_zones(v);
    chart_path(v->out, line, level, 2, "dashed");
    put_axis_line(v, p->bow[v->plane], "dotted");
    put_axis_line(v, sideways(&p->states[PICTURE_LOCKED_IN], v->plane), "plain");
    put_axis_line(v, sideways(&p->states[PICTURE_LOADED], v->plane), "strong");
    put_joint(v, true);
    put_joint(v, false);
    put_pin(v);
    put_push(v);
    put_spread(v);
    put_point(v);
    put_moments(v);
    put_torque(v);
    put_bend_scale(v);
    if (!v->second) page_marks(v->out, p, LEFT, WIDTH, v->middle);
}

static double largest_bend(const picture *p, int plane)
{
    double most = 0;
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        const double bends[] = {p->bow[plane][i], sideways(&p->states[PICTURE_LOCKED_IN], plane)[i], sideways(&p->states[PICTURE_LOADED], plane)[i]};
        for (size_t k = 0; k < 3; k++)
            if (isfinite(bends[k])) most = fmax(most, fabs(bends[k]));
    }
    return most;
}

static bool acts_in(const picture *p, int plane)
{
    return largest_bend(p, plane) > 1e-9 * p->length || fabs(p->point[plane]) > 0 || fabs(p->spread[plane]) > 0
        || fabs(p->moment_a[plane]) > 0 || fabs(p->moment_b[plane]) > 0 || fabs(p->miss_a[plane]) > 0 || fabs(p->miss_b[plane]) > 0
        || fabs(p->eccentric[plane]) > 1e-9 * p->length;
}

static void rail_caption(text *out, const picture *p, bool bends, unit_system units)
{
    text_put(out, "<figcaption>");
    if (bends) text_put(out, "Lines of the axis: dotted, the tube’s own shape; thin, welded in with no run load; thick, as loaded. ");
    if (!isfinite(p->states[PICTURE_LOADED].up[0])) text_put(out, "As loaded it finds no equilibrium. ");
    text_format(out, "Joint A is %s, joint B %s.", joint_words(joint_kind_of(p->end_a)), joint_words(joint_kind_of(p->end_b)));
    if (p->miss_a[0] > 0 || p->miss_a[0] < 0 || p->miss_b[0] > 0 || p->miss_b[0] < 0 || fabs(p->miss_a[1]) + fabs(p->miss_b[1]) > 0)
        text_put(out, " Dashed: the straight bar before it is forced; its slope is not to scale.");
    if (fabs(p->gap) > 0) {
        text_put(out, p->gap > 0 ? " The tube was too short by " : " The tube was too long by ");
        page_value(out, fabs(p->gap), DIM_LENGTH, units, 4);
        text_put(out, p->gap > 0 ? " and was pulled." : " and was squeezed.");
    }
    page_mark_list(out, p);
    text_put(out, "</figcaption></figure>\n");
}

/* A view under what is drawn already. */
static void place_view(view *v, int plane)
{
    v->plane = plane;
    v->top = v->bottom;
    v->middle = v->top + 2 * ROW + above(v, true);
    v->bottom = v->middle + below(v, true) + (has_pin_words(v->p) && !v->second ? 3 : 2) * ROW + 4;
}

void page_rail_drawing(text *out, const picture *p, double od, unit_system units)
{
    const bool up = acts_in(p, PLANE_UP), right = acts_in(p, PLANE_RIGHT), both = up && right;
    const double most = fmax(largest_bend(p, PLANE_UP), largest_bend(p, PLANE_RIGHT));
    view v = {.out = out, .p = p, .along = WIDTH / p->length, .units = units};
    v.half = fmin(fmax(v.along * od, 5), 18) / 2;
    v.across = most > 1e-9 * p->length ? BEND / most : 0;
    view second = v;
    place_view(&v, right && !up ? PLANE_RIGHT : PLANE_UP);
    second.bottom = v.bottom;
    second.second = true;
    place_view(&second, PLANE_RIGHT);
    text_put(out, "<figure><h3>The tube and its loads</h3>");
    chart_open(out, FIGURE_WIDTH, both ? second.bottom : v.bottom, "The tube from joint A to joint B with its loads, bend and misses", "");
    put_view(&v);
    if (both) put_view(&second);
    chart_close(out);
    rail_caption(out, p, v.across > 0, units);
}
