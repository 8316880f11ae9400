#include "frame/order.h"
#include "frame/run.h"

#include "frame/assemble.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

/* ---- numbers of motions ------------------------------------------------------------------------------------ */

/* A joint to which every tube is pinned does not turn. */
static bool turns(const rbow_frame *f, size_t joint)
{
    for (size_t i = 0; i < f->tube_count; i++) {
        const rbow_frame_tube *t = &f->tubes[i];
        if ((t->from == joint && t->end_a > 0) || (t->to == joint && t->end_b > 0)) return true;
    }
    return false;
}

static void number_motions(rbow_frame_solver *s, const uint32_t *order)
{
    const rbow_frame *f = &s->frame;
    int next = 0;
    for (size_t i = 0; i < f->joint_count; i++) {
        const size_t joint = order != NULL ? order[i] : i;
        const bool free_turns = turns(f, joint);
        for (int k = 0; k < RBOW_MOTIONS; k++) {
            const bool moves = !(f->joints[joint].held >> k & 1) && (k < RBOW_AXES || free_turns);
            s->place[joint * RBOW_MOTIONS + (size_t)k] = moves ? next++ : -1;
        }
    }
    s->size = (size_t)next;
}

static size_t width_of(const rbow_frame_solver *s)
{
    int most = 0;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        int low = INT32_MAX, high = -1;
        for (int k = 0; k < ENDS * RBOW_MOTIONS; k++) {
            const size_t joint = k < RBOW_MOTIONS ? s->frame.tubes[i].from : s->frame.tubes[i].to;
            const int place = s->place[joint * RBOW_MOTIONS + (size_t)(k % RBOW_MOTIONS)];
            if (place < 0) continue;
            low = place < low ? place : low;
            high = place > high ? place : high;
        }
        if (high - low > most && high >= 0) most = high - low;
    }
    return (size_t)most;
}

/* ---- memory ------------------------------------------------------------------------------------------------ */

/* The order is found in room on the stack. A frame that is too large for it keeps the order in which it was given. */
enum { ORDER_ROOM = 1 << 16 };

static bool find_order(const rbow_frame *f, uint32_t *room, uint32_t **order)
{
    const size_t need = rbow_frame_order_room(f);
    if (need + f->joint_count > ORDER_ROOM) return false;
    *order = room + need;
    rbow_frame_order(f, room, *order);
    return true;
}

typedef struct shelf { /* room that is handed out from one end; without a base it is only counted */
    char *base;
    size_t used;
} shelf;

static void *take(shelf *m, size_t count, size_t size)
{
    const size_t start = (m->used + _Alignof(max_align_t) - 1) / _Alignof(max_align_t) * _Alignof(max_align_t);
    m->used = start + count * size;
    return m->base != NULL ? m->base + start : NULL;
}

#define TAKE(shelf, pointer, count) ((pointer) = take(shelf, count, sizeof *(pointer)))

static void take_room(rbow_frame_solver *s, shelf *m, size_t size, size_t width)
{
    const size_t joints = s->frame.joint_count, tubes = s->frame.tube_count, motions = joints * RBOW_MOTIONS;
    TAKE(m, s->tubes, tubes);
    TAKE(m, s->applied, motions);
    TAKE(m, s->balance, motions);
    TAKE(m, s->motion, motions);
    TAKE(m, s->change, motions);
    TAKE(m, s->axial, tubes);
    TAKE(m, s->unknowns, size);
    TAKE(m, s->stiffness.at, size * (width + 1));
    TAKE(m, s->stiffness.diagonal, size);
    TAKE(m, s->tangent.at, size * (2 * width + 1));
    TAKE(m, s->tangent.diagonal, size);
    for (int i = 0; i < STATES_KEPT; i++) TAKE(m, s->known[i].motion, motions);
    for (int i = 0; i < NODES; i++) TAKE(m, s->nodes[i], tubes);
    for (int i = 0; i < 2; i++) {
        TAKE(m, s->first_order[i], tubes);
        TAKE(m, s->results[i], tubes);
        for (int k = 0; k < 2; k++) TAKE(m, s->limits[i][k], tubes);
    }
}

