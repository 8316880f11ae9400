#include <railbow/frame.h>

#include "frame/solver.h"

#include <math.h>

typedef struct fault_list {
    rbow_frame_fault *at;
    size_t most, count;
} fault_list;

static void add(fault_list *l, rbow_status status, rbow_frame_part part, size_t index)
{
    if (l->count < l->most) l->at[l->count] = (rbow_frame_fault){status, (int)part, index};
    l->count++;
}

/* ---- frame --------------------------------------------------------------------------------------------- */

static bool are_finite(const double v[RBOW_AXES])
{
    return isfinite(v[0]) && isfinite(v[1]) && isfinite(v[2]);
}

static bool reaches(const rbow_frame_tube *t, size_t joint)
{
    return t->from == joint || t->to == joint;
}

static bool is_reached(const rbow_frame *f, size_t joint)
{
    for (size_t i = 0; i < f->tube_count; i++)
        if (reaches(&f->tubes[i], joint)) return true;
    return false;
}

static void joint_faults(const rbow_frame *f, size_t i, fault_list *l)
{
    const rbow_frame_joint *j = &f->joints[i];
    if (!are_finite(j->at)) add(l, RBOW_BAD_JOINT_PLACE, RBOW_IN_JOINT, i);
    if (!(j->mass >= 0 && isfinite(j->mass))) add(l, RBOW_BAD_MASS, RBOW_IN_JOINT, i);
    if (j->held > RBOW_HELD_FIXED) add(l, RBOW_BAD_HELD, RBOW_IN_JOINT, i);
    if (!is_reached(f, i)) add(l, RBOW_JOINT_ALONE, RBOW_IN_JOINT, i);
}

static bool is_end(double end)
{
    return end >= 0;
}

static bool needs_clock(double miss, double clock)
{
    return fabs(miss) > 0 && end_is(clock, RBOW_ANY_CLOCK);
}

/* What is wrong with the joints of a tube; without them it has no length, and nothing else can be asked. */
static rbow_status joints_fault(const rbow_frame *f, const rbow_frame_tube *t)
{
    if (t->from >= f->joint_count || t->to >= f->joint_count) return RBOW_NO_SUCH_JOINT;
    if (t->from == t->to) return RBOW_TUBE_TO_ITSELF;
    if (!are_finite(f->joints[t->from].at) || !are_finite(f->joints[t->to].at)) return RBOW_BAD_JOINT_PLACE;
    return rbow_frame_member(f, t).length > 0 ? RBOW_OK : RBOW_TUBE_NO_LENGTH;
}

/* The ends of a frame's tubes have words of their own. */
static rbow_status of_tube(rbow_status of_member)
{
    return of_member == RBOW_MISS_A_NOT_HELD ? RBOW_MISS_A_PINNED : of_member == RBOW_MISS_B_NOT_HELD ? RBOW_MISS_B_PINNED : of_member;
}

static void tube_faults(const rbow_frame *f, size_t i, fault_list *l)
{
    enum { MOST = 40 };
    const rbow_frame_tube *t = &f->tubes[i];
    const rbow_status joints = joints_fault(f, t);
    if (joints != RBOW_OK) add(l, joints, RBOW_IN_TUBE, i);
    if (!is_end(t->end_a)) add(l, RBOW_BAD_TUBE_END_A, RBOW_IN_TUBE, i);
    if (!is_end(t->end_b)) add(l, RBOW_BAD_TUBE_END_B, RBOW_IN_TUBE, i);
    if (!(t->fixity > 0 && isfinite(t->fixity))) add(l, RBOW_BAD_FIXITY, RBOW_IN_TUBE, i);
    if (needs_clock(t->miss_a, t->miss_a_clock)) add(l, RBOW_MISS_A_CLOCK, RBOW_IN_TUBE, i);
    if (needs_clock(t->miss_b, t->miss_b_clock)) add(l, RBOW_MISS_B_CLOCK, RBOW_IN_TUBE, i);
    if (t->material == NULL) {
        add(l, RBOW_BAD_MATERIAL, RBOW_IN_TUBE, i);
        return;
    }
    if (joints != RBOW_OK || !is_end(t->end_a) || !is_end(t->end_b)) return;
    const rbow_member m = rbow_frame_member(f, t);
    rbow_status own[MOST];
    const size_t count = rbow_member_faults(&m, t->material, own, MOST);
    for (size_t k = 0; k < count && k < MOST; k++) add(l, of_tube(own[k]), RBOW_IN_TUBE, i);
}

