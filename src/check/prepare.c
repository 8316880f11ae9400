#include "check/prepare.h"

#include <railbow/clock.h>
#include <railbow/forced_fit.h>
#include <railbow/weld_zone.h>

#include <float.h>
#include <gsl/gsl_math.h>
#include <math.h>

/* ---- zones and column ---------------------------------------------------------------------------------- */

static double strength_of(rbow_tube_size size, const rbow_material *k, double compression_yield, double yield, rbow_strength *s)
{
    double reduction;
    rbow_section_of(size.od, size.wall, &s->section);
    rbow_wall_reduction(s->section.diameter_to_wall, k->elastic_modulus, compression_yield, &reduction);
    s->compression_yield = reduction * compression_yield;
    s->yield = yield;
    return reduction;
}

static void prepare_zones(prepared *p, const rbow_material *k)
{
    const rbow_member *m = &p->member;
    const rbow_tube_size tube = {m->od, m->wall};
    rbow_strength *whole = &p->zones[ZONE_TUBE].strength, *weld = &p->zones[ZONE_WELD].strength;
    p->wall_reduction = strength_of(tube, k, k->compression_yield, k->yield, whole);
    *weld = *whole;
    p->weld_reduction = 1;
    if (m->weld_zone > 0)
        p->weld_reduction = strength_of(rbow_weld_zone_size(tube, m->dressed), k, k->weld_yield, k->weld_yield, weld);
    p->unit = k->elastic_modulus * whole->section.inertia / m->length;
    for (int i = 0; i < ZONES; i++) p->zones[i].factors = fibre_factors_of(&p->zones[i].strength, p->unit);
}

/* Stiffness and critical load with the ends as they are taken, or with welded ends soft. */
static rbow_status critical_load_of(const prepared *p, bool soft, double *stiffness_a, double *stiffness_b, double *load)
{
    const rbow_member *m = &p->member;
    const double bending_stiffness = p->unit * m->length;
    const double end_a = soft && is_welded(m->end_a) ? RBOW_SOFT_WELD : m->end_a;
    const double end_b = soft && is_welded(m->end_b) ? RBOW_SOFT_WELD : m->end_b;
    rbow_end_stiffness(end_a, bending_stiffness, m->length, stiffness_a);
    if (member_is_free(m))
        *stiffness_b = RBOW_FREE;
    else
        rbow_end_stiffness(end_b, bending_stiffness, m->length, stiffness_b);
    if (is_welded(end_a) && is_welded(end_b) && !isinf(*stiffness_a) && !isinf(*stiffness_b)) { /* fixity 2, by definition of the word */
        *load = 2 * M_PI * M_PI * p->unit / m->length;
        return RBOW_OK;
    }
    return rbow_critical_load(bending_stiffness, m->length, *stiffness_a, *stiffness_b, load);
}

/* Given: fixity  of the column; NaN for that of the ends */
static rbow_status prepare_ends(prepared *p, double fixity)
{
    double a, b;
    const bool stiff = end_is(p->member.end_a, RBOW_STIFF_WELD) || end_is(p->member.end_b, RBOW_STIFF_WELD);
    const rbow_status status = critical_load_of(p, false, &p->stiffness_a, &p->stiffness_b, &p->critical_load);
    p->column_critical_load = isnan(fixity) ? p->critical_load : fixity * M_PI * M_PI * p->unit / p->member.length;
    return status == RBOW_OK && stiff && isnan(fixity) ? critical_load_of(p, true, &a, &b, &p->column_critical_load) : status;
}

rbow_status rbow_prepare_column(prepared *p, const rbow_material *k)
{
    const rbow_section *s = &p->zones[ZONE_TUBE].strength.section;
    p->effective_length = rbow_effective_length(p->unit * p->member.length, p->column_critical_load);
    const rbow_column column = {
        .curve = (rbow_curve)p->member.column_curve,
        .elastic_modulus = k->elastic_modulus,
        .compression_yield = k->compression_yield,
        .column_intercept = k->column_intercept,
        .wall_reduction = p->wall_reduction,
        .slenderness = p->effective_length / s->radius,
    };
    const rbow_status status = rbow_column_stress(&column, &p->column_stress);
    p->column_load = p->column_stress * s->area;
    for (int i = 0; i < ZONES; i++) p->zones[i].strength.column_load = p->column_load;
    return status;
}

/* ---- loads --------------------------------------------------------------------------------------------- */

static void add_toward(double size, double clock, double planes[PLANES])
{
    double parts[PLANES];
    if (!(fabs(size) > 0)) return;
    rbow_clock_components(size, clock, parts);
    for (int i = 0; i < PLANES; i++) planes[i] += parts[i];
}

