#include "frame/directions.h"

#include <math.h>

static void cross3(const double a[RBOW_AXES], const double b[RBOW_AXES], double out[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) {
        const int j = (i + 1) % RBOW_AXES, k = (i + 2) % RBOW_AXES;
        out[i] = a[j] * b[k] - a[k] * b[j];
    }
}

static double length3(const double v[RBOW_AXES])
{
    return hypot(hypot(v[RBOW_X], v[RBOW_Y]), v[RBOW_Z]);
}

/* The part of +z across the tube, as e_x crossed with (z crossed with e_x); within 0.1 deg of vertical that of +x. */
static const double upright = 1.7453283658983088e-3; /* sin 0.1 deg */

void rbow_frame_directions(const rbow_frame *f, const rbow_frame_tube *from, frame_tube *t)
{
    const double *a = f->joints[from->from].at, *b = f->joints[from->to].at;
    double level[RBOW_AXES];
    for (int i = 0; i < RBOW_AXES; i++) t->axis[i] = b[i] - a[i];
    const double length = length3(t->axis);
    for (int i = 0; i < RBOW_AXES; i++) t->axis[i] /= length;
    const bool vertical = hypot(t->axis[RBOW_X], t->axis[RBOW_Y]) <= upright;
    const double toward[RBOW_AXES] = {vertical ? 1 : 0, 0, vertical ? 0 : 1};
    cross3(t->axis, toward, level);
    const double size = length3(level);
    for (int i = 0; i < RBOW_AXES; i++) t->side[RIGHT][i] = level[i] / size;
    cross3(t->side[RIGHT], t->axis, t->side[UP]);
}
