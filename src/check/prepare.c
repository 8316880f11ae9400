#include "check/prepare.h"

#include <float.h>
#include <gsl/gsl_math.h>
#include <math.h>

static void resolve_defaults(rbow_member *m, const rbow_material *k)
{
    m->point_at = or_middle(m->point_at, m->length);
    m->bow_at = or_middle(m->bow_at, m->length);
    if (end_is(m->factor_yield, RBOW_UNSET)) m->factor_yield = m->factor;
    if (m->column_curve == RBOW_CURVE_OF_MATERIAL) m->column_curve = (int)k->column_curve;
}

/* ---- zones and column ---------------------------------------------------------------------------------- */

static double zone_of(double od, double wall, const rbow_material *k, double compression_yield, double yield, zone *z)
{
    double reduction;
    rbow_section_of(od, wall, &z->section);
    rbow_wall_reduction(z->section.diameter_to_wall, k->elastic_modulus, compression_yield, &reduction);
    z->compression_yield = reduction * compression_yield;
    z->yield = yield;
    z->share_pressed = 1 / z->compression_yield;
    z->share_pulled = 1 / yield;
    z->stress_per_axial = 1 / z->section.area;
    z->stress_per_torque = sqrt(3.0) * (z->section.od / 2) / z->section.polar_inertia;
    return reduction;
}

static void prepare_zones(prepared *p, const rbow_material *k)
{
    const rbow_member *m = &p->member;
    p->wall_reduction = zone_of(m->od, m->wall, k, k->compression_yield, k->yield, &p->zones[ZONE_TUBE]);
    p->zones[ZONE_WELD] = p->zones[ZONE_TUBE];
    p->weld_reduction = 1;
    if (m->weld_zone > 0)
        p->weld_reduction = zone_of(m->od - 2 * m->dressed, m->wall - m->dressed, k, k->weld_yield, k->weld_yield,
                                    &p->zones[ZONE_WELD]);
    p->unit = k->elastic_modulus * p->zones[ZONE_TUBE].section.inertia / m->length;
    for (int i = 0; i < ZONES; i++) p->zones[i].stress_per_moment = p->unit / p->zones[i].section.section_modulus;
}

static rbow_status prepare_ends(prepared *p)
{
    const rbow_member *m = &p->member;
    const double bending_stiffness = p->unit * m->length;
    rbow_end_stiffness(m->end_a, bending_stiffness, m->length, &p->stiffness_a);
    if (member_is_free(m))
        p->stiffness_b = RBOW_FREE;
    else
        rbow_end_stiffness(m->end_b, bending_stiffness, m->length, &p->stiffness_b);
    if (end_is(m->end_a, RBOW_WELDED) && end_is(m->end_b, RBOW_WELDED)) { /* fixity 2: what the word means */
        p->critical_load = 2 * M_PI * M_PI * p->unit / m->length;
        return RBOW_OK;
    }
    return rbow_critical_load(bending_stiffness, m->length, p->stiffness_a, p->stiffness_b, &p->critical_load);
}

static rbow_status prepare_column(prepared *p, const rbow_material *k)
{
    const rbow_section *s = &p->zones[ZONE_TUBE].section;
    const double effective = M_PI * sqrt(p->unit * p->member.length / p->critical_load);
    const rbow_column column = {
        .curve = (rbow_curve)p->member.column_curve,
        .elastic_modulus = k->elastic_modulus,
        .compression_yield = k->compression_yield,
        .column_intercept = k->column_intercept,
        .wall_reduction = p->wall_reduction,
        .slenderness = effective / s->radius,
    };
    const rbow_status status = rbow_column_stress(&column, &p->column_stress);
    p->column_load = p->column_stress * s->area;
    return status;
}

/* ---- loads --------------------------------------------------------------------------------------------- */

/* A quarter of the clock in radians is not quite a quarter; what rounding leaves is no load. */
static double without_rounding(double share, double clock)
{
    return fabs(share) > 1e-15 * (1 + fabs(clock)) ? share : 0;
}

static void add_toward(double size, double clock, double planes[PLANES])
{
    if (!(fabs(size) > 0)) return;
    planes[UP] += size * without_rounding(cos(clock), clock);
    planes[RIGHT] += size * without_rounding(sin(clock), clock);
}

/* As shares of the length; a load so near to a joint bends the tube by nothing but rounding. */
static const double same_place = 4 * DBL_EPSILON;

bool rbow_point_is_idle(const rbow_member *m)
{
    const double share = m->point_at / m->length;
    return share <= same_place || (share >= 1 - same_place && !member_is_free(m));
}

/* With a free B the eccentric push acts at B alone: the joint at A takes what comes. */
static void prepare_loads(prepared *p)
{
    const rbow_member *m = &p->member;
    const double length = m->length, per_unit = 1 / p->unit, offset = m->compression * m->eccentricity;
    const double across = fabs(m->slope) > 0 ? without_rounding(cos(m->slope), m->slope) : 1;
    member_loads *run = &p->run, *built = &p->built;
    *run = *built = (member_loads){.moment_a = {0}};
    add_toward(m->moment_a * per_unit, m->moment_clock, run->moment_a);
    add_toward(m->moment_b * per_unit, m->moment_clock, run->moment_b);
    if (!member_is_free(m)) add_toward(offset * per_unit, m->eccentricity_clock, run->moment_a);
    add_toward(offset * per_unit, m->eccentricity_clock, run->moment_b);
    if (!rbow_point_is_idle(m)) add_toward(m->point_load * length * per_unit, m->point_clock, run->point);
    add_toward(m->spread_load * length * length * per_unit, m->spread_clock, run->spread);
    run->spread[UP] -= p->weight * m->vertical_g * across * length * per_unit;
    add_toward(m->bow / length, m->bow_clock, built->bow);
    add_toward(m->miss_a / length, m->miss_a_clock, built->slope_a);
    add_toward(m->miss_b / length, m->miss_b_clock, built->slope_b);
}

