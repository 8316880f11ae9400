#include "working/frame_picture.h"

#include <math.h>

const double *frame_place(const frame_model *m, size_t joint)
{
    return m->frame.joints[joint].at;
}

typedef struct directions {
    double along[RBOW_AXES], up[RBOW_AXES], right[RBOW_AXES], length;
} directions;

static double dot(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static directions directions_of(const frame_model *m, size_t tube)
{
    const rbow_frame_tube *t = &m->frame.tubes[tube];
    directions d;
    double apart[RBOW_AXES];
    rbow_frame_directions(&m->frame, tube, d.along, d.up, d.right);
    for (int i = 0; i < RBOW_AXES; i++) apart[i] = frame_place(m, t->to)[i] - frame_place(m, t->from)[i];
    d.length = sqrt(dot(apart, apart));
    return d;
}

/* Movement across the tube from its profile, along it from joint to joint. */
static void take_shape(frame_shape *shape, const directions *d, const double from[RBOW_AXES], const rbow_profile profile[],
                       const double move_a[RBOW_AXES], const double move_b[RBOW_AXES])
{
    for (int i = 0; i < FRAME_SHAPE_STATIONS; i++) {
        const double share = (double)i / (FRAME_SHAPE_STATIONS - 1);
        const double along = (1 - share) * dot(move_a, d->along) + share * dot(move_b, d->along);
        for (int k = 0; k < RBOW_AXES; k++) {
            shape->drawn[i][k] = from[k] + share * d->length * d->along[k];
            shape->moved[i][k] = along * d->along[k] + profile[i].deflection_up * d->up[k] + profile[i].deflection_right * d->right[k];
        }
    }
}

/* The profile as built; NaN without a state. */
static void take_profile(rbow_profile profile[], size_t count, rbow_frame_solver *solver, const rbow_frame_run *run, double factor, size_t tube)
{
    if (rbow_frame_profile(solver, run, factor, RBOW_FRAME_AS_BUILT, tube, profile, count) == RBOW_OK) return;
    const double none = (double)NAN;
    for (size_t i = 0; i < count; i++)
        profile[i] = (rbow_profile){.at = profile[i].at, .moment_up = none, .moment_right = none, .deflection_up = none, .deflection_right = none,
                                    .shear_up = none, .shear_right = none};
}

void frame_shapes_of(frame_shape *shapes, rbow_frame_solver *solver, const frame_model *m, size_t run, const frame_joint_answer *joints)
{
    const rbow_frame_run *loads = &m->runs[run].run;
    for (size_t tube = 0; tube < m->tube_count; tube++) {
        const rbow_frame_tube *t = &m->frame.tubes[tube];
        const directions d = directions_of(m, tube);
        rbow_profile profile[FRAME_SHAPE_STATIONS];
        for (int i = 0; i < FRAME_SHAPE_STATIONS; i++) profile[i].at = d.length * i / (FRAME_SHAPE_STATIONS - 1);
        take_profile(profile, FRAME_SHAPE_STATIONS, solver, loads, 1, tube);
        take_shape(&shapes[tube], &d, frame_place(m, t->from), profile, joints[t->from].result.move, joints[t->to].result.move);
    }
}

static void take_moments(double to[], const rbow_profile profile[])
{
    for (int i = 0; i < FRAME_MOMENT_STATIONS; i++) to[i] = hypot(profile[i].moment_up, profile[i].moment_right);
}

void frame_moments_of(frame_moments *moments, rbow_frame_solver *solver, const frame_model *m, size_t run, size_t tube)
{
    const rbow_frame_run *loads = &m->runs[run].run;
    const double length = directions_of(m, tube).length;
    rbow_profile profile[FRAME_MOMENT_STATIONS];
    for (int i = 0; i < FRAME_MOMENT_STATIONS; i++) moments->at[i] = profile[i].at = length * i / (FRAME_MOMENT_STATIONS - 1);
    take_profile(profile, FRAME_MOMENT_STATIONS, solver, loads, 0, tube);
    take_moments(moments->locked, profile);
    take_profile(profile, FRAME_MOMENT_STATIONS, solver, loads, 1, tube);
    take_moments(moments->loaded, profile);
}
