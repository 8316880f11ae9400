#include "working/picture.h"

#include "cases/case_words.h"

#include <railbow/clock.h>
#include <railbow/stress.h>

#include <math.h>
#include <stdlib.h>

static void draw_loads(picture *p, const rbow_member *m, const rbow_result *r)
{
    double level[2];
    p->compression = m->compression;
    p->eccentricity = m->eccentricity;
    rbow_clock_components(m->eccentricity, m->eccentricity_clock, p->eccentric);
    p->point_at = m->point_at;
    rbow_clock_components(rbow_member_point_is_idle(m) ? 0 : m->point_load, m->point_clock, p->point);
    rbow_clock_components(m->spread_load, m->spread_clock, p->spread);
    rbow_clock_components(1, m->slope, level);
    p->spread[0] -= r->weight / m->length * m->vertical_g * level[0];
    rbow_clock_components(m->moment_a, m->moment_clock, p->moment_a);
    rbow_clock_components(m->moment_b, m->moment_clock, p->moment_b);
    p->torque = m->torque;
    p->gap = m->gap;
    rbow_clock_components(m->miss_a, m->miss_a_clock, p->miss_a);
    rbow_clock_components(m->miss_b, m->miss_b_clock, p->miss_b);
    p->bow_size = m->bow;
}

static int ascending(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Evenly spaced stations, and one wherever a line has a kink or a jump. */
static void set_stations(picture *p, const rbow_member *m, const rbow_result *r)
{
    const double special[] = {p->point_at, m->bow_at, m->weld_zone, m->weld_zone,
                              m->length - m->weld_zone, m->length - m->weld_zone, r->governs_at, r->peak_moment_at};
    const size_t more = sizeof special / sizeof *special, even = PICTURE_STATIONS - more;
    for (size_t i = 0; i < even; i++) p->at[i] = m->length * (double)i / (double)(even - 1);
    for (size_t i = 0; i < more; i++)
        p->at[even + i] = special[i] >= 0 && special[i] <= m->length ? special[i] : m->length / 2;
    qsort(p->at, PICTURE_STATIONS, sizeof *p->at, ascending);
}

static void draw_state(picture *p, int which, double factor, double tension, const rbow_member *m, const rbow_material *k)
{
    rbow_profile stations[PICTURE_STATIONS];
    picture_state *s = &p->states[which];
    s->factor = factor;
    for (size_t i = 0; i < PICTURE_STATIONS; i++) stations[i].at = p->at[i];
    rbow_member_profile(m, k, factor, tension, stations, PICTURE_STATIONS);
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        s->moment[i] = hypot(stations[i].moment_up, stations[i].moment_right);
        s->up[i] = stations[i].deflection_up + p->bow[0][i];
        s->right[i] = stations[i].deflection_right + p->bow[1][i];
    }
}

/* ---- the moment that is allowed --------------------------------------------------------------------- */

static rbow_strength strength_of(rbow_tube_size size, const rbow_material *k, double compression_yield, double yield, double column_load)
{
    rbow_strength s = {.yield = yield, .column_load = column_load};
    double reduction;
    rbow_section_of(size.od, size.wall, &s.section);
    rbow_wall_reduction(s.section.diameter_to_wall, k->elastic_modulus, compression_yield, &reduction);
    s.compression_yield = reduction * compression_yield;
    return s;
}

/* Between a station and its neighbour: a border of a weld zone stands twice among the stations, once for each side. */
static double beside_station(const picture *p, size_t i)
{
    const size_t last = PICTURE_STATIONS - 1;
    const bool before = i < last && !(p->at[i + 1] > p->at[i]);
    return before ? (p->at[i] + p->at[i > 0 ? i - 1 : 0]) / 2 : (p->at[i] + p->at[i < last ? i + 1 : i]) / 2;
}

