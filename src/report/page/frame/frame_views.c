#include "report/page/frame/frame_views.h"

#include "report/html.h"
#include "report/page/frame/frame_lines.h"
#include "report/page/frame/frame_loads.h"
#include "report/page/frame/frame_sides.h"
#include "report/page/parts.h"
#include "report/page/pin.h"
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

/* ---- tubes -------------------------------------------------------------------------------------------------- */

typedef struct drawing {
    const frame_answers *answers;
    const frame_picture *picture;
    frame_class *classes; /* of every tube of the model */
    double times;         /* exaggeration of the movement; 0: nothing moves */
    text labels[FRAME_CARDS_MOST]; /* "2: -12 %" of each tube that has a card */
    unit_system units;
} drawing;

/* The tube of a card, in the model. */
static size_t tube_of(const drawing *d, size_t card)
{
    const frame_answers *a = d->answers;
    return a->places[(size_t)(d->picture->cards[card].answer - a->tubes) % a->judged];
}

static const char *label_of(const drawing *d, size_t tube)
{
    for (size_t i = 0; i < d->picture->card_count; i++)
        if (tube_of(d, i) == tube) return page_said(&d->labels[i]);
    return NULL;
}

static void put_title(text *out, const drawing *d, size_t tube)
{
    const frame_answers *a = d->answers;
    size_t i = 0;
    text_put(out, a->model->tubes[tube].name);
    while (i < a->judged && a->places[i] != tube) i++;
    if (i == a->judged) return;
    const frame_tube_answer *r = frame_worst_run(a, i);
    text_put(out, ": ");
    put_percent(out, r->result.margin);
    text_format(out, " in run ‘%s’", r->run);
}

static void put_tube(const frame_paper *v, const drawing *d, size_t tube)
{
    text title = {0};
    put_title(&title, d, tube);
    frame_tube_line(v, d->answers->model, tube, classes[d->classes[tube]].style, page_said(&title), label_of(d, tube));
    text_free_part(&title, v->out);
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

/* The place of the picture's pin on the paper. Returned: false where no place governs, or none is asked for. */
static bool pin_place(const frame_paper *v, const drawing *d, double *x, double *y)
{
    const frame_tube_answer *r = d->picture->pinned;
    if (r == NULL || isnan(r->result.governs_at)) return false;
    const frame_model *m = d->answers->model;
    const double *a = frame_place(m, r->given.tube.from), *b = frame_place(m, r->given.tube.to), share = r->result.governs_at / r->result.length;
    double at[RBOW_AXES];
    for (int k = 0; k < RBOW_AXES; k++) at[k] = (1 - share) * a[k] + share * b[k];
    frame_on_paper(v, at, x, y);
    return true;
}

/* The pin with its words, and the numbers beside the middle of the tubes that have a card. */
static void put_names(const frame_paper *v, const drawing *d)
{
    const chart c = {.out = v->out, .width = FIGURE_WIDTH, .height = v->high, .x_high = FIGURE_WIDTH, .y_low = v->high};
    chart_name names[FRAME_CARDS_MOST + 1];
    size_t count = 0;
    text words = {0};
    double x, y;
    if (pin_place(v, d, &x, &y)) {
        const rbow_frame_tube_result *r = &d->picture->pinned->result;
        page_pin(v->out, x, y, -1);
        page_pin_words(&words, d->picture->pinned->governs, r->governs_at, r->length, d->units);
        names[count++] = (chart_name){x, y - PIN_DEEP, page_said(&words), "halo"};
    }
    for (size_t i = 0; i < d->picture->card_count; i++) {
        double middle[RBOW_AXES];
        chart_name *name = &names[count++];
        frame_tube_middle(d->answers->model, tube_of(d, i), middle);
        *name = (chart_name){0, 0, page_said(&d->labels[i]), d->picture->cards[i].answer->result.margin >= 0 ? "halo bold" : "halo bold red"};
        frame_on_paper(v, middle, &name->x, &name->y);
    }
    chart_names(&c, names, count);
    text_free_part(&words, v->out);
}

static void put_rest(const frame_paper *v, const drawing *d)
{
    frame_joint_marks(v, d->answers->model);
    frame_loads_put(v, d->answers, d->picture->run);
    put_names(v, d);
}

static void put_side(const frame_paper *v, const void *context)
{
    const drawing *d = context;
    const size_t tubes = d->answers->model->tube_count;
    for (size_t i = 0; i < tubes && d->times > 0; i++) put_moved(v, d, i);
    for (int class = FRAME_CLASSES - 1; class >= 0; class--) /* the short ones on top */
        for (size_t i = 0; i < tubes; i++)
            if ((int)d->classes[i] == class) put_tube(v, d, i);
    put_rest(v, d);
}

static void put_turned(const frame_paper *v, const void *context)
{
    const drawing *d = context;
    size_t *order = frame_far_first(v, d->answers->model);
    v->out->failed = v->out->failed || order == NULL;
    for (size_t i = 0; order != NULL && i < d->answers->model->tube_count; i++) {
        if (d->times > 0) put_moved(v, d, order[i]);
        put_tube(v, d, order[i]);
    }
    free(order);
    put_rest(v, d);
}

/* ---- the key ------------------------------------------------------------------------------------------------ */

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
        if (used[i]) frame_key_line(out, classes[i].style, classes[i].meaning);
    if (d->times > 0) {
        text_format(&moved, d->times < 10 ? "moved, drawn %.1f times" : "moved, drawn %.0f times", d->times);
        frame_key_line(out, "moved", page_said(&moved));
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
    drawing d = {.answers = a, .picture = p, .times = exaggeration(a, p), .units = units};
    if (!class_tubes(&d)) {
        out->failed = true;
        return;
    }
    for (size_t i = 0; i < p->card_count; i++) {
        text_format(&d.labels[i], "%zu: ", i + 1);
        put_percent(&d.labels[i], p->cards[i].answer->result.margin);
    }
    text_put(out, "<h2>The frame in run ‘");
    html_text(out, a->runs[p->run].name);
    text_format(out, "’%s</h2>\n", note);
    put_key(out, &d);
    text_put(out, "<div class=\"figures\">\n");
    frame_sides_put(out, a->model, first, FRAME_SIDES - first, put_side, &d);
    if (p->is_turned) frame_turned_put(out, a->model, p->turned, put_turned, &d);
    text_put(out, "</div>\n");
    frame_loads_caption(out, a, p->run, units);
    for (size_t i = 0; i < p->card_count; i++) text_free_part(&d.labels[i], out);
    free(d.classes);
}

void frame_views(text *out, const frame_answers *a, const frame_picture *p, unit_system units)
{
    put_views(out, a, p, ", which has the smallest margin", 0, units);
}

void frame_view_at_an_angle(text *out, const frame_answers *a, const frame_picture *p, unit_system units)
{
    put_views(out, a, p, "", FRAME_ANGLE, units);
}
