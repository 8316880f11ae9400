/* In each plane, with v_J, theta_J the movement and turn of the joints, s the slopes of the misses, and d, t, u the bending, turning
 * and stretching of a stub on its root under its own loads:
 *     face A   v_A + (theta_A + s_a) x + d_a             slope   theta_A + s_a + t_a
 *     face B   v_B - (theta_B - s_b)(L - x) + d_b        slope   theta_B - s_b - t_b
 *     opened   u_B - u_A + gap, u along the tube
 * since the springs are relaxed at the slopes theta_A + s_a and theta_B - s_b, and a tube that was pulled is too short by its gap.
 * The bow is the same on both faces. */
#include "frame/cut_stubs.h"

#include <railbow/clock.h>

#include <string.h>

static void add_scaled(double to[RBOW_AXES], double size, const double direction[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) to[i] += size * direction[i];
}

static void take_load(cut_stubs *s, const frame_tube *t, const rbow_frame_load *l, size_t tube)
{
    const double g[RBOW_AXES] = {l->forward_g, l->left_g, -l->vertical_g};
    if (l->acts_on == RBOW_ACTS_ON_ALL) add_scaled(s->spread, t->member.weight / t->length, g);
    if (l->acts_on != RBOW_ACTS_ON_TUBE || l->index != tube) return;
    add_scaled(s->spread, 1, l->spread);
    add_scaled(s->point, 1, l->force);
    if (dot3(l->force, l->force) > 0) s->point_at = fmin(or_middle(l->at, t->length), t->length);
}

void rbow_cut_stubs(cut_stubs *s, const frame_tube *t, const rbow_frame_tube *from, const rbow_frame_cut_place *cut,
                    const rbow_frame_run *run)
{
    memset(s, 0, sizeof *s);
    memcpy(s->joint, t->joint, sizeof s->joint);
    memcpy(s->axis, t->axis, sizeof s->axis);
    memcpy(s->side, t->side, sizeof s->side);
    memcpy(s->turn_axis, t->turn_axis, sizeof s->turn_axis);
    memcpy(s->slope, t->slope, sizeof s->slope);
    s->at = cut->at;
    s->length = t->length;
    s->bending = t->member.unit * t->length;
    s->stretching = t->member.axial_stiffness;
    s->root[END_A] = from->end_a;
    s->root[END_B] = from->end_b;
    s->gap = t->gap;
    for (size_t i = 0; run != NULL && i < run->load_count; i++) take_load(s, t, &run->loads[i], cut->tube);
}

/* ---- one stub ------------------------------------------------------------------------------------------- */

static double stub_length(const cut_stubs *s, int end)
{
    return end == END_A ? s->at : s->length - s->at;
}

/* Where the point load acts on a stub, from its root. Returned: whether it acts there */
static bool has_point(const cut_stubs *s, int end, double *from_root)
{
    *from_root = end == END_A ? s->point_at : s->length - s->point_at;
    return (s->point_at <= s->at) == (end == END_A);
}

static void put_load(const cut_stubs *s, int end, const double force[RBOW_AXES], double from_root, double *applied)
{
    double *on = applied + s->joint[end] * RBOW_MOTIONS, arm[RBOW_AXES];
    for (int i = 0; i < RBOW_AXES; i++) arm[i] = (end == END_A ? from_root : -from_root) * s->axis[i];
    for (int i = 0; i < RBOW_AXES; i++) {
        const int j = (i + 1) % RBOW_AXES, k = (i + 2) % RBOW_AXES;
        on[i] += force[i];
        on[RBOW_AXES + i] += arm[j] * force[k] - arm[k] * force[j];
    }
}

void rbow_cut_stub_loads(const cut_stubs *s, double *applied)
{
    for (int end = 0; end < ENDS; end++) {
        double whole[RBOW_AXES] = {0}, from_root;
        const double length = stub_length(s, end);
        add_scaled(whole, length, s->spread);
        put_load(s, end, whole, length / 2, applied);
        if (has_point(s, end, &from_root)) put_load(s, end, s->point, from_root, applied);
    }
}

