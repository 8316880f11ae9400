#include "detail/model.h"

#include "mechanics/restraint.h"
#include "mechanics/weld_corners.h"

#include <railbow/weld_zone.h>

rbow_detail rbow_detail_default(void)
{
    return (rbow_detail){
        .kind = RBOW_DETAIL_PLACE, .at = NAN, .hole = NAN, .walls = 2, .hole_clock = RBOW_ANY_CLOCK, .throat = RBOW_UNSET,
        .weld_strength = RBOW_UNSET, .weld_od = RBOW_UNSET, .sleeve_od = NAN, .sleeve_wall = NAN, .stub_od = NAN, .stub_wall = NAN,
        .overlap = NAN, .rosettes = 0, .rosette = NAN, .butt = 1,
    };
}

bool rbow_detail_in_weld_zone(const rbow_member *member, double at)
{
    const rbow_weld_zone weld = rbow_member_weld_zone(member);
    const double rounding = 1e-12 * member->length;
    double ends[2];
    rbow_weld_zone_ends(&weld, ends);
    return at <= ends[0] + rounding || at >= ends[1] - rounding;
}

static double value_or(double value, double otherwise)
{
    return end_is(value, RBOW_UNSET) ? otherwise : value;
}

/* Given: size  of the tube, sleeve or stub */
static rbow_status welded_strength(rbow_tube_size size, const detail_model *m, rbow_strength *s)
{
    double reduction;
    *s = m->metal;
    rbow_status status = rbow_section_of(size.od, size.wall, &s->section);
    if (status == RBOW_OK) status = rbow_wall_reduction(s->section.diameter_to_wall, m->elastic_modulus, m->weld_yield, &reduction);
    if (status != RBOW_OK) return status;
    s->compression_yield = reduction * m->weld_yield;
    s->yield = m->weld_yield;
    return RBOW_OK;
}

rbow_status rbow_detail_model_of(const rbow_detail *detail, const prepared *p, const rbow_material *k, detail_model *m)
{
    const rbow_detail *d = detail;
    *m = (detail_model){.detail = *d, .ultimate = k->ultimate, .length = p->member.length, .elastic_modulus = k->elastic_modulus,
                        .weld_yield = k->weld_yield};
    m->in_weld_zone = rbow_detail_in_weld_zone(&p->member, d->at);
    m->metal = p->zones[m->in_weld_zone ? ZONE_WELD : ZONE_TUBE].strength;
    const rbow_section *s = &m->metal.section;
    m->throat = m->detail.throat = value_or(d->throat, s->wall);
    m->detail.weld_strength = value_or(d->weld_strength, RBOW_DETAIL_FILLER);
    m->rupture = 0.6 * m->detail.weld_strength;
    m->ring_od = m->detail.weld_od = value_or(d->weld_od, s->od);
    rbow_status status = welded_strength((rbow_tube_size){s->od, s->wall}, m, &m->welded);
    if (status != RBOW_OK) return status;
    m->other = m->welded;
    if (d->kind == RBOW_DETAIL_HOLE) return rbow_net_section_of(s->od, s->wall, d->hole, d->walls, &m->net);
    if (d->kind == RBOW_DETAIL_SLEEVE) {
        status = welded_strength((rbow_tube_size){d->sleeve_od, d->sleeve_wall}, m, &m->other);
        m->ring_od = s->od;
    }
    if (d->kind == RBOW_DETAIL_SOCKET) {
        status = welded_strength((rbow_tube_size){d->stub_od, d->stub_wall}, m, &m->other);
        m->ring_od = fmin(d->stub_od, s->od); /* of the inner one */
    }
    return status;
}

rbow_status rbow_detail_prepare(const rbow_member *member, const rbow_material *material, prepared *p)
{
    weld_corner corners[CORNERS_MOST];
    rbow_member first = *member;
    rbow_weld_corners(member->end_a, member->end_b, corners);
    first.end_a = corners[0].end_a;
    first.end_b = corners[0].end_b;
    return rbow_prepare(&first, material, p);
}
