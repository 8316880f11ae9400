#include "frame/run.h"

#include "frame/directions.h"

#include <railbow/clock.h>
#include <railbow/forced_fit.h>

#include <math.h>
#include <string.h>

/* ---- tubes ------------------------------------------------------------------------------------------------ */

rbow_status rbow_frame_prepare_tube(const rbow_frame *f, size_t tube, bool point, double point_at, frame_tube *t)
{
    const rbow_frame_tube *from = &f->tubes[tube];
    const rbow_material *k = from->material;
    rbow_member m = rbow_frame_member(f, from);
    t->joint[END_A] = from->from;
    t->joint[END_B] = from->to;
    rbow_frame_directions(f, from, t);
    m.point_load = point ? 1 : 0;
    m.point_at = point ? point_at : RBOW_UNSET;
    const rbow_status status = rbow_prepare_with_fixity(&m, k, from->fixity, &t->member);
    if (status != RBOW_OK) return status;
    const rbow_section *s = &t->member.zones[ZONE_TUBE].strength.section;
    const bool twists = from->end_a > 0 && from->end_b > 0;
    t->length = m.length;
    t->stretch = t->member.axial_stiffness / m.length;
    t->twist = twists ? k->shear_modulus * s->polar_inertia / m.length : 0;
    t->pinned = !(from->end_a > 0 || from->end_b > 0);
    t->bow_unknown = from->bow > 0 && end_is(from->bow_clock, RBOW_ANY_CLOCK);
    if (!t->bow_unknown) t->bow_clock = from->bow > 0 ? from->bow_clock : 0;
    return isfinite(t->stretch) && isfinite(t->twist) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

/* ---- loads ------------------------------------------------------------------------------------------------ */

static void add3(double size, const double v[RBOW_AXES], double to[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) to[i] += size * v[i];
}

static void add_joint_load(rbow_frame_solver *s, const rbow_frame_load *l)
{
    double *at = motions_of(s->applied, l->index);
    add3(1, l->force, at);
    add3(1, l->moment, at + RBOW_AXES);
}

static bool is_zero(const double v[RBOW_AXES])
{
    return !(fabs(v[0]) > 0 || fabs(v[1]) > 0 || fabs(v[2]) > 0);
}

static void add_tube_load(rbow_frame_solver *s, const rbow_frame_load *l)
{
    frame_tube *t = &s->tubes[l->index];
    add3(1, l->spread, t->spread_force);
    if (is_zero(l->force)) return;
    add3(1, l->force, t->point_force);
    t->point_at = fmin(or_middle(l->at, t->length), t->length);
}

static void add_weight(rbow_frame_solver *s, const rbow_frame_load *l)
{
    const double g[RBOW_AXES] = {l->forward_g, l->left_g, -l->vertical_g};
    for (size_t i = 0; i < s->frame.joint_count; i++) add3(s->frame.joints[i].mass, g, motions_of(s->applied, i));
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        add3(t->member.weight / t->length, g, t->spread_force);
    }
}

/* What acts on a tube goes to its joints by the lever rule; couples and the axial force's part are the element's. */
static void share_out(rbow_frame_solver *s, const frame_tube *t)
{
    const double share = t->point_at / t->length;
    double *a = motions_of(s->applied, t->joint[END_A]), *b = motions_of(s->applied, t->joint[END_B]);
    add3(t->length / 2, t->spread_force, a);
    add3(t->length / 2, t->spread_force, b);
    add3(1 - share, t->point_force, a);
    add3(share, t->point_force, b);
}

/* The part across the tube, relative as in beamcolumn_body.h; next to a joint a point load bends the tube by nothing. */
static rbow_status bend(rbow_frame_solver *s, size_t tube)
{
    frame_tube *t = &s->tubes[tube];
    const double per_unit = t->length / t->member.unit, share = t->point_at / t->length;
    const bool inside = share > 1e-14 && share < 1 - 1e-14;
    for (int i = 0; i < PLANES; i++) {
        t->spread[i] = dot3(t->spread_force, t->side[i]) * t->length * per_unit;
        t->point[i] = inside ? dot3(t->point_force, t->side[i]) * per_unit : 0;
    }
    const bool point = fabs(t->point[UP]) > 0 || fabs(t->point[RIGHT]) > 0;
    if (!point && !t->member.beam.has_point) return RBOW_OK;
    return rbow_frame_prepare_tube(&s->frame, tube, point, t->point_at, t);
}

rbow_status rbow_frame_set_run(rbow_frame_solver *s, const rbow_frame_run *run)
{
    memset(s->applied, 0, s->frame.joint_count * RBOW_MOTIONS * sizeof *s->applied);
    s->failed = false;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        memset(t->spread_force, 0, sizeof t->spread_force);
        memset(t->point_force, 0, sizeof t->point_force);
        t->point_at = t->length / 2;
    }
    for (size_t i = 0; i < run->load_count; i++) {
        const rbow_frame_load *l = &run->loads[i];
        if (l->acts_on == RBOW_ACTS_ON_JOINT) add_joint_load(s, l);
        if (l->acts_on == RBOW_ACTS_ON_TUBE) add_tube_load(s, l);
        if (l->acts_on == RBOW_ACTS_ON_ALL) add_weight(s, l);
    }
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        share_out(s, &s->tubes[i]);
        const rbow_status status = bend(s, i);
        if (status != RBOW_OK) return status;
    }
    return RBOW_OK;
}

/* ---- built in --------------------------------------------------------------------------------------------- */

void rbow_frame_set_built_in(rbow_frame_solver *s, int fit, double bows)
{
    const bool forced = fit == RBOW_FRAME_AS_BUILT;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const rbow_frame_tube *from = &s->frame.tubes[i];
        frame_tube *t = &s->tubes[i];
        built_in *b = &t->whole;
        *b = (built_in){.gap = forced ? from->gap : 0};
        if (forced && from->miss_a > 0) rbow_clock_components(rbow_fit_slope(from->miss_a, t->length), from->miss_a_clock, b->slope[END_A]);
        if (forced && from->miss_b > 0) rbow_clock_components(rbow_fit_slope(from->miss_b, t->length), from->miss_b_clock, b->slope[END_B]);
        if (from->bow > 0) rbow_clock_components(from->bow / t->length * (t->bow_unknown ? bows : 1), t->bow_clock, b->bow);
        t->built = *b;
    }
}
