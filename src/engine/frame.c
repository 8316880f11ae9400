#include "engine/frame.h"

#include "engine/beam.h"
#include "engine/ends.h"

#include <gsl/gsl_math.h>
#include <math.h>

/* ---- what may be asked ------------------------------------------------------------------------------ */

typedef struct fault_list {
    rbow_status *at;
    size_t count, most;
} fault_list;

static void need(fault_list *list, bool fine, rbow_status fault)
{
    if (fine) return;
    if (list->count < list->most) list->at[list->count] = fault;
    list->count++;
}

static bool positive(double v)
{
    return v > 0 && isfinite(v);
}

static bool not_negative(double v)
{
    return v >= 0 && isfinite(v);
}

static bool is_free(const rbow_member *m)
{
    return end_is(m->end_b, RBOW_FREE);
}

static double or_middle(double at, double length)
{
    return end_is(at, RBOW_UNSET) ? length / 2 : at;
}

/* 10 degrees: beyond it small-slope theory overstates lengths by more than one per cent. */
static const double steepest = 0.17632698070846498; /* tan 10 deg */

static double bow_steepness(const rbow_member *m)
{
    const double at = or_middle(m->bow_at, m->length);
    switch (m->bow_shape) {
        case RBOW_BOW_SINE: return M_PI * m->bow / m->length;
        case RBOW_BOW_ARC: return 4 * m->bow / m->length;
        default: return m->bow / fmin(at, m->length - at);
    }
}

static bool material_is_sound(const rbow_material *k)
{
    return positive(k->elastic_modulus) && positive(k->density) && positive(k->yield)
        && positive(k->compression_yield) && positive(k->weld_yield) && positive(k->column_intercept)
        && k->column_curve > RBOW_CURVE_OF_MATERIAL && k->column_curve < RBOW_CURVE_COUNT;
}

static bool end_is_sound(double end)
{
    return end >= 0 || end_is(end, RBOW_WELDED);
}

static bool wall_in_rule(double od, double wall, double modulus, double yield)
{
    double reduction;
    return rbow_wall_reduction(od / wall, modulus, yield, &reduction) == RBOW_OK;
}

static void tube_faults(fault_list *list, const rbow_member *m, const rbow_material *k)
{
    const bool od = positive(m->od), wall = od && positive(m->wall) && m->wall <= m->od / 2;
    const bool material = material_is_sound(k);
    need(list, od, RBOW_BAD_OD);
    need(list, wall || !od, RBOW_BAD_WALL);
    need(list, material, RBOW_BAD_MATERIAL);
    if (wall && material)
        need(list, wall_in_rule(m->od, m->wall, k->elastic_modulus, k->compression_yield), RBOW_WALL_RULE);
    need(list, positive(m->length), RBOW_BAD_LENGTH);
    need(list, end_is_sound(m->end_a), RBOW_BAD_END_A);
    need(list, end_is_sound(m->end_b) || is_free(m), RBOW_BAD_END_B);
    if (is_free(m) && end_is_sound(m->end_a)) need(list, m->end_a > 0, RBOW_FREE_NEEDS_ROOT);
    need(list, m->column_curve >= 0 && m->column_curve < RBOW_CURVE_COUNT, RBOW_BAD_CURVE);
}

static void load_faults(fault_list *list, const rbow_member *m)
{
    const double plain[] = {
        m->compression,    m->eccentricity_clock, m->moment_a,     m->moment_b, m->moment_clock, m->point_load,
        m->point_clock,    m->spread_load,        m->spread_clock, m->vertical_g, m->torque,     m->bow_clock,
        m->miss_a_clock,   m->miss_b_clock,       m->gap,
    };
    bool finite = true;
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) finite = finite && isfinite(plain[i]);
    need(list, finite, RBOW_NOT_FINITE);
    need(list, not_negative(m->eccentricity), RBOW_BAD_ECCENTRICITY);
    if (positive(m->length)) {
        const double at = or_middle(m->point_at, m->length);
        need(list, at >= 0 && at <= m->length, RBOW_BAD_POINT_AT);
    }
    const double upright = M_PI / 2 * (1 + 1e-15);
    need(list, m->slope >= -upright && m->slope <= upright, RBOW_BAD_SLOPE);
}

static void fit_faults(fault_list *list, const rbow_member *m)
{
    const bool length = positive(m->length), bow = not_negative(m->bow);
    const double at = or_middle(m->bow_at, m->length);
    const bool shape = m->bow_shape >= RBOW_BOW_SINE && m->bow_shape <= RBOW_BOW_KINK;
    const bool bow_at = !length || (at > 0 && at < m->length);
    need(list, bow, RBOW_BAD_BOW);
    need(list, shape, RBOW_BAD_BOW_SHAPE);
    need(list, bow_at, RBOW_BAD_BOW_AT);
    if (length && bow && shape && bow_at) need(list, bow_steepness(m) <= steepest, RBOW_BOW_TOO_STEEP);
    need(list, not_negative(m->miss_a), RBOW_BAD_MISS_A);
    need(list, not_negative(m->miss_b), RBOW_BAD_MISS_B);
    if (length && not_negative(m->miss_a)) need(list, m->miss_a / m->length <= steepest, RBOW_MISS_A_TOO_STEEP);
    if (length && not_negative(m->miss_b)) need(list, m->miss_b / m->length <= steepest, RBOW_MISS_B_TOO_STEEP);
    if (is_free(m)) {
        need(list, !(m->miss_b > 0), RBOW_MISS_B_FREE);
        need(list, !(fabs(m->gap) > 0), RBOW_GAP_FREE);
    }
    need(list, m->gap_stiffness > 0, RBOW_BAD_GAP_STIFFNESS);
}