typedef struct bent { /* at the face; positive where the root's end of the stub would be turned toward the side */
    double moved, turned;
} bent;

/* A cantilever on its spring, closed form. */
static bent bent_of(const cut_stubs *s, int end, int plane)
{
    const double length = stub_length(s, end), spread = dot3(s->spread, s->side[plane]), l2 = length * length;
    double at, point = dot3(s->point, s->side[plane]);
    if (!has_point(s, end, &at)) point = at = 0;
    const double root = (spread * l2 / 2 + point * at) / s->root[end];
    return (bent){
        root * length + (spread * l2 * l2 / 8 + point * at * at * (3 * length - at) / 6) / s->bending,
        root + (spread * l2 * length / 6 + point * at * at / 2) / s->bending,
    };
}

/* How far the face moves from its root toward B. */
static double stretched(const cut_stubs *s, int end)
{
    const double length = stub_length(s, end);
    double at, point = dot3(s->point, s->axis);
    if (!has_point(s, end, &at)) point = at = 0;
    return (dot3(s->spread, s->axis) * length * length / 2 + point * at) / s->stretching;
}

/* ---- faces ---------------------------------------------------------------------------------------------- */

typedef struct apart { /* what the movement of the joints alone gives */
    double moved[PLANES], turned[PLANES], opened;
} apart;

static apart apart_of(const cut_stubs *s, const rbow_frame_motion *motions)
{
    const rbow_frame_motion *a = &motions[s->joint[END_A]], *b = &motions[s->joint[END_B]];
    apart p;
    for (int i = 0; i < PLANES; i++) {
        const double turn_a = dot3(a->turn, s->turn_axis[i]), turn_b = dot3(b->turn, s->turn_axis[i]);
        p.moved[i] = dot3(b->move, s->side[i]) - turn_b * (s->length - s->at) - dot3(a->move, s->side[i]) - turn_a * s->at;
        p.turned[i] = turn_b - turn_a;
    }
    p.opened = dot3(b->move, s->axis) - dot3(a->move, s->axis);
    return p;
}

/* Below `least` only rounding is left. */
static double size_of(const double v[PLANES], double least, double *clock)
{
    const double size = hypot(v[UP], v[RIGHT]);
    *clock = size < least ? (double)NAN : rbow_clock_of(v[UP], v[RIGHT]);
    return size < least ? 0 : size;
}

void rbow_cut_faces(const cut_stubs *s, const rbow_frame_motion *motions, rbow_frame_faces *faces)
{
    apart p = apart_of(s, motions);
    for (int i = 0; i < PLANES; i++) {
        const bent a = bent_of(s, END_A, i), b = bent_of(s, END_B, i);
        p.moved[i] += s->slope[END_B][i] * (s->length - s->at) - s->slope[END_A][i] * s->at + b.moved - a.moved;
        p.turned[i] -= s->slope[END_B][i] + s->slope[END_A][i] + b.turned + a.turned;
    }
    faces->moved = size_of(p.moved, 1e-10, &faces->moved_clock);
    faces->turned = size_of(p.turned, 1e-12, &faces->turned_clock);
    faces->opened = p.opened + s->gap + stretched(s, END_B) - stretched(s, END_A) + 0.0;
}

/* moved = s_b (L - x) - s_a x and turned = -(s_a + s_b), less what the joints give. */
void rbow_cut_built_in(const cut_stubs *s, const rbow_frame_motion *motions, const rbow_frame_faces *faces,
                       double slope[ENDS][PLANES], double *gap)
{
    const apart p = apart_of(s, motions);
    double moved[PLANES] = {0, 0}, turned[PLANES] = {0, 0};
    if (faces->moved > 0) rbow_clock_components(faces->moved, faces->moved_clock, moved);
    if (faces->turned > 0) rbow_clock_components(faces->turned, faces->turned_clock, turned);
    for (int i = 0; i < PLANES; i++) {
        const double across = moved[i] - p.moved[i], sum = p.turned[i] - turned[i];
        slope[END_A][i] = (sum * (s->length - s->at) - across) / s->length;
        slope[END_B][i] = (sum * s->at + across) / s->length;
    }
    *gap = faces->opened - p.opened;
}
