#include "report/page/detail/detail_scene_drawing.h"

#include "report/chart/chart.h"
#include "report/page/detail/detail_scene.h"
#include "report/page/detail/detail_sheet.h"
#include "report/page/parts.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

typedef struct frame { /* inches of the scene on the drawing */
    double scale;
    spot origin;   /* where the scene's 0 stands */
    window window; /* what of the drawing it may fill */
} frame;

static spot placed(const frame *f, spot p)
{
    return (spot){f->origin.x + f->scale * p.x, f->origin.y - f->scale * p.y};
}

static void draw_part(text *out, const frame *f, const scene_part *p)
{
    static const char *const styles[] = {[PART_TUBE] = "part-tube", [PART_OTHER] = "part-other",
                                         [PART_BASE] = "part-base", [PART_WELD] = "part-weld"};
    outline whole = {.count = 0};
    for (size_t i = 0; i < p->count; i++) {
        const spot at = placed(f, p->at[i]);
        outline_add(&whole, at.x, at.y);
    }
    const outline seen = outline_within(&whole, &f->window);
    draw_outline(out, &seen, styles[p->kind]);
    if (p->kind == PART_TUBE) draw_hatch(out, &seen, pi / 4, 4, "lines");
    if (p->kind == PART_OTHER) draw_hatch(out, &seen, -pi / 4, 4, "lines");
}

