#include "report/page/frame/frame_lines.h"

#include "report/html.h"

void frame_tube_line(const frame_paper *v, const frame_model *m, size_t tube, const char *style, const char *title, const char *label)
{
    const rbow_frame_tube *t = &m->frame.tubes[tube];
    double x[2], y[2];
    frame_on_paper(v, frame_place(m, t->from), &x[0], &y[0]);
    frame_on_paper(v, frame_place(m, t->to), &x[1], &y[1]);
    text_format(v->out, "<path d=\"M%.2f %.2fL%.2f %.2f\" class=\"%s\" data-tube=\"", x[0], y[0], x[1], y[1], style);
    html_text(v->out, m->tubes[tube].name);
    if (label != NULL) {
        text_put(v->out, "\" data-label=\"");
        html_text(v->out, label);
    }
    text_put(v->out, "\"><title>");
    html_text(v->out, title);
    text_put(v->out, "</title></path>\n");
}

void frame_tube_middle(const frame_model *m, size_t tube, double middle[RBOW_AXES])
{
    const double *a = frame_place(m, m->frame.tubes[tube].from), *b = frame_place(m, m->frame.tubes[tube].to);
    for (int k = 0; k < RBOW_AXES; k++) middle[k] = (a[k] + b[k]) / 2;
}

void frame_joint_marks(const frame_paper *v, const frame_model *m)
{
    for (size_t i = 0; i < m->joint_count; i++) {
        double x, y;
        const bool held = m->joints[i].joint.held != RBOW_HELD_NONE;
        frame_on_paper(v, frame_place(m, i), &x, &y);
        if (held) text_format(v->out, "<rect x=\"%.2f\" y=\"%.2f\" width=\"9\" height=\"9\" class=\"ring\"><title>", x - 4.5, y - 4.5);
        else text_format(v->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"1.8\" class=\"fill-ink\"><title>", x, y);
        html_text(v->out, m->joints[i].name);
        text_put(v->out, held ? "</title></rect>\n" : "</title></circle>\n");
    }
}

void frame_key_line(text *out, const char *style, const char *meaning)
{
    text_format(out, "<span><svg class=\"key\" viewBox=\"0 0 44 12\" aria-hidden=\"true\"><path d=\"M2 6L42 6\" class=\"%s\"/></svg> ", style);
    html_text(out, meaning);
    text_put(out, "</span>\n");
}