size_t rbow_frame_faults(const rbow_frame *f, rbow_frame_fault *faults, size_t most)
{
    fault_list l = {faults, most, 0};
    if (f->joint_count == 0 || f->tube_count == 0) add(&l, RBOW_NO_FRAME, RBOW_IN_FRAME, 0);
    for (size_t i = 0; i < f->joint_count; i++) joint_faults(f, i, &l);
    for (size_t i = 0; i < f->tube_count; i++) tube_faults(f, i, &l);
    return l.count;
}

/* ---- run ----------------------------------------------------------------------------------------------- */

static bool has_rigid_tube(const rbow_frame *f, size_t joint)
{
    for (size_t i = 0; i < f->tube_count; i++) {
        const rbow_frame_tube *t = &f->tubes[i];
        if ((t->from == joint && t->end_a > 0) || (t->to == joint && t->end_b > 0)) return true;
    }
    return false;
}

static bool is_zero(const double v[RBOW_AXES])
{
    return !(fabs(v[0]) > 0 || fabs(v[1]) > 0 || fabs(v[2]) > 0);
}

static double place_of(const rbow_frame *f, const rbow_frame_load *l)
{
    return or_middle(l->at, rbow_frame_member(f, &f->tubes[l->index]).length);
}

/* Whether an earlier row of the run has a point load at another place of the same tube. */
static bool meets_another(const rbow_frame *f, const rbow_frame_run *run, size_t row)
{
    const rbow_frame_load *l = &run->loads[row];
    for (size_t i = 0; i < row; i++) {
        const rbow_frame_load *other = &run->loads[i];
        if (other->acts_on != RBOW_ACTS_ON_TUBE || other->index != l->index || is_zero(other->force)) continue;
        if (fabs(place_of(f, other) - place_of(f, l)) > 0) return true;
    }
    return false;
}

static void load_faults(const rbow_frame *f, const rbow_frame_run *run, size_t i, fault_list *l)
{
    const rbow_frame_load *load = &run->loads[i];
    const bool on_joint = load->acts_on == RBOW_ACTS_ON_JOINT, on_tube = load->acts_on == RBOW_ACTS_ON_TUBE;
    const bool finite = are_finite(load->force) && are_finite(load->moment) && are_finite(load->spread)
        && isfinite(load->vertical_g) && isfinite(load->forward_g) && isfinite(load->left_g);
    if (!finite) add(l, RBOW_NOT_FINITE, RBOW_IN_LOAD, i);
    if ((on_joint && load->index >= f->joint_count) || (on_tube && load->index >= f->tube_count)
        || load->acts_on < 0 || load->acts_on >= RBOW_ACTS_COUNT) {
        add(l, RBOW_NO_SUCH_PLACE, RBOW_IN_LOAD, i);
        return;
    }
    if (on_joint && !is_zero(load->moment) && !has_rigid_tube(f, load->index)) add(l, RBOW_MOMENT_NOT_TAKEN, RBOW_IN_LOAD, i);
    if (!on_tube || joints_fault(f, &f->tubes[load->index]) != RBOW_OK) return;
    const double at = place_of(f, load), length = rbow_frame_member(f, &f->tubes[load->index]).length;
    if (!(at >= 0 && at <= length * (1 + 1e-12))) add(l, RBOW_BAD_LOAD_AT, RBOW_IN_LOAD, i);
    else if (!is_zero(load->force) && meets_another(f, run, i)) add(l, RBOW_TWO_LOAD_PLACES, RBOW_IN_LOAD, i);
}

size_t rbow_frame_run_faults(const rbow_frame *f, const rbow_frame_run *run, rbow_frame_fault *faults, size_t most)
{
    fault_list l = {faults, most, 0};
    if (!(run->factor > 0 && isfinite(run->factor))) add(&l, RBOW_BAD_FACTOR, RBOW_IN_FRAME, 0);
    if (!(run->factor_yield > 0 && isfinite(run->factor_yield)) && !end_is(run->factor_yield, RBOW_UNSET))
        add(&l, RBOW_BAD_FACTOR_YIELD, RBOW_IN_FRAME, 0);
    for (size_t i = 0; i < run->load_count; i++) load_faults(f, run, i, &l);
    return l.count;
}
