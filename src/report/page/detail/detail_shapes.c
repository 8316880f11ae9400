#include "report/page/detail/detail_shapes.h"

#include "report/chart/chart.h"

#include <math.h>
#include <stdlib.h>

void outline_add(outline *o, double x, double y)
{
    if (o->count < OUTLINE_MOST) o->at[o->count++] = (spot){x, y};
}

outline outline_of_box(double left, double top, double right, double bottom)
{
    return (outline){{{left, top}, {right, top}, {right, bottom}, {left, bottom}}, 4};
}

/* ---- what lies in a window --------------------------------------------------------------------------------------- */

enum { LEFT, TOP, RIGHT, BOTTOM, SIDES };

/* How far a spot lies inside one side of the window. */
static double inside(const window *w, int side, spot p)
{
    switch (side) {
        case LEFT: return p.x - w->left;
        case TOP: return p.y - w->top;
        case RIGHT: return w->right - p.x;
        default: return w->bottom - p.y;
    }
}

static outline cut_by(const outline *o, const window *w, int side)
{
    outline cut = {.count = 0};
    for (size_t i = 0; i < o->count; i++) {
        const spot p = o->at[i], q = o->at[(i + 1) % o->count];
        const double a = inside(w, side, p), b = inside(w, side, q);
        if (a >= 0) outline_add(&cut, p.x, p.y);
        if ((a >= 0) != (b >= 0)) outline_add(&cut, p.x + (q.x - p.x) * a / (a - b), p.y + (q.y - p.y) * a / (a - b));
    }
    return cut;
}

outline outline_within(const outline *o, const window *w)
{
    outline part = *o;
    for (int side = 0; side < SIDES && part.count > 0; side++) part = cut_by(&part, w, side);
    return part;
}

/* ---- outline and hatch -------------------------------------------------------------------------------------------- */

void draw_outline(text *out, const outline *o, const char *style)
{
    if (o->count < 3) return;
    text_put(out, "<path d=\"");
    for (size_t i = 0; i < o->count; i++) text_format(out, "%c%.2f %.2f", i == 0 ? 'M' : 'L', o->at[i].x, o->at[i].y);
    text_format(out, "Z\" class=\"%s\"/>\n", style);
}

static int ascending(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Where a line `across` from the origin meets the outline, along it; in turned coordinates. Returned: how many. */
static size_t crossings(const outline *o, double c, double s, double across, double at[OUTLINE_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < o->count; i++) {
        const spot p = o->at[i], q = o->at[(i + 1) % o->count];
        const double u = p.x * c + p.y * s, v = p.y * c - p.x * s, u2 = q.x * c + q.y * s, v2 = q.y * c - q.x * s;
        if ((v < across) != (v2 < across)) at[count++] = u + (u2 - u) * (across - v) / (v2 - v);
    }
    qsort(at, count, sizeof *at, ascending);
    return count;
}

void draw_hatch(text *out, const outline *o, double angle, double gap, const char *style)
{
    const double c = cos(angle), s = sin(angle);
    double least = INFINITY, most = -INFINITY, at[OUTLINE_MOST];
    for (size_t i = 0; i < o->count; i++) {
        const double v = o->at[i].y * c - o->at[i].x * s;
        least = fmin(least, v);
        most = fmax(most, v);
    }
    if (!(most > least)) return;
    text_put(out, "<path d=\"M0 0");
    for (double v = gap * (floor(least / gap) + 0.5); v < most; v += gap) {
        const size_t count = crossings(o, c, s, v, at);
        for (size_t i = 0; i + 1 < count; i += 2)
            text_format(out, "M%.2f %.2fL%.2f %.2f", at[i] * c - v * s, at[i] * s + v * c, at[i + 1] * c - v * s, at[i + 1] * s + v * c);
    }
    text_format(out, "\" class=\"%s\"/>\n", style);
}

/* ---- lines and dimensions ------------------------------------------------------------------------------------------ */

void draw_line(text *out, spot from, spot to, const char *style)
{
    text_format(out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"%s\"/>\n", from.x, from.y, to.x, to.y, style);
}

void draw_circle(text *out, spot middle, double radius, const char *style)
{
    text_format(out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%.2f\" class=\"%s\"/>\n", middle.x, middle.y, radius, style);
}

void draw_head(text *out, spot from, spot tip)
{
    const double length = hypot(tip.x - from.x, tip.y - from.y), ux = (tip.x - from.x) / length, uy = (tip.y - from.y) / length;
    const double x = tip.x - 6 * ux, y = tip.y - 6 * uy;
    if (!(length > 0)) return;
    text_format(out, "<path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fZ\" class=\"head\"/>\n", tip.x, tip.y,
                x - 2.2 * uy, y + 2.2 * ux, x + 2.2 * uy, y - 2.2 * ux);
}

void draw_dimension(text *out, spot from, spot to, const char *words)
{
    const double length = hypot(to.x - from.x, to.y - from.y), ux = (to.x - from.x) / length, uy = (to.y - from.y) / length;
    const bool upright = fabs(uy) > fabs(ux);
    const spot middle = {(from.x + to.x) / 2, (from.y + to.y) / 2};
    if (!(length > 0)) return;
    if (length >= 16) {
        draw_line(out, from, to, "leader");
        draw_head(out, to, from);
        draw_head(out, from, to);
        if (upright) chart_words(out, middle.x + 5, length > 60 ? middle.y - 8 : middle.y + 4, "start", "halo", words);
        else if (length > chart_text_width(words) + 4) chart_words(out, middle.x, middle.y - 4, "middle", "halo", words);
        else chart_words(out, fmax(from.x, to.x) + 5, middle.y + 4, "start", "halo", words);
        return;
    }
    const spot before = {from.x - 14 * ux, from.y - 14 * uy}, behind = {to.x + 14 * ux, to.y + 14 * uy};
    draw_line(out, before, from, "leader");
    draw_line(out, to, behind, "leader");
    draw_head(out, before, from);
    draw_head(out, behind, to);
    if (upright) chart_words(out, middle.x + 5, middle.y + 4, "start", "halo", words);
    else chart_words(out, behind.x + 4, behind.y + 4, "start", "halo", words);
}
