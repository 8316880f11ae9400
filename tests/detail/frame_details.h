/* Frames with details for tests. */
#ifndef TESTS_DETAIL_FRAME_DETAILS_H
#define TESTS_DETAIL_FRAME_DETAILS_H

#include "frame/frames.h"

#include <railbow/detail.h>

static inline rbow_material with_ultimate(void)
{
    rbow_material k = steel;
    k.ultimate = 95e3;
    return k;
}

/* A portal with a brace, bent and twisted out of its plane, forced together. */
static inline void portal(built *b, const rbow_material *k, bool forced)
{
    begin(b);
    const size_t left = add_joint(b, 0, 0, 0, RBOW_HELD_FIXED), right = add_joint(b, 40, 0, 0, RBOW_HELD_FIXED);
    const size_t a = add_joint(b, 0, 0, 30, 0), c = add_joint(b, 40, 0, 30, 0);
    add_tube(b, left, a, 1.25, .058, k);
    add_tube(b, a, c, 1.25, .058, k);
    add_tube(b, c, right, 1.25, .058, k);
    rbow_frame_tube *brace = add_tube(b, left, c, .75, .049, k);
    b->tubes[1].bow = .08;
    if (forced) {
        brace->gap = .01;
        b->tubes[1].miss_a = .1;
        b->tubes[1].miss_a_clock = .4;
    }
    push_joint(b, a, 300, 120, -2500);
    push_joint(b, c, 0, 60, -2500);
    b->run.factor_yield = 1.2;
}

static inline rbow_detail detail_of(int kind, double at)
{
    rbow_detail d = rbow_detail_default();
    d.kind = kind;
    d.at = at;
    d.hole = .25;
    d.walls = 1;
    d.throat = .04;
    d.overlap = 2;
    d.sleeve_od = 1.125;
    d.sleeve_wall = .058;
    d.butt = 0;
    d.rosettes = 4;
    d.rosette = .375;
    return d;
}

#endif
