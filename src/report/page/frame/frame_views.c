#include "report/page/frame/frame_views.h"

#include "report/html.h"
#include "report/page/frame/frame_loads.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *style, *meaning;
} classes[FRAME_CLASSES] = {
    [FRAME_SHORT] = {"tube-short", "short: margin below 0"},
    [FRAME_CLOSE] = {"tube-close", "holds, margin below 25 %"},
    [FRAME_EASY] = {"tube-easy", "holds, margin 25 % or more"},
    [FRAME_NOT_JUDGED] = {"tube-other", "not judged"},
};

frame_class frame_class_of(const frame_answers *a, size_t tube)
{
    const double margin = frame_worst_run(a, tube)->result.margin, close = 0.25;
    return !(margin >= 0) ? FRAME_SHORT : margin < close ? FRAME_CLOSE : FRAME_EASY;
}

/* ---- where things stand on the paper ------------------------------------------------------------------------ */

static const struct {
    const char *heading;
    double right[RBOW_AXES], up[RBOW_AXES]; /* directions of the paper */
} sides[] = {
    {"From the right side", {1, 0, 0}, {0, 0, 1}},
    {"From above", {1, 0, 0}, {0, 1, 0}},
    {"From the front", {0, 1, 0}, {0, 0, 1}},
    {"At an angle", {0.7547, 0.6561, 0}, {-0.2807, 0.3229, 0.9038}},
};
enum { SIDES = sizeof sides / sizeof *sides, EDGE = 40, HIGH_MOST = 300 };

static frame_paper paper_for(text *out, const frame_model *m, size_t side)
{
    frame_paper v = {.out = out};
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
    memcpy(v.right, sides[side].right, sizeof v.right);
    memcpy(v.up, sides[side].up, sizeof v.up);
    for (size_t i = 0; i < m->joint_count; i++) {
        page_stretch(dot(frame_place(m, i), v.right), &low[0], &high[0]);
        page_stretch(dot(frame_place(m, i), v.up), &low[1], &high[1]);
    }
    const double wide = high[0] - low[0], tall = high[1] - low[1], room = FIGURE_WIDTH - 2 * EDGE;
    v.scale = fmin(room / fmax(wide, 1e-9 * tall), (HIGH_MOST - 2 * EDGE) / fmax(tall, 1e-9 * wide));
    v.high = v.scale * tall + 2 * EDGE;
    v.left = (FIGURE_WIDTH - v.scale * wide) / 2 - v.scale * low[0];
    v.top = v.high - EDGE + v.scale * low[1];
    return v;
}

/* ---- tubes -------------------------------------------------------------------------------------------------- */

typedef struct drawing {
    const frame_answers *answers;
    const frame_picture *picture;
    frame_class *classes; /* of every tube of the model */
    double times;         /* exaggeration of the movement; 0: nothing moves */
} drawing;

/* What a pointer on a tube reads, and a reader of the screen. */
static void put_tooltip(const frame_paper *v, const drawing *d, size_t tube)
{
    const frame_answers *a = d->answers;
    size_t i = 0;
    html_text(v->out, a->model->tubes[tube].name);
    while (i < a->judged && a->places[i] != tube) i++;
    if (i == a->judged) return;
    const frame_tube_answer *r = frame_worst_run(a, i);
    text_put(v->out, ": ");
    put_percent(v->out, r->result.margin);
    text_put(v->out, " in run ‘");
    html_text(v->out, r->run);
    text_put(v->out, "’");
}

static void put_tube(const frame_paper *v, const drawing *d, size_t tube)
{
    const frame_shape *s = &d->picture->shapes[tube];
    double x[2], y[2];
    frame_on_paper(v, s->drawn[0], &x[0], &y[0]);
    frame_on_paper(v, s->drawn[FRAME_SHAPE_STATIONS - 1], &x[1], &y[1]);
    text_format(v->out, "<path d=\"M%.2f %.2fL%.2f %.2f\" class=\"%s\"><title>", x[0], y[0], x[1], y[1], classes[d->classes[tube]].style);
    put_tooltip(v, d, tube);
    text_put(v->out, "</title></path>\n");
}

