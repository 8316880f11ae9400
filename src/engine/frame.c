#include "engine/frame.h"

#include "engine/beam.h"
#include "engine/ends.h"
#include "engine/wide.h"

#include <gsl/gsl_math.h>
#include <math.h>

static void resolve_defaults(rbow_member *m, const rbow_material *k)
{
    m->point_at = or_middle(m->point_at, m->length);
    m->bow_at = or_middle(m->bow_at, m->length);
    if (end_is(m->factor_yield, RBOW_UNSET)) m->factor_yield = m->factor;
    if (m->column_curve == RBOW_CURVE_OF_MATERIAL) m->column_curve = (int)k->column_curve;
}

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

static void build_zones(frame *f, const rbow_material *k)
{
    const rbow_member *m = &f->member;
    f->wall_reduction = zone_of(m->od, m->wall, k, k->compression_yield, k->yield, &f->zones[ZONE_TUBE]);
    f->zones[ZONE_WELD] = f->zones[ZONE_TUBE];
    f->weld_reduction = 1;
    if (m->weld_zone > 0)
        f->weld_reduction = zone_of(m->od - 2 * m->dressed, m->wall - m->dressed, k, k->weld_yield, k->weld_yield,
                                    &f->zones[ZONE_WELD]);
}

static rbow_status build_column(frame *f, const rbow_material *k)
{
    const rbow_member *m = &f->member;
    const rbow_section *s = &f->zones[ZONE_TUBE].section;
    f->bending_stiffness = k->elastic_modulus * s->inertia;
    f->unit = f->bending_stiffness / m->length;
    for (int i = 0; i < 2; i++) f->zones[i].stress_per_moment = f->unit / f->zones[i].section.section_modulus;
    rbow_end_stiffness(m->end_a, f->bending_stiffness, m->length, &f->stiffness_a);
    if (member_is_free(m))
        f->stiffness_b = RBOW_FREE;
    else
        rbow_end_stiffness(m->end_b, f->bending_stiffness, m->length, &f->stiffness_b);

    rbow_status status = RBOW_OK;
    if (end_is(m->end_a, RBOW_WELDED) && end_is(m->end_b, RBOW_WELDED)) /* fixity 2: what the word means */
        f->critical_load = 2 * M_PI * M_PI * f->unit / m->length;
    else
        status = rbow_critical_load(f->bending_stiffness, m->length, f->stiffness_a, f->stiffness_b,
                                    &f->critical_load);
    if (status != RBOW_OK) return status;
    const double effective = M_PI * sqrt(f->bending_stiffness / f->critical_load);
    const rbow_column column = {
        .curve = (rbow_curve)m->column_curve,
        .elastic_modulus = k->elastic_modulus,
        .compression_yield = k->compression_yield,
        .column_intercept = k->column_intercept,
        .wall_reduction = f->wall_reduction,
        .slenderness = effective / s->radius,
    };
    status = rbow_column_stress(&column, &f->column_stress);
    f->column_load = f->column_stress * s->area;
    return status;
}

/* A quarter of the clock in radians is not quite a quarter; what rounding leaves is no load. */
static double without_rounding(double share, double clock)
{
    return fabs(share) > 1e-15 * (1 + fabs(clock)) ? share : 0;
}

/* Of a weight across the tube. */
static double level_share(double slope)
{
    return fabs(slope) > 0 ? without_rounding(cos(slope), slope) : 1;
}

static pair toward(double size, double clock)
{
    if (!(fabs(size) > 0)) return (pair){0, 0};
    const double up = cos(clock), right = sin(clock);
    return (pair){size * without_rounding(up, clock), size * without_rounding(right, clock)};
}

bool frame_point_is_idle(const rbow_member *m)
{
    const double share = m->point_at / m->length; /* as a joint's place is judged everywhere: a denormal is at A */
    return share <= 0 || (share >= 1 && !member_is_free(m));
}