static void draw_parts(text *out, const frame *f, const scene *s)
{
    for (int weld = 0; weld < 2; weld++) /* welds lie over all else */
        for (size_t i = 0; i < s->count; i++)
            if ((s->parts[i].kind == PART_WELD) == weld) draw_part(out, f, &s->parts[i]);
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */

enum { HEAD = 50, SIDE = 8, FOOT = 34 };

/* A label over the drawing, in one of two rows, with a leader down to a part. */
static void draw_label(text *out, const frame *f, spot part, int row, bool left, const char *words)
{
    const spot at = placed(f, part), top = {at.x, 20 + 17.0 * row};
    draw_line(out, top, at, "leader");
    draw_head(out, top, at);
    chart_words(out, left ? at.x - 4 : at.x + 4, top.y - 6, left ? "start" : "end", "halo", words);
}

static void label_of(text *out, const frame *f, const char *name, double od, double wall, double x, int row, bool left, unit_system units)
{
    text words = {0};
    put_tube(&words, name, od, wall, units);
    draw_label(out, f, (spot){x, od / 2 - wall / 2}, row, left, page_said(&words));
    text_free_part(&words, out);
}

/* Whether the bore of a sleeve has room for its label, above the axis. */
static bool bore_is_high(const frame *f, const scene *s)
{
    return f->scale * (s->other_od / 2 - s->other_wall) > 26;
}

static void draw_sleeve_label(text *out, const frame *f, const detail_worked *d, const scene *s, unit_system units)
{
    text words = {0};
    put_tube(&words, "sleeve", s->other_od, s->other_wall, units);
    const spot wall = placed(f, (spot){0.35 * d->detail->overlap, s->other_od / 2 - s->other_wall}), below = {wall.x, f->origin.y - 18};
    draw_line(out, below, wall, "leader");
    draw_head(out, below, wall);
    chart_words(out, DETAIL_WIDTH / 2.0, f->origin.y - 6, "middle", "halo", page_said(&words));
    text_free_part(&words, out);
}

static void draw_labels(text *out, const frame *f, const detail_worked *d, const scene *s, unit_system units)
{
    const double span = s->right - s->left, near_left = s->left + 0.06 * span, near_right = s->right - 0.06 * span;
    if (d->detail->kind == RBOW_DETAIL_SLEEVE) {
        label_of(out, f, "tube", s->tube_od, s->tube_wall, near_left, 0, true, units);
        if (bore_is_high(f, s)) draw_sleeve_label(out, f, d, s, units);
        return;
    }
    const bool tube_right = d->detail->at <= d->member->length / 2;
    label_of(out, f, "tube", s->tube_od, s->tube_wall, tube_right ? near_right : near_left, tube_right ? 0 : 1, !tube_right, units);
    if (d->detail->kind == RBOW_DETAIL_SOCKET)
        label_of(out, f, "stub", s->other_od, s->other_wall, tube_right ? near_left : near_right, tube_right ? 1 : 0, tube_right, units);
}

static void draw_overlaps(text *out, const frame *f, const detail_worked *d, double below, unit_system units)
{
    double from[2], to[2];
    size_t count;
    text words = {0};
    scene_overlaps(d, from, to, &count);
    put_size(&words, d->detail->overlap, units);
    for (size_t i = 0; i < count; i++) {
        const double x[] = {f->origin.x + f->scale * from[i], f->origin.x + f->scale * to[i]};
        for (int end = 0; end < 2; end++) draw_line(out, (spot){x[end], below + 3}, (spot){x[end], below + 26}, "leader");
        const bool once = i + 1 < count && x[1] - x[0] < chart_text_width(page_said(&words)) + 4; /* the other side has the words */
        draw_dimension(out, (spot){x[0], below + 22}, (spot){x[1], below + 22}, once ? "" : page_said(&words));
    }
    text_free_part(&words, out);
}

/* Lines of words under the drawing. Returned: where they end. */
static double draw_notes(text *out, const frame *f, const detail_worked *d, const scene *s, double y, unit_system units)
{
    text words = {0};
    if (d->detail->kind == RBOW_DETAIL_SLEEVE && !bore_is_high(f, s)) {
        put_tube(&words, "sleeve", s->other_od, s->other_wall, units);
        chart_words(out, DETAIL_WIDTH / 2.0, y + 8, "middle", "", page_said(&words));
        y += 16;
    }
    text_clear(&words);
    if (d->detail->rosettes > 0) {
        text_format(&words, d->detail->rosettes == 1 ? "%d rosette of " : "%d rosettes of ", d->detail->rosettes);
        put_size(&words, d->detail->rosette, units);
        if (d->detail->kind == RBOW_DETAIL_SLEEVE) text_put(&words, " on each side");
        chart_words(out, DETAIL_WIDTH / 2.0, y + 8, "middle", "", page_said(&words));
        y += 16;
    }
    text_free_part(&words, out);
    return y;
}

static double draw_whole(text *out, const detail_worked *d, const scene *s, unit_system units)
{
    const double scale = fmin((DETAIL_WIDTH - 2 * SIDE) / (s->right - s->left), 65 / s->high), high = scale * s->high;
    const double left = (DETAIL_WIDTH - scale * (s->right - s->left)) / 2;
    const frame f = {scale, {left - scale * s->left, HEAD + high}, {0, 0, DETAIL_WIDTH, HEAD + 2 * high + 1}};
    draw_parts(out, &f, s);
    draw_line(out, (spot){left - 6, f.origin.y}, (spot){left + scale * (s->right - s->left) + 6, f.origin.y}, "centre");
    draw_labels(out, &f, d, s, units);
    draw_overlaps(out, &f, d, HEAD + 2 * high, units);
    if (d->detail->kind == RBOW_DETAIL_RING_WELD) {
        text words = {0};
        const double x = f.origin.x + scale * (s->right + s->left) / 2;
        put_size(&words, s->ring_od, units);
        draw_dimension(out, (spot){x, f.origin.y + scale * s->ring_od / 2}, (spot){x, f.origin.y - scale * s->ring_od / 2}, page_said(&words));
        text_free_part(&words, out);
    }
    if (d->detail->kind == RBOW_DETAIL_RING_WELD) return HEAD + 2 * high + 12;
    return draw_notes(out, &f, d, s, HEAD + 2 * high + FOOT, units);
}

/* ---- the weld, enlarged --------------------------------------------------------------------------------------------- */

enum { ZOOM_HIGH = 132 };

/* Fillet all round with its throat, on a reference line with the dashed line below it, as ISO 2553 has it in its system A (from memory).
 * tip: on the weld's face; corner: the end of the reference line that the arrow starts from. */
static void draw_weld_symbol(text *out, spot tip, spot corner, double toward, const char *throat)
{
    const double wide = chart_text_width(throat) + 30, from = toward > 0 ? corner.x : corner.x - wide, x = from + wide - 18;
    draw_line(out, corner, tip, "plain");
    draw_head(out, corner, tip);
    draw_line(out, (spot){from, corner.y}, (spot){from + wide, corner.y}, "plain");
    draw_line(out, (spot){from, corner.y + 4}, (spot){from + wide, corner.y + 4}, "dashed");
    draw_circle(out, corner, 4, "ring");
    const outline fillet = {{{x, corner.y}, {x, corner.y - 10}, {x + 10, corner.y}}, 3};
    draw_outline(out, &fillet, "plain");
    chart_words(out, x - 4, corner.y - 4, "end", "halo", throat);
}

static void draw_throat(text *out, const frame *f, const scene *s, double toward, unit_system units)
{
    text words = {0};
    const spot root = placed(f, s->mouth), foot = placed(f, s->throat_foot);
    text_put(&words, "a ");
    put_size(&words, s->throat, units);
    draw_line(out, root, foot, "over-weld");
    draw_weld_symbol(out, foot, (spot){foot.x + toward * 44, f->window.top + 22}, toward, page_said(&words));
    text_free_part(&words, out);
}

static void wall_dimension(text *out, const frame *f, double x, double od, double wall, unit_system units)
{
    text words = {0};
    put_size(&words, wall, units);
    const double top = f->origin.y - f->scale * od / 2, bottom = f->origin.y - f->scale * (od / 2 - wall);
    draw_dimension(out, (spot){x, bottom}, (spot){x, top}, page_said(&words));
    text_free_part(&words, out);
}

static void draw_butt(text *out, const frame *f, const detail_worked *d, const scene *s, unit_system units)
{
    const spot at = placed(f, (spot){0, s->tube_od / 2 - 0.02 * s->tube_wall});
    text words = {0};
    if (d->detail->butt) {
        text_put(&words, "butt weld, throat ");
        put_size(&words, s->throat, units);
    } else {
        text_put(&words, "not welded: the sleeve carries alone");
    }
    const spot above = {at.x, f->window.top + 24};
    draw_line(out, above, at, "leader");
    draw_head(out, above, at);
    chart_words(out, at.x, above.y - 5, "middle", "halo", page_said(&words));
    text_free_part(&words, out);
}

/* Down from the weld's root: the walls that lie below it. */
static double depth_of(const detail_worked *d, const scene *s)
{
    if (d->detail->kind == RBOW_DETAIL_RING_WELD) return s->tube_wall + fmax(0, (s->ring_od - s->tube_od) / 2);
    const double inner = fmin(s->tube_od / 2 - s->tube_wall, s->other_od / 2 - s->other_wall);
    return s->mouth.y - inner;
}

static void draw_enlarged(text *out, const detail_worked *d, const scene *s, double top, unit_system units)
{
    const double depth = depth_of(d, s), rise = s->fillet ? fmax(s->throat * sqrt(2), s->tube_wall) : s->tube_wall;
    const double scale = (ZOOM_HIGH - 58) / (depth + rise), toward = s->throat_foot.x >= s->mouth.x ? 1 : -1;
    const double root = top + ZOOM_HIGH - 14 - scale * depth;
    const frame f = {scale, {DETAIL_WIDTH / 2.0 - scale * s->mouth.x - (s->fillet ? toward * 30 : 0), root + scale * s->mouth.y},
                     {1, top + 1, DETAIL_WIDTH - 1, top + ZOOM_HIGH - 1}};
    text_format(out, "<rect x=\"0.5\" y=\"%.2f\" width=\"%d\" height=\"%d\" class=\"border\"/>\n", top, DETAIL_WIDTH - 1, ZOOM_HIGH);
    draw_parts(out, &f, s);
    if (s->fillet) draw_throat(out, &f, s, toward, units);
    else draw_butt(out, &f, d, s, units);
    const bool tube_right = d->detail->kind == RBOW_DETAIL_SLEEVE || d->detail->at <= d->member->length / 2;
    wall_dimension(out, &f, tube_right ? DETAIL_WIDTH - 76 : 26, s->tube_od, s->tube_wall, units);
    if (!isnan(s->other_od)) wall_dimension(out, &f, tube_right ? 26 : DETAIL_WIDTH - 76, s->other_od, s->other_wall, units);
}

void draw_scene(text *out, const detail_worked *d, unit_system units)
{
    const scene s = scene_of(d);
    text drawn = {0};
    const double top = draw_whole(&drawn, d, &s, units);
    draw_enlarged(&drawn, d, &s, top, units);
    open_detail(out, d, top + ZOOM_HIGH + 2, d->detail->kind == RBOW_DETAIL_SLEEVE ? "section along the splice, to scale"
                : d->detail->kind == RBOW_DETAIL_SOCKET                         ? "section along the socket, to scale"
                                                                                : "section along the tube at its ring weld, to scale");
    text_put(out, page_said(&drawn));
    text_put(out, "</svg>\n");
    text_free_part(&drawn, out);
}
