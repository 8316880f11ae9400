#include "frame/order.h"
#include "frame/solver.h"
#include "frame/stiffness.h"

#include <railbow/clock.h>

#include <gsl/gsl_math.h>
#include <stdlib.h>
#include <string.h>

/* ---- room ---------------------------------------------------------------------------------------------- */

typedef struct room { /* the caller's memory, or NULL to count what is needed */
    char *at;
    size_t used;
} room;

static void *take(room *r, size_t bytes)
{
    const size_t from = (r->used + 63) / 64 * 64;
    r->used = from + bytes;
    return r->at != NULL ? r->at + from : NULL;
}

static size_t order_room(const rbow_frame *f)
{
    return (5 * f->joint_count + 2 + 2 * f->tube_count) * sizeof(size_t);
}

/* The arrays of a solver whose frame, count and band are known. */
static void lay_out(rbow_frame_solver *s, room *r)
{
    const size_t n = s->count, joints = s->frame.joint_count, tubes = s->frame.tube_count, rows = n > 0 ? n : 1;
    double *stiffness = take(r, rows * (s->band + 1) * sizeof(double));
    s->unloaded = take(r, rows * (s->band + 1) * sizeof *s->unloaded);
    double *tangent = take(r, rows * (3 * s->band + 1) * sizeof(double)), *step = take(r, rows * sizeof(double));
    unsigned *pivots = take(r, rows * sizeof(unsigned));
    s->tubes = take(r, tubes * sizeof *s->tubes);
    s->place = take(r, joints * RBOW_MOTIONS * sizeof *s->place);
    s->applied = take(r, joints * RBOW_MOTIONS * sizeof *s->applied);
    s->axial = take(r, tubes * sizeof *s->axial);
    s->reached = take(r, tubes * sizeof *s->reached);
    s->sides = take(r, tubes * sizeof *s->sides);
    s->other_side = take(r, tubes * sizeof *s->other_side);
    s->alone = take(r, tubes * sizeof *s->alone);
    s->rest = take(r, rows * sizeof *s->rest);
    s->rows = take(r, ROWS * rows * sizeof *s->rows);
    if (r->at == NULL) return;
    s->stiffness = gsl_matrix_view_array(stiffness, rows, s->band + 1).matrix;
    s->tangent = gsl_matrix_view_array(tangent, rows, 3 * s->band + 1).matrix;
    s->step = gsl_vector_view_array(step, rows).vector;
    s->pivots = gsl_vector_uint_view_array(pivots, rows).vector;
}

/* ---- unknowns ------------------------------------------------------------------------------------------- */

static bool turns(const rbow_frame *f, size_t joint)
{
    for (size_t i = 0; i < f->tube_count; i++) {
        const rbow_frame_tube *t = &f->tubes[i];
        if ((t->from == joint && t->end_a > 0) || (t->to == joint && t->end_b > 0)) return true;
    }
    return false;
}

static size_t number_motions(const rbow_frame *f, const size_t *order, int *place)
{
    int count = 0;
    for (size_t i = 0; i < f->joint_count; i++) {
        const size_t joint = order[i];
        const bool turning = turns(f, joint);
        for (int k = 0; k < RBOW_MOTIONS; k++) {
            const bool held = (f->joints[joint].held >> k & 1) != 0;
            place[joint * RBOW_MOTIONS + (size_t)k] = held || (k >= RBOW_AXES && !turning) ? -1 : count++;
        }
    }
    return (size_t)count;
}

static void raise(int place, int *low, int *high)
{
    if (place < 0) return;
    if (*high < 0 || place < *low) *low = place;
    if (place > *high) *high = place;
}

static size_t band_of(const rbow_frame *f, const int *place)
{
    int band = 0;
    for (size_t i = 0; i < f->tube_count; i++) {
        int low = 0, high = -1;
        for (size_t k = 0; k < RBOW_MOTIONS; k++) {
            raise(place[f->tubes[i].from * RBOW_MOTIONS + k], &low, &high);
            raise(place[f->tubes[i].to * RBOW_MOTIONS + k], &low, &high);
        }
        if (high - low > band) band = high - low;
    }
    return (size_t)band;
}

/* The order of the joints (that of the frame `ordered`) and what follows from it need room that is returned before the solver is
 * laid out. */
