#include "check/fault_list.h"
#include "detail/model.h"
#include "mechanics/restraint.h"

#include <math.h>

static bool positive_or_unset(double v)
{
    return positive(v) || end_is(v, RBOW_UNSET);
}

static bool is_tube(double od, double wall)
{
    return positive(od) && positive(wall) && wall <= od / 2;
}

static bool in_rule(double od, double wall, const rbow_material *k)
{
    double reduction;
    return rbow_wall_reduction(od / wall, k->elastic_modulus, k->weld_yield, &reduction) == RBOW_OK;
}

/* A size that is equal by the shop's drawing may be off by the rounding of a conversion. */
static bool fits_into(double od, double bore)
{
    return od <= bore * (1 + 1e-12);
}

static void hole_faults(fault_list *list, const rbow_detail *d, const rbow_section *s)
{
    need(list, d->hole >= 0 && (d->hole < s->bore || !(d->hole > 0)), RBOW_BAD_HOLE);
    need(list, d->walls == 1 || d->walls == 2, RBOW_BAD_WALLS);
    need(list, isfinite(d->hole_clock), RBOW_BAD_HOLE_CLOCK); /* RBOW_ANY_CLOCK is finite */
}

static void weld_faults(fault_list *list, const rbow_detail *d)
{
    need(list, positive_or_unset(d->throat), RBOW_BAD_THROAT);
    need(list, positive_or_unset(d->weld_strength), RBOW_BAD_WELD_STRENGTH);
    if (d->kind == RBOW_DETAIL_RING_WELD) need(list, positive_or_unset(d->weld_od), RBOW_BAD_WELD_OD);
}

static void rosette_faults(fault_list *list, const rbow_detail *d, double joined_od, int least)
{
    need(list, d->rosettes >= least, RBOW_BAD_ROSETTES);
    if (d->rosettes > 0) need(list, positive(d->rosette) && !(d->rosette >= joined_od), RBOW_BAD_ROSETTE);
}

static void sleeve_faults(fault_list *list, const rbow_detail *d, const rbow_section *s, const rbow_material *k)
{
    const bool carries = d->butt == 0;
    weld_faults(list, d);
    need(list, positive(d->sleeve_od) && fits_into(d->sleeve_od, s->bore), RBOW_BAD_SLEEVE_OD);
    if (positive(d->sleeve_od)) need(list, is_tube(d->sleeve_od, d->sleeve_wall), RBOW_BAD_SLEEVE_WALL);
    if (is_tube(d->sleeve_od, d->sleeve_wall)) need(list, in_rule(d->sleeve_od, d->sleeve_wall, k), RBOW_SLEEVE_RULE);
    need(list, positive(d->overlap), RBOW_BAD_OVERLAP);
    rosette_faults(list, d, d->sleeve_od, carries ? 1 : 0);
    need(list, d->butt == 0 || d->butt == 1, RBOW_BAD_BUTT);
    if (carries) need(list, positive(k->ultimate), RBOW_NO_ULTIMATE);
}

static void socket_faults(fault_list *list, const rbow_detail *d, const rbow_section *s, const rbow_material *k)
{
    const bool tube = is_tube(d->stub_od, d->stub_wall);
    weld_faults(list, d);
    need(list, positive(d->stub_od) && (!tube || fits_into(d->stub_od, s->bore) || fits_into(s->od, d->stub_od - 2 * d->stub_wall)), RBOW_BAD_STUB_OD);
    if (positive(d->stub_od)) need(list, tube, RBOW_BAD_STUB_WALL);
    if (tube) need(list, in_rule(d->stub_od, d->stub_wall, k), RBOW_STUB_RULE);
    need(list, positive(d->overlap), RBOW_BAD_OVERLAP);
    rosette_faults(list, d, fmin(d->stub_od, s->od), 0);
}

size_t rbow_detail_faults_of(const rbow_detail *d, const prepared *p, const rbow_material *k, rbow_status *faults, size_t most)
{
    fault_list list = {faults, 0, most};
    const rbow_section *s = &p->zones[rbow_detail_in_weld_zone(&p->member, d->at) ? ZONE_WELD : ZONE_TUBE].strength.section;
    need(&list, d->kind >= 0 && d->kind < RBOW_DETAIL_KIND_COUNT, RBOW_BAD_DETAIL_KIND);
    need(&list, d->at >= 0 && d->at <= p->member.length, RBOW_BAD_DETAIL_AT);
    if (d->kind == RBOW_DETAIL_HOLE) hole_faults(&list, d, s);
    if (d->kind == RBOW_DETAIL_RING_WELD) weld_faults(&list, d);
    if (d->kind == RBOW_DETAIL_SLEEVE) sleeve_faults(&list, d, s, k);
    if (d->kind == RBOW_DETAIL_SOCKET) socket_faults(&list, d, s, k);
    return list.count;
}

size_t rbow_detail_faults(const rbow_detail *detail, const rbow_member *member, const rbow_material *material, rbow_status *faults,
                          size_t most)
{
    prepared p;
    const rbow_status status = rbow_detail_prepare(member, material, &p);
    if (status == RBOW_OK) return rbow_detail_faults_of(detail, &p, material, faults, most);
    if (most > 0) faults[0] = status;
    return 1;
}