/* With a free B the push's offset acts at B alone: the root's joint takes what comes. */
static void build_loads(frame *f)
{
    const rbow_member *m = &f->member;
    const pair offset = toward(m->compression * m->eccentricity, m->eccentricity_clock), none = {0, 0};
    const pair weight = {-f->weight / m->length * m->vertical_g * level_share(m->slope), 0};
    f->run = (loads){
        .moment_a = toward(m->moment_a, m->moment_clock) + (member_is_free(m) ? none : offset),
        .moment_b = toward(m->moment_b, m->moment_clock) + offset,
        .point_load = f->has_point ? toward(m->point_load, m->point_clock) : none,
        .spread_load = toward(m->spread_load, m->spread_clock) + weight,
    };
    f->built = (loads){
        .bow = toward(m->bow, m->bow_clock),
        .slope_a = toward(m->miss_a / m->length, m->miss_a_clock),
        .slope_b = toward(m->miss_b / m->length, m->miss_b_clock),
    };
}

/* T0 = gap / (L/EA + 1/stiffness of the surroundings) */
static double locked_tension(const rbow_member *m, double axial_stiffness)
{
    return m->gap / (m->length / axial_stiffness + 1 / m->gap_stiffness);
}

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

/* Along a wave of u radians the square of a moment's size turns with 2u: cells of 0.7 radians of the shortest wave,
 * the bow's pi or the one near the critical load (2 pi at most), leave 1.4 radians of the square to a cell, a quarter
 * of its wave. */
static double cells_of(const frame *f)
{
    const double shortest = f->member.length * sqrt(f->critical_load / f->bending_stiffness);
    return fmin(fmax(shortest, M_PI) / (2 * M_PI), 1) * CELLS_MOST;
}

static void set_spots(places *all, piece *p, double cells_of_tube)
{
    const double span = p->to - p->from;
    const int cells = (int)ceil(span * cells_of_tube), last = p->first + cells;
    p->count = cells + 1;
    p->cell = span / cells;
    for (int i = 0; i < cells; i++) {
        all->xi[p->first + i] = p->from + i * p->cell;
        all->cell[p->first + i] = p->cell;
    }
    all->xi[last] = p->to;
    all->cell[last] = 0;
}

/* Behind the last, as far as the widest vector reaches. */
static void clear_spots(places *all, int from)
{
    for (int i = from; i < from + SPOTS_BEHIND; i++)
        all->xi[i] = all->sine[i] = all->cosine[i] = all->whole_sine[i] = all->whole_cosine[i] = all->cell[i] = 0;
}

/* Of pi xi/2 and pi xi: the half waves of the load pi^2. At B nothing is left to rounding. */
static void set_angles(places *all, int count)
{
    half_waves h;
    half_waves_at(M_PI * M_PI, all, count, &h);
    for (int i = 0; i < count; i++) {
        const bool at_b = all->xi[i] >= 1;
        const double sine = at_b ? 1 : M_PI * h.sine[i], cosine = at_b ? 0 : h.cosine[i];
        all->sine[i] = sine;
        all->cosine[i] = cosine;
        all->whole_sine[i] = 2 * sine * cosine;
        all->whole_cosine[i] = 1 - 2 * sine * sine;
    }
}

static bool acts(pair load)
{
    return fabs(load[UP]) > 0 || fabs(load[RIGHT]) > 0;
}

