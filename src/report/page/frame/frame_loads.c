#include "report/page/frame/frame_loads.h"

#include "report/html.h"
#include "report/page/parts.h"

#include <math.h>

enum { ARROW_MOST = 34, ARROW_LEAST = 11 };

static double size_of(const double v[RBOW_AXES])
{
    return hypot(hypot(v[0], v[1]), v[2]);
}

/* The force of a load, and where it acts; a load spread over a tube stands at its middle. */
static void load_force(const frame_model *m, const rbow_frame_load *l, double force[RBOW_AXES], double at[RBOW_AXES])
{
    for (int k = 0; k < RBOW_AXES; k++) {
        force[k] = l->force[k];
        at[k] = l->acts_on == RBOW_ACTS_ON_JOINT ? frame_place(m, l->index)[k] : 0;
    }
    if (l->acts_on != RBOW_ACTS_ON_TUBE) return;
    const double *a = frame_place(m, m->frame.tubes[l->index].from), *b = frame_place(m, m->frame.tubes[l->index].to);
    double along[RBOW_AXES];
    for (int k = 0; k < RBOW_AXES; k++) along[k] = b[k] - a[k];
    const double length = size_of(along), share = size_of(l->force) > 0 && l->at > RBOW_UNSET ? l->at / length : 0.5;
    for (int k = 0; k < RBOW_AXES; k++) {
        force[k] += length * l->spread[k];
        at[k] = a[k] + share * along[k];
    }
}

static double largest_force(const frame_answers *a, size_t run)
{
    const frame_model *m = a->model;
    const rbow_frame_run *r = &m->runs[run].run;
    double most = 0;
    for (size_t i = 0; i < r->load_count; i++) {
        double force[RBOW_AXES], at[RBOW_AXES];
        load_force(m, &r->loads[i], force, at);
        most = fmax(most, size_of(force));
    }
    for (size_t i = 0; i < m->joint_count; i++) most = fmax(most, size_of(a->joints[run * m->joint_count + i].result.react));
    return most;
}

static void put_arrow(const frame_paper *v, double x1, double y1, double x2, double y2, const char *line, const char *head)
{
    const double length = hypot(x2 - x1, y2 - y1), ux = (x2 - x1) / length, uy = (y2 - y1) / length;
    const double bx = x2 - 7 * ux, by = y2 - 7 * uy;
    text_format(v->out, "<path d=\"M%.2f %.2fL%.2f %.2f\" class=\"%s\"/><path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fZ\" class=\"%s\"/>\n", x1, y1,
                bx, by, line, x2, y2, bx - 3 * uy, by + 3 * ux, bx + 3 * uy, by - 3 * ux, head);
}

/* The part of a force in the plane of the paper. toward: its tip stands at the place (a load), else its tail. */
static void put_force(const frame_paper *v, const double force[RBOW_AXES], const double at[RBOW_AXES], double most, const char *line,
                      const char *head)
{
    double x, y, fx = 0, fy = 0;
    for (int k = 0; k < RBOW_AXES; k++) {
        fx += force[k] * v->right[k];
        fy -= force[k] * v->up[k];
    }
    const double seen = hypot(fx, fy), negligible = 0.02;
    if (!(seen > negligible * most)) return;
    const double length = ARROW_LEAST + (ARROW_MOST - ARROW_LEAST) * sqrt(seen / most), gap = 6;
    frame_on_paper(v, at, &x, &y);
    const double ux = fx / seen, uy = fy / seen;
    put_arrow(v, x - (length + gap) * ux, y - (length + gap) * uy, x - gap * ux, y - gap * uy, line, head);
}

void frame_loads_put(const frame_paper *v, const frame_answers *a, size_t run)
{
    const frame_model *m = a->model;
    const rbow_frame_run *r = &m->runs[run].run;
    const double most = largest_force(a, run);
    for (size_t i = 0; i < m->joint_count; i++)
        put_force(v, a->joints[run * m->joint_count + i].result.react, frame_place(m, i), most, "quiet-line", "support");
    for (size_t i = 0; i < r->load_count; i++) {
        double force[RBOW_AXES], at[RBOW_AXES];
        if (r->loads[i].acts_on == RBOW_ACTS_ON_ALL) continue;
        load_force(m, &r->loads[i], force, at);
        put_force(v, force, at, most, "plain", "head");
    }
}

static void put_g(text *out, const rbow_frame_run *r)
{
    double g[RBOW_AXES] = {0};
    static const char *const ways[RBOW_AXES][2] = {{"forward", "backward"}, {"to the left", "to the right"}, {"down", "up"}};
    const char *before = " On all weight act ";
    for (size_t i = 0; i < r->load_count; i++) {
        if (r->loads[i].acts_on != RBOW_ACTS_ON_ALL) continue;
        g[RBOW_X] += r->loads[i].forward_g;
        g[RBOW_Y] += r->loads[i].left_g;
        g[RBOW_Z] += r->loads[i].vertical_g;
    }
    for (int k = RBOW_AXES - 1; k >= 0; k--) {
        if (!(fabs(g[k]) > 0)) continue;
        text_format(out, "%s%.4g g %s", before, fabs(g[k]), ways[k][g[k] < 0]);
        before = ", ";
    }
    if (*before == ',') text_put(out, " (not drawn).");
}

static bool has_moment(const rbow_frame_run *r)
{
    for (size_t i = 0; i < r->load_count; i++)
        if (size_of(r->loads[i].moment) > 0) return true;
    return false;
}

void frame_loads_caption(text *out, const frame_answers *a, size_t run, unit_system units)
{
    const rbow_frame_run *r = &a->model->runs[run].run;
    text_put(out, "<p class=\"about\">A tube is drawn by its smallest margin in any run. Forward is to the right from the side and from above; from the front the right of the paper is the left of the frame. The longest arrow is ");
    page_quantity(out, largest_force(a, run), DIM_FORCE, units);
    text_put(out, "; the length of an arrow goes with the root of its force.");
    put_g(out, r);
    if (has_moment(r)) text_put(out, " Moments on joints are not drawn.");
    text_put(out, "</p>\n");
}