/* The solver and its room in memory; without memory the bytes are only counted. */
static size_t lay_out(const rbow_frame *f, void *memory)
{
    uint32_t room[ORDER_ROOM], *order = NULL;
    rbow_frame_solver counted, *s = &counted;
    shelf m = {memory, 0};
    if (!find_order(f, room, &order)) order = NULL;
    rbow_frame_solver *in_place = take(&m, 1, sizeof *s);
    if (memory != NULL) s = in_place;
    memset(s, 0, sizeof *s);
    s->frame = *f;
    TAKE(&m, s->place, f->joint_count * RBOW_MOTIONS);
    size_t size = f->joint_count * RBOW_MOTIONS, width = rbow_frame_order_width(f, order) * RBOW_MOTIONS + RBOW_MOTIONS - 1;
    if (memory != NULL) {
        number_motions(s, order);
        size = s->size;
        width = width_of(s);
        s->stiffness.size = s->tangent.size = size;
        s->stiffness.width = s->tangent.width = width;
    }
    take_room(s, &m, size, width);
    return m.used;
}

size_t rbow_frame_memory(const rbow_frame *frame)
{
    return lay_out(frame, NULL);
}

/* ---- whether it is held -------------------------------------------------------------------------------------- */

static double frame_size(const rbow_frame *f)
{
    double low[RBOW_AXES] = {INFINITY, INFINITY, INFINITY}, high[RBOW_AXES] = {-INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < f->joint_count; i++)
        for (int k = 0; k < RBOW_AXES; k++) {
            low[k] = fmin(low[k], f->joints[i].at[k]);
            high[k] = fmax(high[k], f->joints[i].at[k]);
        }
    return hypot(hypot(high[0] - low[0], high[1] - low[1]), high[2] - low[2]);
}

/* The joint that moves most in the motion of a pivot that is all but 0. */
static void tell_loose(rbow_frame_solver *s, size_t at, rbow_frame_loose *loose)
{
    const double turn = frame_size(&s->frame);
    double most = 0;
    rbow_band_null(&s->stiffness, at, s->unknowns);
    rbow_frame_spread(s, s->unknowns, s->motion);
    *loose = (rbow_frame_loose){.joint = 0};
    for (size_t i = 0; i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_MOTIONS; k++) {
            double *m = &motions_of(s->motion, i)[k];
            if (k >= RBOW_AXES) *m *= turn;
            if (fabs(*m) > most * (1 + 1e-9)) {
                most = fabs(*m);
                loose->joint = i;
            }
        }
    for (int k = 0; k < RBOW_MOTIONS; k++) loose->motion[k] = motions_of(s->motion, loose->joint)[k] / most;
}

static bool is_held(rbow_frame_solver *s, rbow_frame_loose *loose)
{
    memset(s->axial, 0, s->frame.tube_count * sizeof *s->axial);
    const pivots p = rbow_frame_factor_stiffness(s, s->axial);
    if (p.loose_at == s->size) return true;
    if (loose != NULL) tell_loose(s, p.loose_at, loose);
    return false;
}

rbow_status rbow_frame_open(const rbow_frame *frame, void *memory, rbow_frame_solver **solver, rbow_frame_loose *loose)
{
    *solver = NULL;
    if (loose != NULL) *loose = (rbow_frame_loose){.joint = 0};
    if (rbow_frame_faults(frame, NULL, 0) > 0) return RBOW_OUT_OF_RANGE;
    lay_out(frame, memory);
    rbow_frame_solver *s = memory;
    for (size_t i = 0; i < frame->tube_count; i++) {
        const rbow_status status = rbow_frame_prepare_tube(frame, i, false, 0, &s->tubes[i]);
        if (status != RBOW_OK) return RBOW_NO_CONVERGENCE;
    }
    if (!is_held(s, loose)) return RBOW_FRAME_NOT_HELD;
    *solver = s;
    return RBOW_OK;
}
