#include "report/page/frame/frame_paper.h"

#include "report/page/parts.h"

#include <math.h>
#include <stdlib.h>

enum { EDGE = 40, SQUARE_EDGE = 30, HIGH_MOST = 300 };

/* ---- directions --------------------------------------------------------------------------------------------- */

/* Sine of an angle in degrees, exact at quarters of a turn: the views from side, top and front have no rounding. */
static double sine(double degrees)
{
    const double quarter = 90, turned = fmod(degrees, 4 * quarter), pi = 3.14159265358979323846;
    if (!(fabs(fmod(turned, quarter)) > 0)) {
        const int quarters = ((int)(turned / quarter) + 4) % 4;
        return quarters == 1 ? 1 : quarters == 3 ? -1 : 0;
    }
    return sin(turned * pi / 180);
}

static double cosine(double degrees)
{
    return sine(fmod(degrees, 360) + 90);
}

void frame_paper_turn(frame_paper *v, frame_direction from)
{
    const double sin_a = sine(from.azimuth), cos_a = cosine(from.azimuth), sin_e = sine(from.elevation), cos_e = cosine(from.elevation);
    const double right[RBOW_AXES] = {cos_a, sin_a, 0}, up[RBOW_AXES] = {-sin_a * sin_e, cos_a * sin_e, cos_e};
    const double toward[RBOW_AXES] = {sin_a * cos_e, -cos_a * cos_e, sin_e};
    for (int k = 0; k < RBOW_AXES; k++) {
        v->right[k] = right[k];
        v->up[k] = up[k];
        v->toward[k] = toward[k];
    }
}

/* ---- size --------------------------------------------------------------------------------------------------- */

static void stretch(const frame_model *m, const double way[RBOW_AXES], double *low, double *high)
{
    *low = INFINITY;
    *high = -INFINITY;
    for (size_t i = 0; i < m->joint_count; i++) page_stretch(dot(frame_place(m, i), way), low, high);
}

/* The middle of the box along the axes that holds the frame. Returned: the radius of the sphere about it that does. */
static double sphere(const frame_model *m, double middle[RBOW_AXES])
{
    double radius = 0;
    for (int k = 0; k < RBOW_AXES; k++) {
        double axis[RBOW_AXES] = {0}, low, high;
        axis[k] = 1;
        stretch(m, axis, &low, &high);
        middle[k] = (low + high) / 2;
    }
    for (size_t i = 0; i < m->joint_count; i++) {
        const double *at = frame_place(m, i);
        radius = fmax(radius, hypot(hypot(at[0] - middle[0], at[1] - middle[1]), at[2] - middle[2]));
    }
    return radius;
}

frame_paper frame_paper_for(text *out, const frame_model *m, frame_direction from)
{
    frame_paper v = {.out = out};
    double low[2], high[2], middle[RBOW_AXES];
    const double room = FIGURE_WIDTH - 2 * EDGE, nothing = 1e-9 * sphere(m, middle); /* a frame seen end on is a point */
    frame_paper_turn(&v, from);
    stretch(m, v.right, &low[0], &high[0]);
    stretch(m, v.up, &low[1], &high[1]);
    const double wide = high[0] - low[0], tall = high[1] - low[1];
    v.scale = fmin(room / fmax(wide, nothing), (HIGH_MOST - 2 * EDGE) / fmax(tall, nothing));
    v.high = v.scale * tall + 2 * EDGE;
    v.left = (FIGURE_WIDTH - v.scale * wide) / 2 - v.scale * low[0];
    v.top = v.high - EDGE + v.scale * low[1];
    return v;
}

frame_paper frame_paper_square(text *out, const frame_model *m, frame_direction from)
{
    frame_paper v = {.out = out, .high = FIGURE_WIDTH};
    double middle[RBOW_AXES];
    frame_paper_turn(&v, from);
    v.scale = (FIGURE_WIDTH / 2 - SQUARE_EDGE) / sphere(m, middle);
    v.left = FIGURE_WIDTH / 2 - v.scale * dot(middle, v.right);
    v.top = FIGURE_WIDTH / 2 + v.scale * dot(middle, v.up);
    return v;
}

void frame_on_paper(const frame_paper *v, const double at[RBOW_AXES], double *x, double *y)
{
    *x = v->left + v->scale * dot(at, v->right);
    *y = v->top - v->scale * dot(at, v->up);
}

/* ---- depth -------------------------------------------------------------------------------------------------- */

typedef struct tube_depth {
    double near;
    size_t tube;
} tube_depth;

static int by_depth(const void *a, const void *b)
{
    const tube_depth *x = a, *y = b;
    if (x->near < y->near || x->near > y->near) return x->near < y->near ? -1 : 1;
    return x->tube < y->tube ? -1 : 1;
}

/* Depths that differ by rounding alone count as equal, so that the order is the same on every machine. */
static double depth_of(const frame_paper *v, const frame_model *m, size_t tube)
{
    const rbow_frame_tube *t = &m->frame.tubes[tube];
    const double near = (dot(frame_place(m, t->from), v->toward) + dot(frame_place(m, t->to), v->toward)) / 2, step = 1e-6;
    return floor(near * v->scale / step + 0.5) * step;
}

size_t *frame_far_first(const frame_paper *v, const frame_model *m)
{
    tube_depth *depths = malloc((m->tube_count + 1) * sizeof *depths);
    size_t *order = malloc((m->tube_count + 1) * sizeof *order);
    if (depths != NULL && order != NULL) {
        for (size_t i = 0; i < m->tube_count; i++) depths[i] = (tube_depth){depth_of(v, m, i), i};
        qsort(depths, m->tube_count, sizeof *depths, by_depth);
        for (size_t i = 0; i < m->tube_count; i++) order[i] = depths[i].tube;
        free(depths);
        return order;
    }
    free(depths);
    free(order);
    return NULL;
}
