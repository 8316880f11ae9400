#include "report/page/detail/detail_hole_drawing.h"

#include "report/chart/chart.h"
#include "report/page/detail/detail_shapes.h"
#include "report/page/detail/detail_sheet.h"
#include "report/page/parts.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
enum { ARC_STEPS = 90 };

typedef struct section { /* on the drawing */
    text *out;
    spot middle;
    double scale, outer, inner, half; /* half of the hole; drawing units */
    double clock;                     /* of the hole's axis, 0 up, pi/2 right */
} section;

/* A spot by its distance along the hole's axis and across it. */
static spot at_axis(const section *s, double along, double across)
{
    const double c = cos(s->clock), q = sin(s->clock);
    return (spot){s->middle.x + along * q + across * c, s->middle.y - along * c + across * q};
}

static void add_arc(outline *o, const section *s, double radius, double from, double to)
{
    for (int i = 0; i <= ARC_STEPS; i++) {
        const double angle = from + (to - from) * i / ARC_STEPS;
        const spot p = at_axis(s, radius * cos(angle), radius * sin(angle));
        outline_add(o, p.x, p.y);
    }
}

/* The wall from one edge of the hole to another, by the angles of the outside and of the bore. */
static void draw_wall(const section *s, double outer_from, double outer_to, double inner_from, double inner_to)
{
    outline o = {.count = 0};
    add_arc(&o, s, s->outer, outer_from, outer_to);
    add_arc(&o, s, s->inner, inner_to, inner_from);
    draw_outline(s->out, &o, "part-tube");
    draw_hatch(s->out, &o, pi / 4, 4, "lines");
}

/* The whole section, without a seam. */
static void draw_ring(const section *s)
{
    outline o = {.count = 0};
    add_arc(&o, s, s->outer, 0, 2 * pi);
    draw_outline(s->out, &o, "wash");
    o.count = 0;
    add_arc(&o, s, s->outer, 0, 2 * pi);
    add_arc(&o, s, s->inner, 2 * pi, 0);
    draw_hatch(s->out, &o, pi / 4, 4, "lines");
    o.count = 0;
    add_arc(&o, s, s->inner, 0, 2 * pi);
    draw_outline(s->out, &o, "part-other");
    o.count = 0;
    add_arc(&o, s, s->outer, 0, 2 * pi);
    draw_outline(s->out, &o, "plain");
}

static void draw_net(const section *s, int walls)
{
    const double a = asin(s->half / s->outer), b = s->inner > 0 ? asin(s->half / s->inner) : 0;
    if (!(s->half > 0)) {
        draw_ring(s);
        return;
    }
    if (walls == 1) {
        draw_wall(s, a, 2 * pi - a, b, 2 * pi - b);
        return;
    }
    draw_wall(s, a, pi - a, b, pi - b);
    draw_wall(s, pi + a, 2 * pi - a, pi + b, 2 * pi - b);
}

/* The edges of the hole through the wall, and its axis. */
static void draw_bore(const section *s, int walls)
{
    for (int wall = 0; wall < walls; wall++)
        for (int side = -1; side <= 1; side += 2) {
            const double toward = wall == 0 ? 1 : -1;
            draw_line(s->out, at_axis(s, toward * (s->inner - 3), side * s->half), at_axis(s, toward * (s->outer + 5), side * s->half), "plain");
        }
    draw_line(s->out, at_axis(s, walls == 1 ? -6 : -s->outer - 12, 0), at_axis(s, s->outer + 12, 0), "centre");
}

static void draw_centroid(const section *s, double shift)
{
    const spot at = at_axis(s, -shift * s->scale, 0);
    draw_line(s->out, (spot){at.x - 5, at.y}, (spot){at.x + 5, at.y}, "mark");
    draw_line(s->out, (spot){at.x, at.y - 5}, (spot){at.x, at.y + 5}, "mark");
}

static void put_line(text *out, double y, const char *style, text *words)
{
    chart_words(out, 168, y, "start", style, page_said(words));
    text_free_part(words, out);
}

static void hole_list(text *out, const detail_worked *d, unit_system units)
{
    const rbow_detail *k = d->detail;
    text line = {0};
    text_put(&line, "hole ");
    put_size(&line, k->hole, units);
    put_line(out, 60, "bold", &line);
    text_put(&line, k->walls == 1 ? "through one wall" : "through both walls");
    put_line(out, 77, "", &line);
    if (k->hole_clock <= RBOW_ANY_CLOCK) {
        text_put(&line, "any clock");
        put_line(out, 94, "", &line);
        return;
    }
    text_put(&line, "clock ");
    page_value(&line, k->hole_clock, DIM_ANGLE, units, 4);
    put_line(out, 94, "", &line);
}

void draw_hole(text *out, const detail_worked *d, unit_system units)
{
    const rbow_tube_size tube = detail_tube_size(d);
    const bool hole = d->detail->kind == RBOW_DETAIL_HOLE, any = d->detail->hole_clock <= RBOW_ANY_CLOCK;
    const double scale = 124 / tube.od;
    const section s = {.out = out, .middle = {84, 96}, .scale = scale, .outer = 62, .inner = scale * (tube.od / 2 - tube.wall),
                       .half = hole ? scale * d->detail->hole / 2 : 0, .clock = any || !hole ? 0 : d->detail->hole_clock};
    text line = {0};
    open_detail(out, d, 206, hole ? "cross-section at the middle of the hole, to scale" : "cross-section of the tube, to scale");
    chart_words(out, s.middle.x, 14, "middle", "quiet", "up");
    draw_net(&s, hole ? d->detail->walls : 1);
    if (hole) draw_bore(&s, d->detail->walls);
    rbow_net_section n;
    if (hole && rbow_net_section_of(tube.od, tube.wall, d->detail->hole, d->detail->walls, &n) == RBOW_OK && n.shift > 0) {
        draw_circle(out, s.middle, 1.8, "fill-ink");
        draw_centroid(&s, n.shift);
    }
    put_size(&line, tube.od, units);
    draw_line(out, (spot){s.middle.x - 62, s.middle.y + 4}, (spot){s.middle.x - 62, 190}, "leader");
    draw_line(out, (spot){s.middle.x + 62, s.middle.y + 4}, (spot){s.middle.x + 62, 190}, "leader");
    draw_dimension(out, (spot){s.middle.x - 62, 186}, (spot){s.middle.x + 62, 186}, page_said(&line));
    text_clear(&line);
    put_tube(&line, "tube", tube.od, tube.wall, units);
    put_line(out, 38, "", &line);
    if (hole) hole_list(out, d, units);
    text_put(out, "</svg>\n");
}
