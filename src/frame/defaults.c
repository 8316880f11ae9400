#include <railbow/frame.h>

#include "frame/solver.h"

#include <math.h>

rbow_frame_joint rbow_frame_joint_default(void)
{
    return (rbow_frame_joint){.at = {NAN, NAN, NAN}};
}

rbow_frame_tube rbow_frame_tube_default(void)
{
    return (rbow_frame_tube){
        .od = NAN, .wall = NAN, .end_a = RBOW_FIXED, .end_b = RBOW_FIXED, .column_curve = RBOW_CURVE_OF_MATERIAL, .fixity = 1,
        .bow_clock = RBOW_ANY_CLOCK, .bow_shape = RBOW_BOW_SINE, .bow_at = RBOW_UNSET, .miss_a_clock = RBOW_ANY_CLOCK,
        .miss_b_clock = RBOW_ANY_CLOCK, .weld_zone = RBOW_UNSET,
    };
}

rbow_frame_load rbow_frame_load_default(void)
{
    return (rbow_frame_load){.acts_on = RBOW_ACTS_ON_ALL, .at = RBOW_UNSET};
}

static double clock_or_up(double clock)
{
    return end_is(clock, RBOW_ANY_CLOCK) ? 0 : clock;
}

static double length_of(const rbow_frame *f, const rbow_frame_tube *t)
{
    const double *a = f->joints[t->from].at, *b = f->joints[t->to].at;
    return hypot(hypot(b[0] - a[0], b[1] - a[1]), b[2] - a[2]);
}

rbow_member rbow_frame_member(const rbow_frame *f, const rbow_frame_tube *t)
{
    rbow_member m = rbow_member_default();
    m.od = t->od;
    m.wall = t->wall;
    m.length = length_of(f, t);
    m.end_a = t->end_a;
    m.end_b = t->end_b;
    m.column_curve = t->column_curve;
    m.bow = t->bow;
    m.bow_clock = clock_or_up(t->bow_clock);
    m.bow_shape = t->bow_shape;
    m.bow_at = t->bow_at;
    m.miss_a = t->miss_a;
    m.miss_a_clock = clock_or_up(t->miss_a_clock);
    m.miss_b = t->miss_b;
    m.miss_b_clock = clock_or_up(t->miss_b_clock);
    m.gap = t->gap;
    m.weld_zone = t->weld_zone;
    m.dressed = t->dressed;
    return m;
}