static void put_moved(const frame_paper *v, const drawing *d, size_t tube)
{
    const frame_shape *s = &d->picture->shapes[tube];
    double x[FRAME_SHAPE_STATIONS], y[FRAME_SHAPE_STATIONS];
    for (int i = 0; i < FRAME_SHAPE_STATIONS; i++) {
        double at[RBOW_AXES];
        for (int k = 0; k < RBOW_AXES; k++) at[k] = s->drawn[i][k] + d->times * s->moved[i][k];
        frame_on_paper(v, at, &x[i], &y[i]);
    }
    chart_path(v->out, x, y, FRAME_SHAPE_STATIONS, "moved");
}

/* "2: -12 %" beside the middle of a tube that has a card. */
static void put_numbers(const frame_paper *v, const drawing *d)
{
    const frame_model *m = d->answers->model;
    const chart c = {.out = v->out, .width = FIGURE_WIDTH, .height = v->high, .x_high = FIGURE_WIDTH, .y_low = v->high};
    chart_name names[FRAME_CARDS_MOST];
    text words[FRAME_CARDS_MOST] = {{0}};
    for (size_t i = 0; i < d->picture->card_count; i++) {
        const frame_tube_answer *r = d->picture->cards[i].answer;
        const double *a = frame_place(m, r->given.tube.from), *b = frame_place(m, r->given.tube.to);
        const double middle[RBOW_AXES] = {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2};
        text_format(&words[i], "%zu: ", i + 1);
        put_percent(&words[i], r->result.margin);
        names[i] = (chart_name){0, 0, page_said(&words[i]), r->result.margin >= 0 ? "halo bold" : "halo bold red"};
        frame_on_paper(v, middle, &names[i].x, &names[i].y);
    }
    chart_names(&c, names, d->picture->card_count);
    for (size_t i = 0; i < d->picture->card_count; i++) text_free_part(&words[i], v->out);
}

static void put_joints(const frame_paper *v, const frame_model *m)
{
    for (size_t i = 0; i < m->joint_count; i++) {
        double x, y;
        frame_on_paper(v, frame_place(m, i), &x, &y);
        if (m->frame.joints[i].held != RBOW_HELD_NONE)
            text_format(v->out, "<rect x=\"%.2f\" y=\"%.2f\" width=\"9\" height=\"9\" class=\"ring\"/>\n", x - 4.5, y - 4.5);
        else
            text_format(v->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"1.8\" class=\"fill-ink\"/>\n", x, y);
    }
}

static void put_side(text *out, const drawing *d, size_t side)
{
    const frame_model *m = d->answers->model;
    const frame_paper v = paper_for(out, m, side);
    text_put(out, "<figure>");
    html_element(out, "h3", NULL, sides[side].heading);
    chart_open(out, FIGURE_WIDTH, v.high, sides[side].heading, "The tubes of the frame, each drawn by its margin, with loads and supports");
    for (size_t i = 0; i < m->tube_count && d->times > 0; i++) put_moved(&v, d, i);
    for (int class = FRAME_CLASSES - 1; class >= 0; class--) /* the short ones on top */
        for (size_t i = 0; i < m->tube_count; i++)
            if ((int)d->classes[i] == class) put_tube(&v, d, i);
    put_joints(&v, m);
    frame_loads_put(&v, d->answers, d->picture->run);
    put_numbers(&v, d);
    chart_close(out);
    text_put(out, "</figure>\n");
}

/* ---- the key ------------------------------------------------------------------------------------------------ */

static void put_key_line(text *out, const char *style, const char *meaning)
{
    text_format(out, "<span><svg class=\"key\" viewBox=\"0 0 44 12\" aria-hidden=\"true\"><path d=\"M2 6L42 6\" class=\"%s\"/></svg> ", style);
    html_text(out, meaning);
    text_put(out, "</span>\n");
}

static void put_key_arrow(text *out, const char *head, const char *line, const char *meaning)
{
    text_format(out, "<span><svg class=\"key\" viewBox=\"0 0 44 12\" aria-hidden=\"true\"><path d=\"M2 6L34 6\" class=\"%s\"/>"
                     "<path d=\"M42 6L33 2.5L33 9.5Z\" class=\"%s\"/></svg> ", line, head);
    html_text(out, meaning);
    text_put(out, "</span>\n");
}