static bool count_unknowns(const rbow_frame *f, const rbow_frame *ordered, rbow_frame_solver *s)
{
    size_t *work = malloc(order_room(ordered)), *order = malloc(f->joint_count * sizeof *order);
    int *place = malloc(f->joint_count * RBOW_MOTIONS * sizeof *place);
    const bool got = work != NULL && order != NULL && place != NULL;
    if (got) {
        rbow_frame_order(ordered, work, order);
        s->count = number_motions(f, order, place);
        s->band = band_of(f, place);
        if (s->place != NULL) memcpy(s->place, place, f->joint_count * RBOW_MOTIONS * sizeof *place);
    }
    free(work);
    free(order);
    free(place);
    return got;
}

size_t rbow_frame_memory(const rbow_frame *f)
{
    rbow_frame_solver s = {.frame = *f};
    room r = {NULL, 0};
    if (!count_unknowns(f, f, &s)) return 0;
    take(&r, sizeof s);
    lay_out(&s, &r);
    return r.used;
}

/* ---- tubes ---------------------------------------------------------------------------------------------- */

static void cross(const double a[RBOW_AXES], const double b[RBOW_AXES], double out[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) {
        const int j = (i + 1) % RBOW_AXES, k = (i + 2) % RBOW_AXES;
        out[i] = a[j] * b[k] - a[k] * b[j];
    }
}

/* Up is the part of +z across the tube; for a tube within 0.1 deg of vertical it is the part of +x. */
void rbow_frame_set_directions(const rbow_frame *f, const rbow_frame_tube *from, frame_tube *t)
{
    const double *a = f->joints[from->from].at, *b = f->joints[from->to].at, nearly_vertical = 0.1 * M_PI / 180;
    for (int i = 0; i < RBOW_AXES; i++) t->axis[i] = (b[i] - a[i]) / t->length;
    const double level = hypot(t->axis[RBOW_X], t->axis[RBOW_Y]);
    const int pole = level < sin(nearly_vertical) ? RBOW_X : RBOW_Z;
    double *up = t->side[UP], size = 0;
    for (int i = 0; i < RBOW_AXES; i++) up[i] = (i == pole ? 1 : 0) - t->axis[pole] * t->axis[i];
    size = sqrt(dot3(up, up));
    for (int i = 0; i < RBOW_AXES; i++) up[i] /= size;
    cross(t->axis, up, t->side[RIGHT]);
    for (int i = 0; i < RBOW_AXES; i++) {
        t->turn_axis[UP][i] = t->side[RIGHT][i];
        t->turn_axis[RIGHT][i] = -up[i];
    }
}

static void components(double size, double clock, double out[PLANES])
{
    out[UP] = out[RIGHT] = 0;
    if (fabs(size) > 0) rbow_clock_components(size, clock, out);
}

/* A column's critical load is that of its fixity; the tube's own is that of its ends. */
static rbow_status prepare_member(const rbow_frame *f, const rbow_frame_tube *from, double point_at, frame_tube *t)
{
    rbow_member m = rbow_frame_member(f, from);
    prepared *p = &t->member;
    if (isfinite(point_at)) {
        m.point_load = 1;
        m.point_at = fmin(point_at, m.length);
    }
    rbow_status status = rbow_prepare(&m, from->material, p);
    if (status != RBOW_OK) return status;
    p->column_critical_load = from->fixity * M_PI * M_PI * p->unit / m.length;
    return rbow_prepare_column(p, from->material);
}

static rbow_status open_tube(const rbow_frame *f, const rbow_frame_tube *from, frame_tube *t)
{
    const bool pinned = !(from->end_a > 0 && from->end_b > 0);
    memset(t, 0, sizeof *t);
    const rbow_status status = prepare_member(f, from, NAN, t);
    if (status != RBOW_OK) return status;
    const rbow_member *m = &t->member.member;
    t->couple_axial = NAN;
    t->joint[END_A] = from->from;
    t->joint[END_B] = from->to;
    t->length = m->length;
    t->stretch = t->member.axial_stiffness / m->length;
    t->twist = pinned ? 0 : from->material->shear_modulus * t->member.zones[ZONE_TUBE].strength.section.polar_inertia / m->length;
    t->gap = from->gap;
    t->point_at = m->length;
    t->bow_unknown = from->bow > 0 && end_is(from->bow_clock, RBOW_ANY_CLOCK);
    rbow_frame_set_directions(f, from, t);
    components(from->miss_a / m->length, m->miss_a_clock, t->slope[END_A]);
    components(from->miss_b / m->length, m->miss_b_clock, t->slope[END_B]);
    components(from->bow / m->length, m->bow_clock, t->bow);
    return RBOW_OK;
}