static void weld_faults(fault_list *list, const rbow_member *m, const rbow_material *k)
{
    const bool wall = positive(m->od) && positive(m->wall) && m->wall <= m->od / 2;
    const bool weld_zone = not_negative(m->weld_zone) && !(positive(m->length) && m->weld_zone > m->length);
    const bool dressed = not_negative(m->dressed) && !(wall && m->dressed >= m->wall);
    need(list, weld_zone, RBOW_BAD_WELD_ZONE);
    need(list, dressed, RBOW_BAD_DRESSED);
    /* undressed, a wall that is too thin for the tube has been named already */
    if (wall && weld_zone && dressed && m->weld_zone > 0 && material_is_sound(k)
        && (m->dressed > 0 || wall_in_rule(m->od, m->wall, k->elastic_modulus, k->compression_yield)))
        need(list,
             wall_in_rule(m->od - 2 * m->dressed, m->wall - m->dressed, k->elastic_modulus, k->weld_yield),
             m->dressed > 0 ? RBOW_DRESSED_RULE : RBOW_WALL_RULE);
    need(list, positive(m->factor), RBOW_BAD_FACTOR);
    need(list, positive(m->factor_yield) || end_is(m->factor_yield, RBOW_UNSET), RBOW_BAD_FACTOR_YIELD);
}

size_t frame_faults(const rbow_member *member, const rbow_material *material, rbow_status *faults, size_t most)
{
    fault_list list = {faults, 0, most};
    tube_faults(&list, member, material);
    load_faults(&list, member);
    fit_faults(&list, member);
    weld_faults(&list, member, material);
    return list.count;
}

/* ---- making ready ----------------------------------------------------------------------------------- */

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
    if (is_free(m))
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

static pair toward(double size, double clock)
{
    const double up = cos(clock), right = sin(clock);
    return (pair){size * without_rounding(up, clock), size * without_rounding(right, clock)};
}

bool frame_point_is_idle(const rbow_member *m)
{
    return m->point_at <= 0 || (m->point_at >= m->length && !is_free(m));
}

/* With a free B the push's offset acts at B alone: the root's joint takes what comes. */
static void build_loads(frame *f)
{
    const rbow_member *m = &f->member;
    const pair offset = toward(m->compression * m->eccentricity, m->eccentricity_clock), none = {0, 0};
    const pair weight = {-f->weight / m->length * m->vertical_g * without_rounding(cos(m->slope), m->slope), 0};
    f->run = (loads){
        .moment_a = toward(m->moment_a, m->moment_clock) + (is_free(m) ? none : offset),
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

static void set_spots(piece *p, double cells_of_tube)
{
    const double span = p->to - p->from, side = (p->from + p->to) / 2;
    const int cells = (int)ceil(span * cells_of_tube);
    p->count = cells + 1;
    for (int i = 0; i < cells; i++) p->spots[i] = spot_at(p->from + span * i / cells, side);
    p->spots[cells] = spot_at(p->to, side);
}

static bool acts(pair load)
{
    return fabs(load[UP]) > 0 || fabs(load[RIGHT]) > 0;
}

static void build_pieces(frame *f)
{
    const rbow_member *m = &f->member;
    const double weld = m->weld_zone / m->length;
    double borders[PIECES_MOST + 1];
    int count = 0;
    insert_border(borders, &count, 0);
    insert_border(borders, &count, 1);
    if (f->has_point) insert_border(borders, &count, m->point_at / m->length);
    if (m->bow_shape == RBOW_BOW_KINK && m->bow > 0) insert_border(borders, &count, m->bow_at / m->length);
    if (weld > 0) {
        insert_border(borders, &count, weld);
        if (!is_free(m)) insert_border(borders, &count, 1 - weld);
    }
    f->piece_count = 0;
    for (int i = 0; i + 1 < count; i++) {
        if (!(borders[i] < borders[i + 1])) continue;
        const double middle = (borders[i] + borders[i + 1]) / 2;
        const bool welded = middle < weld || (!is_free(m) && middle > 1 - weld);
        piece *p = &f->pieces[f->piece_count++];
        *p = (piece){.from = borders[i], .to = borders[i + 1], .zone = welded ? ZONE_WELD : ZONE_TUBE};
        set_spots(p, cells_of(f));
    }
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
        .bow_shape = (rbow_bow_shape)m->bow_shape,
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