/* T0 = gap / (L/EA + 1/stiffness of the surroundings) */
static double locked_tension(const rbow_member *m, double axial_stiffness)
{
    return m->gap / (m->length / axial_stiffness + 1 / m->gap_stiffness);
}

static rbow_status prepare_beam(prepared *p)
{
    const rbow_member *m = &p->member;
    const bool point = fabs(m->point_load) > 0 && !rbow_point_is_idle(m), bowed = m->bow > 0;
    const rbow_beam from = {
        .bending_stiffness = p->unit * m->length,
        .length = m->length,
        .stiffness_a = p->stiffness_a,
        .stiffness_b = p->stiffness_b,
        .point_at = point ? m->point_at : m->length,
        .bow_at = m->bow_at,
        .bow_shape = bowed ? (rbow_bow_shape)m->bow_shape : RBOW_BOW_ARC, /* which needs no shape of its own */
    };
    return rbow_beam_constants(&from, &p->beam);
}

/* ---- segments and stations ----------------------------------------------------------------------------- */

static void insert_border(double borders[], int *count, double at)
{
    int i = *count;
    while (i > 0 && borders[i - 1] > at) {
        borders[i] = borders[i - 1];
        i--;
    }
    borders[i] = at;
    ++*count;
}

/* Cells of at most 0.7 radians of the fastest wave of the moment: the bow's pi, or the one at the critical load (2 pi at
 * most). The bounds of maximum_body.h then settle nearly every cell at once. */
static double cells_of_tube(const prepared *p)
{
    const double fastest = sqrt(p->critical_load * p->member.length / p->unit);
    return fmin(fmax(fastest, M_PI) / (2 * M_PI), 1) * CELLS_MOST;
}

static void put_station(stations *s, int i, const station *at, double cell)
{
    s->t[i] = at->t;
    s->cosine[i] = at->cosine;
    s->sine[i] = at->sine;
    s->point_side[i] = at->point_side;
    s->kink_side[i] = at->kink_side;
    s->cell[i] = cell;
}

static void add_segment(prepared *p, double from, double to, int which, double cells)
{
    segment *s = &p->segments[p->segment_count++];
    const double side = (from + to) / 2;
    const int count = (int)ceil((to - from) * cells);
    *s = (segment){which, p->station_count, count + 1, (to - from) / count};
    for (int i = 0; i <= count; i++) {
        const station at = station_at(&p->beam, i < count ? from + i * s->cell : to, side);
        put_station(&p->stations, p->station_count++, &at, i < count ? s->cell : 0);
    }
}

static void prepare_segments(prepared *p)
{
    const rbow_member *m = &p->member;
    const double weld = m->weld_zone > 0 ? fmax(m->weld_zone / m->length, DBL_EPSILON) : 0; /* the joint belongs to it */
    const double cells = cells_of_tube(p);
    const bool both = !member_is_free(m);
    double borders[SEGMENTS_MOST + 1];
    int count = 0;
    insert_border(borders, &count, -0.5);
    insert_border(borders, &count, 0.5);
    if (p->beam.has_point) insert_border(borders, &count, p->beam.point_at);
    if (p->beam.has_kink) insert_border(borders, &count, p->beam.kink_at);
    if (weld > 0) insert_border(borders, &count, weld - 0.5);
    if (weld > 0 && both) insert_border(borders, &count, 0.5 - weld);
    p->segment_count = p->station_count = 0;
    for (int i = 0; i + 1 < count; i++) {
        if (!(borders[i] < borders[i + 1])) continue;
        const double middle = (borders[i] + borders[i + 1]) / 2;
        const bool welded = middle < weld - 0.5 || (both && middle > 0.5 - weld);
        add_segment(p, borders[i], borders[i + 1], welded ? ZONE_WELD : ZONE_TUBE, cells);
    }
    const station middle = station_at(&p->beam, 0, 0);
    for (int i = 0; i < STATIONS_BEHIND; i++) put_station(&p->stations, p->station_count + i, &middle, 0);
}

rbow_status rbow_prepare(const rbow_member *member, const rbow_material *material, prepared *p)
{
    p->member = *member;
    resolve_defaults(&p->member, material);
    prepare_zones(p, material);
    rbow_status status = prepare_ends(p);
    if (status == RBOW_OK) status = prepare_column(p, material);
    if (status != RBOW_OK) return status;
    const double area = p->zones[ZONE_TUBE].section.area;
    p->weight = material->density * area * member->length;
    p->tension = locked_tension(member, material->elastic_modulus * area);
    prepare_loads(p);
    if (prepare_beam(p) != RBOW_OK) return RBOW_OUT_OF_RANGE;
    prepare_segments(p);
    return isfinite(p->tension) && isfinite(p->column_load) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

prepared rbow_without_fit(const prepared *p)
{
    prepared free = *p;
    free.tension = free.member.gap = free.member.miss_a = free.member.miss_b = 0;
    for (int i = 0; i < PLANES; i++) free.built.slope_a[i] = free.built.slope_b[i] = 0;
    return free;
}

static bool acts(const double load[PLANES])
{
    return fabs(load[UP]) > 0 || fabs(load[RIGHT]) > 0;
}

bool rbow_has_run_load(const prepared *p)
{
    const member_loads *l = &p->run;
    return fabs(p->member.compression) > 0 || fabs(p->member.torque) > 0 || acts(l->moment_a) || acts(l->moment_b)
        || acts(l->point) || acts(l->spread);
}