rbow_status rbow_frame_open_part(const rbow_frame *f, const rbow_frame *whole, void *memory, rbow_frame_solver **solver,
                                 rbow_frame_loose *loose)
{
    room r = {memory, 0};
    *solver = NULL;
    rbow_frame_solver *s = take(&r, sizeof *s);
    memset(s, 0, sizeof *s);
    s->frame = *f;
    if (!count_unknowns(f, whole, s)) return RBOW_NO_MEMORY;
    lay_out(s, &r);
    if (!count_unknowns(f, whole, s)) return RBOW_NO_MEMORY;
    for (size_t i = 0; i < f->tube_count; i++) {
        const rbow_status status = open_tube(f, &f->tubes[i], &s->tubes[i]);
        if (status != RBOW_OK) return status;
    }
    memset(s->applied, 0, f->joint_count * RBOW_MOTIONS * sizeof *s->applied);
    if (!rbow_frame_is_held(s, loose)) return RBOW_FRAME_NOT_HELD;
    *solver = s;
    return RBOW_OK;
}

rbow_status rbow_frame_open(const rbow_frame *f, void *memory, rbow_frame_solver **solver, rbow_frame_loose *loose)
{
    *solver = NULL;
    if (memory == NULL || rbow_frame_faults(f, NULL, 0) > 0) return RBOW_OUT_OF_RANGE;
    return rbow_frame_open_part(f, f, memory, solver, loose);
}

/* ---- run ------------------------------------------------------------------------------------------------ */

static void push(rbow_frame_solver *s, size_t joint, int first, const double force[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) s->applied[joint * RBOW_MOTIONS + (size_t)(first + i)] += force[i];
}

/* What acts along the tube goes to its two joints by the lever rule. */
static void load_point(frame_tube *t, const double force[RBOW_AXES], double at)
{
    for (int i = 0; i < PLANES; i++) t->point[i] += dot3(force, t->side[i]);
    t->along[END_A] += dot3(force, t->axis) * (1 - at / t->length);
    t->along[END_B] += dot3(force, t->axis) * (at / t->length);
    t->point_at = at;
}

static void load_spread(frame_tube *t, const double spread[RBOW_AXES])
{
    for (int i = 0; i < PLANES; i++) t->spread[i] += dot3(spread, t->side[i]);
    for (int i = 0; i < ENDS; i++) t->along[i] += dot3(spread, t->axis) * t->length / 2;
}

static void load_weights(rbow_frame_solver *s, const rbow_frame_load *l)
{
    const double g[RBOW_AXES] = {l->forward_g, l->left_g, -l->vertical_g};
    for (size_t i = 0; i < s->frame.joint_count; i++) {
        double force[RBOW_AXES];
        for (int k = 0; k < RBOW_AXES; k++) force[k] = g[k] * s->frame.joints[i].mass;
        push(s, i, 0, force);
    }
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        double spread[RBOW_AXES];
        for (int k = 0; k < RBOW_AXES; k++) spread[k] = g[k] * t->member.weight / t->length;
        load_spread(t, spread);
    }
}

static void load_one(rbow_frame_solver *s, const rbow_frame_load *l)
{
    if (l->acts_on == RBOW_ACTS_ON_ALL) load_weights(s, l);
    if (l->acts_on == RBOW_ACTS_ON_JOINT) {
        push(s, l->index, 0, l->force);
        push(s, l->index, RBOW_AXES, l->moment);
    }
    if (l->acts_on != RBOW_ACTS_ON_TUBE) return;
    frame_tube *t = &s->tubes[l->index];
    const bool point = fabs(l->force[0]) > 0 || fabs(l->force[1]) > 0 || fabs(l->force[2]) > 0;
    if (point) load_point(t, l->force, fmin(or_middle(l->at, t->length), t->length));
    load_spread(t, l->spread);
}

rbow_status rbow_frame_set_run(rbow_frame_solver *s, const rbow_frame_run *run)
{
    if (rbow_frame_run_faults(&s->frame, run, NULL, 0) > 0) return RBOW_OUT_OF_RANGE;
    memset(s->applied, 0, s->frame.joint_count * RBOW_MOTIONS * sizeof *s->applied);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        memset(t->point, 0, sizeof t->point);
        memset(t->spread, 0, sizeof t->spread);
        memset(t->along, 0, sizeof t->along);
        t->point_at = t->length;
    }
    for (size_t i = 0; i < run->load_count; i++) load_one(s, &run->loads[i]);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        const bool wanted = fabs(t->point[UP]) > 0 || fabs(t->point[RIGHT]) > 0;
        if (!wanted && !t->member.beam.has_point) continue;
        const rbow_status status = prepare_member(&s->frame, &s->frame.tubes[i], wanted ? t->point_at : (double)NAN, t);
        if (status != RBOW_OK) return status;
    }
    s->run = run;
    return RBOW_OK;
}