/* With a free B the eccentric push acts at B alone: the joint at A takes what comes. */
void rbow_prepare_loads(prepared *p)
{
    const rbow_member *m = &p->member;
    const double length = m->length, per_unit = 1 / p->unit, offset = m->compression * m->eccentricity;
    double level[PLANES]; /* of the direction of the tube: the weight acts across its first component */
    member_loads *run = &p->run, *built = &p->built;
    *run = *built = (member_loads){.moment_a = {0}};
    rbow_clock_components(1, m->slope, level);
    add_toward(m->moment_a * per_unit, m->moment_clock, run->moment_a);
    add_toward(m->moment_b * per_unit, m->moment_clock, run->moment_b);
    if (!member_is_free(m)) add_toward(offset * per_unit, m->eccentricity_clock, run->moment_a);
    add_toward(offset * per_unit, m->eccentricity_clock, run->moment_b);
    if (!rbow_member_point_is_idle(m)) add_toward(m->point_load * length * per_unit, m->point_clock, run->point);
    add_toward(m->spread_load * length * length * per_unit, m->spread_clock, run->spread);
    run->spread[UP] -= p->weight * m->vertical_g * level[0] * length * per_unit;
    add_toward(m->bow / length, m->bow_clock, built->bow);
    add_toward(rbow_fit_slope(m->miss_a, length), m->miss_a_clock, built->slope_a);
    add_toward(rbow_fit_slope(m->miss_b, length), m->miss_b_clock, built->slope_b);
    if (rbow_fit_tension(m->gap, length, p->axial_stiffness, m->gap_stiffness, &p->tension) != RBOW_OK) p->tension = NAN;
}

static rbow_status prepare_beam(prepared *p)
{
    const rbow_member *m = &p->member;
    const bool point = fabs(m->point_load) > 0 && !rbow_member_point_is_idle(m), bowed = m->bow > 0;
    const rbow_beam from = {
        .bending_stiffness = p->unit * m->length,
        .length = m->length,
        .stiffness_a = p->stiffness_a,
        .stiffness_b = p->stiffness_b,
        .point_at = point ? m->point_at : m->length,
        .bow_at = m->bow_at,
        .bow_shape = bowed ? (rbow_bow_shape)m->bow_shape : RBOW_BOW_ARC, /* which needs no additional shape */
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

/* Stations are at most 0.7 rad apart on the fastest wave of the moment: that of the bow (pi), or that at the critical load
 * (at most 2 pi). The bounds of maximum_body.h then finish nearly every cell at once. */
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
    const double length = m->weld_zone > 0 ? fmax(m->weld_zone / m->length, DBL_EPSILON) : 0; /* the joint belongs to it */
    const rbow_weld_zone weld = {length, 1, member_is_free(m)};
    const double cells = cells_of_tube(p);
    double borders[SEGMENTS_MOST + 1], ends[2];
    int count = 0;
    insert_border(borders, &count, -0.5);
    insert_border(borders, &count, 0.5);
    if (p->beam.has_point) insert_border(borders, &count, p->beam.point_at);
    if (p->beam.has_kink) insert_border(borders, &count, p->beam.kink_at);
    rbow_weld_zone_ends(&weld, ends);
    for (int i = 0; i < 2; i++)
        if (isfinite(ends[i])) insert_border(borders, &count, ends[i] - 0.5);
    p->segment_count = p->station_count = 0;
    for (int i = 0; i + 1 < count; i++) {
        if (!(borders[i] < borders[i + 1])) continue;
        const double middle = (borders[i] + borders[i + 1]) / 2;
        add_segment(p, borders[i], borders[i + 1], rbow_weld_zone_has(&weld, middle + 0.5) ? ZONE_WELD : ZONE_TUBE, cells);
    }
    const station middle = station_at(&p->beam, 0, 0);
    for (int i = 0; i < STATIONS_BEHIND; i++) put_station(&p->stations, p->station_count + i, &middle, 0);
}

static rbow_status prepare(const rbow_member *member, const rbow_material *material, double fixity, prepared *p)
{
    p->member = rbow_member_resolved(member, material);
    prepare_zones(p, material);
    rbow_status status = prepare_ends(p, fixity);
    if (status == RBOW_OK) status = rbow_prepare_column(p, material);
    if (status != RBOW_OK) return status;
    const double area = p->zones[ZONE_TUBE].strength.section.area;
    p->weight = material->density * area * member->length;
    p->axial_stiffness = material->elastic_modulus * area;
    rbow_prepare_loads(p);
    if (prepare_beam(p) != RBOW_OK) return RBOW_OUT_OF_RANGE;
    prepare_segments(p);
    return isfinite(p->tension) && isfinite(p->column_load) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

rbow_status rbow_prepare(const rbow_member *member, const rbow_material *material, prepared *p)
{
    return prepare(member, material, NAN, p);
}

rbow_status rbow_prepare_with_fixity(const rbow_member *member, const rbow_material *material, double fixity, prepared *p)
{
    return prepare(member, material, fixity, p);
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