static void build_pieces(frame *f)
{
    const rbow_member *m = &f->member;
    const double weld = m->weld_zone / m->length, cells = cells_of(f);
    const double point_at = m->point_at / m->length, kink_at = m->bow_at / m->length;
    const bool kinked = m->bow_shape == RBOW_BOW_KINK && m->bow > 0;
    double borders[PIECES_MOST + 1];
    int count = 0;
    insert_border(borders, &count, 0);
    insert_border(borders, &count, 1);
    if (f->has_point) insert_border(borders, &count, point_at);
    if (kinked) insert_border(borders, &count, kink_at);
    if (weld > 0) {
        insert_border(borders, &count, weld);
        if (!member_is_free(m)) insert_border(borders, &count, 1 - weld);
    }
    int spots = 0;
    f->piece_count = 0;
    for (int i = 0; i + 1 < count; i++) {
        if (!(borders[i] < borders[i + 1])) continue;
        const double middle = (borders[i] + borders[i + 1]) / 2;
        const bool welded = middle < weld || (!member_is_free(m) && middle > 1 - weld);
        piece *p = &f->pieces[f->piece_count++];
        p->from = borders[i];
        p->to = borders[i + 1];
        p->zone = welded ? ZONE_WELD : ZONE_TUBE;
        p->point = f->has_point && p->from >= point_at && p->from <= point_at;
        p->kink = kinked && p->from >= kink_at && p->from <= kink_at;
        p->first = spots;
        set_spots(&f->places, p, cells);
        spots += p->count;
    }
    clear_spots(&f->places, spots);
    set_angles(&f->places, spots);
}

rbow_status frame_build(const rbow_member *member, const rbow_material *material, frame *f)
{
    const rbow_member *m = &f->member;
    f->member = *member;
    resolve_defaults(&f->member, material);
    build_zones(f, material);
    const rbow_status status = build_column(f, material);
    if (status != RBOW_OK) return status;
    const double area = f->zones[ZONE_TUBE].section.area;
    f->weight = material->density * area * member->length;
    f->tension = locked_tension(member, material->elastic_modulus * area);
    f->has_point = fabs(m->point_load) > 0 && !frame_point_is_idle(m);
    build_loads(f);
    build_pieces(f);
    const rbow_beam beam = {
        .bending_stiffness = f->bending_stiffness,
        .length = m->length,
        .critical_load = f->critical_load,
        .stiffness_a = f->stiffness_a,
        .stiffness_b = f->stiffness_b,
        .point_at = f->has_point ? m->point_at : m->length,
        .bow_at = m->bow_at,
        .bow_shape = m->bow > 0 ? (rbow_bow_shape)m->bow_shape : RBOW_BOW_ARC, /* which needs no shape of its own */
    };
    if (beam_begin(&beam, &f->ready) != RBOW_OK) return RBOW_OUT_OF_RANGE;
    return isfinite(f->tension) && isfinite(f->column_load) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

frame frame_unforced(const frame *f)
{
    frame free = *f;
    free.tension = free.member.gap = free.member.miss_a = free.member.miss_b = 0;
    free.built.slope_a = free.built.slope_b = (pair){0, 0};
    return free;
}

bool frame_runs(const frame *f)
{
    const loads *l = &f->run;
    return fabs(f->member.compression) > 0 || fabs(f->member.torque) > 0 || acts(l->moment_a) || acts(l->moment_b)
        || acts(l->point_load) || acts(l->spread_load);
}

/* ---- the state at one load factor ------------------------------------------------------------------- */

static loads at_factor(const loads *run, const loads *built, double factor)
{
    return (loads){
        .moment_a = run->moment_a * factor,
        .moment_b = run->moment_b * factor,
        .point_load = run->point_load * factor,
        .spread_load = run->spread_load * factor,
        .bow = built->bow,
        .slope_a = built->slope_a,
        .slope_b = built->slope_b,
    };
}

rbow_status frame_state(const frame *f, double factor, double tension, state *s)
{
    s->axial = frame_axial(f, factor, tension);
    s->torque = factor * f->member.torque;
    s->prepared = f->ready;
    const rbow_status status = beam_load(&s->prepared, s->axial);
    if (status != RBOW_OK) return status;
    const loads l = at_factor(&f->run, &f->built, factor);
    beam_solve(&s->prepared, &l, &s->shares);
    return RBOW_OK;
}
