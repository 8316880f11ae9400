#include "report/page/frame/frame_cut_page.h"

#include "cases/release_table.h"
#include "report/caution.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

enum { FIGURES_MOST = 24, HIGH = 190, RADIUS = 42 }; /* cuts drawn; drawing units */

static const double pi = 3.14159265358979323846;

/* How many times too large movements are drawn: round, and so that the largest is at most `most`. */
static double times_of(double largest, double most)
{
    static const double rounds[] = {1000, 500, 200, 100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1};
    if (!(largest > 1e-6)) return 1;
    for (size_t i = 0; i < sizeof rounds / sizeof *rounds; i++)
        if (largest * rounds[i] <= most) return rounds[i];
    return 0.05;
}

/* ---- the end view ------------------------------------------------------------------------------------------- */

static double up_of(double size, double clock)
{
    return size > 0 ? size * cos(clock) : 0;
}

static double right_of(double size, double clock)
{
    return size > 0 ? size * sin(clock) : 0;
}

/* Both faces from A toward B, A's whole and B's dashed, with the way from centre to centre. */
static void draw_end(text *out, const frame_cut_row *c, double x, double y, double times)
{
    const double scale = 2 * RADIUS / c->od * times;
    const double dx = scale * right_of(c->faces.moved, c->faces.moved_clock), dy = -scale * up_of(c->faces.moved, c->faces.moved_clock);
    text_format(out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%d\" class=\"axis\"/>\n", x, y, RADIUS);
    text_format(out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%d\" class=\"limit\"/>\n", x + dx, y + dy, RADIUS);
    text_format(out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"mark\"/>\n", x, y, x + dx, y + dy);
    text_format(out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"3\" class=\"dot\"/>\n", x, y);
    chart_words(out, x, HIGH - 6, "middle", "quiet", "from A toward B");
}

/* ---- the side view ------------------------------------------------------------------------------------------ */

/* A stub as a strip: its face at (x, y), pointing away from the cut by `along`, rising by `rise` over its length. */
static void draw_stub(text *out, double x, double y, double along, double rise, const char *style)
{
    const double half = 9, lean = -rise / along * half;
    text_format(out, "<path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fL%.2f %.2fZ\" class=\"%s\"/>\n", x - lean, y - half, x + along - lean,
                y + rise - half, x + along + lean, y + rise + half, x + lean, y + half, style);
}

/* In the plane of the movement: A's stub on the left, B's as it moves, turns in this plane and opens. */
static void draw_side(text *out, const frame_cut_row *c, double x, double y, double times)
{
    const double scale = 2 * RADIUS / c->od * times, length = 64;
    const double clock = isnan(c->faces.moved_clock) ? c->faces.turned_clock : c->faces.moved_clock;
    const double turned = c->faces.turned > 0 ? c->faces.turned * cos(c->faces.turned_clock - clock) : 0;
    const double most = 30, rise = fmax(-most, fmin(most, -turned * length * times));
    draw_stub(out, x, y, -length, 0, "steel");
    draw_stub(out, x + 4 + fmax(-30, fmin(40, scale * c->faces.opened)), y - scale * c->faces.moved, length, rise, "weld");
    chart_words(out, x - length, y - 16, "start", "quiet", "A");
    chart_words(out, x + length + 8, y - scale * c->faces.moved + rise - 16, "end", "quiet", "B");
    chart_words(out, x, HIGH - 6, "middle", "quiet", "from the side");
}

static void put_faces(text *out, const frame_cut_row *c, unit_system units)
{
    page_quantity(out, c->faces.moved, DIM_LENGTH, units);
    if (!isnan(c->faces.moved_clock)) text_format(out, " toward clock %.0f", fmod(round(c->faces.moved_clock * 180 / pi), 360));
    text_format(out, ", turned %.2f deg", c->faces.turned * 180 / pi);
    if (!isnan(c->faces.turned_clock)) text_format(out, " toward clock %.0f", fmod(round(c->faces.turned_clock * 180 / pi), 360));
    text_put(out, c->faces.opened < 0 ? ", closes by " : ", opens by ");
    page_quantity(out, fabs(c->faces.opened), DIM_LENGTH, units);
}