static void put_key(text *out, const drawing *d)
{
    bool used[FRAME_CLASSES] = {false};
    text moved = {0};
    for (size_t i = 0; i < d->answers->model->tube_count; i++) used[d->classes[i]] = true;
    text_put(out, "<p class=\"keys\">");
    for (int i = 0; i < FRAME_CLASSES; i++)
        if (used[i]) put_key_line(out, classes[i].style, classes[i].meaning);
    if (d->times > 0) {
        text_format(&moved, d->times < 10 ? "moved, drawn %.1f times" : "moved, drawn %.0f times", d->times);
        put_key_line(out, "moved", page_said(&moved));
    }
    else
        text_put(out, "<span>Nothing moves, or at this load there is no balance: no movement is drawn.</span>\n");
    if (d->picture->card_count > 0) text_put(out, "<span><strong>1 2 3</strong> the smallest margins, whose moments stand below</span>\n");
    put_key_arrow(out, "head", "plain", "load");
    put_key_arrow(out, "support", "quiet-line", "what a support (square) puts on the frame");
    text_put(out, "</p>\n");
    text_free_part(&moved, out);
}

/* So that the largest movement is a twentieth of the frame's size; 1, 2 or 5 times a power of ten. */
static double exaggeration(const frame_answers *a, const frame_picture *p)
{
    double low[RBOW_AXES], high[RBOW_AXES], most = 0;
    const frame_model *m = a->model;
    for (int k = 0; k < RBOW_AXES; k++) {
        low[k] = INFINITY;
        high[k] = -INFINITY;
        for (size_t i = 0; i < m->joint_count; i++) page_stretch(frame_place(m, i)[k], &low[k], &high[k]);
    }
    for (size_t i = 0; i < m->tube_count; i++)
        for (int s = 0; s < FRAME_SHAPE_STATIONS; s++) {
            const double *by = p->shapes[i].moved[s], size = hypot(hypot(by[0], by[1]), by[2]);
            if (size > most) most = size;
        }
    if (!(most > 0)) return 0;
    const double wanted = 0.05 * hypot(hypot(high[0] - low[0], high[1] - low[1]), high[2] - low[2]) / most;
    const double ten = pow(10, floor(log10(wanted))), share = wanted / ten;
    return ten * (share < 2 ? 1 : share < 5 ? 2 : 5);
}

/* The classes of all tubes; those that are not judged have none. */
static bool class_tubes(drawing *d)
{
    const frame_answers *a = d->answers;
    d->classes = malloc((a->model->tube_count + 1) * sizeof *d->classes);
    if (d->classes == NULL) return false;
    for (size_t i = 0, judged = 0; i < a->model->tube_count; i++) {
        const bool is_judged = judged < a->judged && a->places[judged] == i;
        d->classes[i] = is_judged ? frame_class_of(a, judged) : FRAME_NOT_JUDGED;
        judged += is_judged;
    }
    return true;
}

static void put_views(text *out, const frame_answers *a, const frame_picture *p, const char *note, size_t first, unit_system units)
{
    drawing d = {.answers = a, .picture = p, .times = exaggeration(a, p)};
    if (!class_tubes(&d)) {
        out->failed = true;
        return;
    }
    text_put(out, "<h2>The frame in run ‘");
    html_text(out, a->runs[p->run].name);
    text_format(out, "’%s</h2>\n", note);
    put_key(out, &d);
    text_put(out, "<div class=\"figures\">\n");
    for (size_t side = first; side < SIDES; side++) put_side(out, &d, side);
    text_put(out, "</div>\n");
    frame_loads_caption(out, a, p->run, units);
    free(d.classes);
}

void frame_views(text *out, const frame_answers *a, const frame_picture *p, unit_system units)
{
    put_views(out, a, p, ", which has the smallest margin", 0, units);
}

void frame_view_at_an_angle(text *out, const frame_answers *a, const frame_picture *p, unit_system units)
{
    put_views(out, a, p, "", SIDES - 1, units);
}
