/* Details and tubes for tests. */
#ifndef TESTS_DETAIL_DETAILS_H
#define TESTS_DETAIL_DETAILS_H

#include "check/members.h"

#include <railbow/detail.h>

static inline rbow_detail detail_of(int kind, double at)
{
    rbow_detail d = rbow_detail_default();
    d.kind = kind;
    d.at = at;
    return d;
}

static inline rbow_detail hole_at(double at, double hole, int walls)
{
    rbow_detail d = detail_of(RBOW_DETAIL_HOLE, at);
    d.hole = hole;
    d.walls = walls;
    return d;
}

static inline rbow_detail sleeve_at(double at, double od, double wall, int butt)
{
    rbow_detail d = detail_of(RBOW_DETAIL_SLEEVE, at);
    d.sleeve_od = od;
    d.sleeve_wall = wall;
    d.overlap = 2;
    d.butt = butt;
    d.rosettes = butt ? 0 : 4;
    d.rosette = 0.375;
    return d;
}

static inline rbow_detail socket_at(double at, double od, double wall)
{
    rbow_detail d = detail_of(RBOW_DETAIL_SOCKET, at);
    d.stub_od = od;
    d.stub_wall = wall;
    d.overlap = 2;
    return d;
}

static inline double use_of(const rbow_detail *d, const rbow_member *m, rbow_section_forces f, int mode)
{
    double use[RBOW_DETAIL_MODES];
    ck_assert_int_eq(rbow_detail_use(d, m, &steel, &f, use), RBOW_OK);
    return use[mode];
}

#endif