static void draw_cut(text *out, const frame_cut_row *c, unit_system units)
{
    const double largest = fmax(c->faces.moved, fabs(c->faces.opened)) * 2 * RADIUS / c->od, times = times_of(largest, 45);
    text heading = {0}, words = {0};
    html_text(&heading, c->tube);
    text_put(&heading, " at ");
    page_quantity(&heading, c->at, DIM_LENGTH, units);
    page_begin_figure(out, page_said(&heading), HIGH, "Both faces of the cut");
    draw_end(out, c, 86, 88, times);
    draw_side(out, c, 252, 88, times);
    text_put(&words, "The face on the B side moves ");
    put_faces(&words, c, units);
    text_format(&words, ". Left: clock 0 is up; whole line: the face on the A side; dashed: the face on the B side. Right: the clock of the "
                        "movement is up. Movements are drawn at %g times the scale of "
                        "the tube.", times);
    page_end_figure(out, page_said(&words));
    text_free_part(&heading, out);
    text_free_part(&words, out);
}

/* ---- pages -------------------------------------------------------------------------------------------------- */

/* As page_sentence, without what load cases assume. */
static void put_sentence(text *out, bool fine, const text *sentence)
{
    text_format(out, "<p class=\"verdict %s\">%s</p>\n", fine ? "holds" : "short", page_said(sentence));
    html_element(out, "p", "about", caution);
}

static const frame_cut_row *widest(const frame_cut_answer *a)
{
    const frame_cut_row *most = a->cuts;
    for (size_t i = 1; i < a->cut_count; i++)
        if (a->cuts[i].faces.moved > most->faces.moved) most = &a->cuts[i];
    return most;
}

void frame_cut_page(text *out, const page_head *head, const frame_cut_answer *a)
{
    const frame_cut_row *most = widest(a);
    text said = {0};
    text_put(&said, a->cut_count > 1 ? "Of the cuts together ‘" : "Cut through, ‘");
    html_text(&said, most->tube);
    text_put(&said, a->cut_count > 1 ? "’ parts most: the face on the B side moves " : "’ parts: the face on the B side moves ");
    put_faces(&said, most, head->units);
    text_char(&said, '.');
    put_sentence(out, true, &said);
    text_free_part(&said, out);
    text_put(out, "<p>");
    if (a->run == NULL) text_put(out, "Without any run load: only what is locked in moves the faces.");
    else {
        text_put(out, "Under run ‘");
        html_text(out, a->run);
        text_put(out, "’ at load factor 1.");
    }
    text_put(out, "</p>\n");
    if (a->free_joints > 0) html_element(out, "p", NULL, frame_cut_free);
    html_element(out, "p", NULL, frame_cut_basis);
    for (size_t i = 0; i < a->cut_count && i < FIGURES_MOST; i++) draw_cut(out, &a->cuts[i], head->units);
    page_table(out, &frame_cuts_list, a->cuts, a->cut_count, head->units, "Cuts");
    page_table(out, &frame_cut_joints_list, a->joints, a->joint_count, head->units, "Joints, from before the cuts to after them");
}

void frame_cut_locked_page(text *out, const page_head *head, const frame_cut_locked_row *r)
{
    text said = {0};
    page_quantity(&said, r->found.fit_stress, DIM_STRESS, head->units);
    text_put(&said, r->basis == BASIS_LEAST_ENERGY ? " would explain the movement" : " was locked in");
    text_format(&said, ", %.0f %% of yield, where ‘", 100 * r->found.yield_use);
    html_text(&said, r->tube);
    text_put(&said, "’ was cut.");
    put_sentence(out, r->found.yield_use <= 1, &said);
    text_free_part(&said, out);
    if (r->basis == BASIS_LEAST_ENERGY) {
        text_put(out, "<p>");
        html_element(out, "strong", NULL, unread_angle);
        text_put(out, "</p>\n");
    }
    html_element(out, "p", NULL, frame_cut_locked_basis);
    page_table(out, &frame_cut_locked_list, r, 1, head->units, "What was locked in, and how the tube was built in");
}