static void draw_allowed(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r, int check, const rbow_limit *l)
{
    const rbow_tube_size size = {m->od, m->wall};
    const rbow_weld_zone zone = rbow_member_weld_zone(m);
    const rbow_strength tube = strength_of(size, k, k->compression_yield, k->yield, r->column_load);
    const rbow_strength weld = m->weld_zone > 0 ? strength_of(p->weld_size, k, k->weld_yield, k->weld_yield, r->column_load) : tube;
    const rbow_actions actions = {.axial = l->axial, .torque = fabs(l->torque)};
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        const rbow_strength *here = rbow_weld_zone_has(&zone, beside_station(p, i)) ? &weld : &tube;
        if (check == RBOW_BY_YIELD)
            rbow_yield_moment(here, &actions, &p->allowed[i]);
        else
            rbow_interaction_moment(here, &actions, &p->allowed[i]);
    }
}

static void draw_moments(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r)
{
    const double tension = 0 - r->fit_axial;
    const int check = r->governs == RBOW_BY_INTERACTION ? RBOW_BY_INTERACTION : RBOW_BY_YIELD;
    rbow_limit l;
    draw_state(p, PICTURE_LOCKED_IN, 0, tension, m, k);
    draw_state(p, PICTURE_LOADED, 1, tension, m, k);
    const bool bends = rbow_member_limit(m, k, r->governs == RBOW_BY_NONE ? check : r->governs, &l) == RBOW_OK && isfinite(l.factor);
    draw_state(p, PICTURE_AT_LIMIT, bends ? l.factor : (double)NAN, bends ? l.tension : 0, m, k);
    if (!bends) l = (rbow_limit){.axial = r->axial, .torque = m->torque};
    draw_allowed(p, m, k, r, check, &l);
}

/* ---- the column curves ------------------------------------------------------------------------------ */

static void draw_curves(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r)
{
    const double last = fmax(200, 50 * ceil(1.1 * r->slenderness / 50));
    for (size_t i = 0; i < PICTURE_SLENDERNESSES; i++)
        p->slenderness[i] = last * (double)i / (PICTURE_SLENDERNESSES - 1);
    for (int curve = RBOW_CURVE_JOHNSON; curve < RBOW_CURVE_COUNT; curve++) {
        rbow_column column = {.curve = (rbow_curve)curve, .elastic_modulus = k->elastic_modulus,
                              .compression_yield = k->compression_yield, .column_intercept = k->column_intercept,
                              .wall_reduction = r->wall_reduction};
        if (curve == m->column_curve) p->curve = p->curve_count;
        p->curves[p->curve_count].name = rbow_curve_name((rbow_curve)curve);
        for (size_t i = 0; i < PICTURE_SLENDERNESSES; i++) {
            column.slenderness = fmax(p->slenderness[i], 1e-3);
            rbow_column_stress(&column, &p->curves[p->curve_count].stress[i]);
        }
        p->curve_count++;
    }
}

static void draw_bow(picture *p, const rbow_member *m)
{
    const rbow_bow bow = rbow_member_bow(m);
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        rbow_bow_place there;
        double components[2];
        rbow_bow_at(&bow, p->at[i], &there);
        rbow_clock_components(there.offset, m->bow_clock, components);
        p->bow[0][i] = components[0];
        p->bow[1][i] = components[1];
    }
}

void picture_of(picture *p, const rbow_member *member, const rbow_material *k, const rbow_result *r)
{
    const rbow_member resolved = rbow_member_resolved(member, k), *m = &resolved;
    const rbow_weld_zone zone = rbow_member_weld_zone(m);
    *p = (picture){.length = m->length, .weld_zone = m->weld_zone, .dressed = m->dressed, .free_b = zone.free_b,
                   .end_a = end_word(m->end_a), .end_b = end_word(m->end_b)};
    p->weld_size = rbow_weld_zone_size((rbow_tube_size){m->od, m->wall}, m->dressed);
    rbow_weld_zone_ends(&zone, p->weld_ends);
    draw_loads(p, m, r);
    set_stations(p, m, r);
    draw_bow(p, m);
    draw_moments(p, m, k, r);
    draw_curves(p, m, k, r);
}
