#include "report/page/frame/frame_cases_page.h"

#include "report/page/frame/frame_lines.h"
#include "report/page/frame/frame_sides.h"
#include "report/page/parts.h"

#include <stdlib.h>

enum { NAME_WIDE = 14 /* characters of a tube's name on the drawing */ };

/* The names beside the tubes, those first that come first in the file. */
static void put_names(const frame_paper *v, const frame_as_read *f, const text labels[])
{
    const chart c = {.out = v->out, .width = FIGURE_WIDTH, .height = v->high, .x_high = FIGURE_WIDTH, .y_low = v->high};
    chart_name names[CHART_NAMES_MOST];
    size_t count = 0;
    for (size_t i = 0; i < f->model->tube_count && count < CHART_NAMES_MOST; i++) {
        double middle[RBOW_AXES];
        if (!f->named[i]) continue;
        chart_name *name = &names[count++];
        frame_tube_middle(f->model, i, middle);
        *name = (chart_name){0, 0, page_said(&labels[i]), "halo quiet"};
        frame_on_paper(v, middle, &name->x, &name->y);
    }
    chart_names(&c, names, count);
}

static void put_view(const frame_paper *v, const void *context)
{
    const frame_as_read *f = context;
    const size_t count = f->model->tube_count;
    size_t *order = frame_far_first(v, f->model);
    text *labels = calloc(count + 1, sizeof *labels);
    if (order == NULL || labels == NULL) {
        v->out->failed = true;
    } else {
        for (size_t i = 0; i < count; i++) page_short_name(&labels[i], f->model->tubes[i].name, NAME_WIDE);
        for (size_t i = 0; i < count; i++) {
            const size_t tube = order[i];
            frame_tube_line(v, f->model, tube, "as-read", f->model->tubes[tube].name, f->named[tube] ? page_said(&labels[tube]) : NULL);
        }
        frame_joint_marks(v, f->model);
        put_names(v, f, labels);
        for (size_t i = 0; i < count; i++) text_free_part(&labels[i], v->out);
    }
    free(order);
    free(labels);
}

static void put_count(text *out, const frame_model *m)
{
    size_t held = 0;
    for (size_t i = 0; i < m->joint_count; i++) held += m->joints[i].joint.held != RBOW_HELD_NONE;
    text_format(out, "<p>%zu %s and %zu joints, of which supports hold %zu. Nothing is checked on this page.</p>\n", m->tube_count,
                m->tube_count == 1 ? "tube" : "tubes", m->joint_count, held);
}

void frame_cases_page(text *out, const page_head *head, const frame_as_read *f)
{
    page_refused(out, head);
    put_count(out, f->model);
    text_put(out, "<h2>From its sides</h2>\n<p class=\"keys\">");
    frame_key_line(out, "as-read", "tube");
    text_put(out, "<span><svg class=\"key\" viewBox=\"0 0 44 12\" aria-hidden=\"true\"><rect x=\"17.5\" y=\"1.5\" width=\"9\" height=\"9\" "
                  "class=\"ring\"/></svg> joint with a support</span>\n</p>\n<div class=\"figures\">\n");
    if (f->is_turned) frame_turned_put(out, f->model, f->turned, put_view, f);
    frame_sides_put(out, f->model, FRAME_SIDE, FRAME_ANGLE, put_view, f);
    text_put(out, "</div>\n<p class=\"about\">Forward is to the right from the side and from above; from the front the right of the paper is the left "
                  "of the frame. Near tubes are drawn over far ones. A name that finds no room is left out; the pointer on a tube reads it.</p>\n");
}
