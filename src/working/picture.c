#include "working/picture.h"

#include "cases/case_words.h"
#include "working/bow.h"

#include <math.h>
#include <stdlib.h>

static void split(double to[2], double size, double clock)
{
    const double tiny = 1e-15 * (1 + fabs(clock));
    to[0] = fabs(cos(clock)) > tiny ? size * cos(clock) : 0;
    to[1] = fabs(sin(clock)) > tiny ? size * sin(clock) : 0;
}

static double or_middle(double at, double length)
{
    return at <= RBOW_UNSET ? length / 2 : at;
}

static void draw_loads(picture *p, const rbow_member *m, const rbow_result *r)
{
    const bool idle = m->point_at > RBOW_UNSET && (m->point_at <= 0 || (m->point_at >= m->length && !p->free_b));
    p->compression = m->compression;
    p->eccentricity = m->eccentricity;
    p->point_at = or_middle(m->point_at, m->length);
    split(p->point, idle ? 0 : m->point_load, m->point_clock);
    split(p->spread, m->spread_load, m->spread_clock);
    p->spread[0] -= r->weight / m->length * m->vertical_g * cos(m->slope);
    split(p->moment_a, m->moment_a, m->moment_clock);
    split(p->moment_b, m->moment_b, m->moment_clock);
    p->torque = m->torque;
    p->gap = m->gap;
    split(p->miss_a, m->miss_a, m->miss_a_clock);
    split(p->miss_b, m->miss_b, m->miss_b_clock);
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
    const double special[] = {p->point_at, or_middle(m->bow_at, m->length), m->weld_zone, m->weld_zone,
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

typedef struct strength { /* of the tube, or of its weld zone */
    double area, modulus, inertia, pressed, pulled, od; /* psi */
} strength;

static strength strength_of(double od, double wall, double modulus, double compression_yield, double yield)
{
    rbow_section s;
    double reduction = NAN;
    rbow_section_of(od, wall, &s);
    rbow_wall_reduction(s.diameter_to_wall, modulus, compression_yield, &reduction);
    return (strength){s.area, s.section_modulus, s.inertia, reduction * compression_yield, yield, od};
}

/* The part of a strength that the shear of the torque leaves. */
static double beside_shear(double limit, double shear)
{
    const double square = limit * limit - 3 * shear * shear;
    return square > 0 ? sqrt(square) : 0;
}

static double allowed_moment(const strength *s, const rbow_limit *l, int check, double column_load)
{
    const double shear = fabs(l->torque) * (s->od / 2) / (2 * s->inertia), axial = l->axial / s->area;
    if (check == RBOW_BY_YIELD)
        return s->modulus * fmax(0, fmin(beside_shear(s->pressed, shear) - axial, beside_shear(s->pulled, shear) + axial));
    const double left = fmax(0, 1 - l->axial / column_load);
    return s->modulus * beside_shear(left * s->pressed, shear);
}

static void draw_allowed(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r, int check, const rbow_limit *l)
{
    const strength tube = strength_of(m->od, m->wall, k->elastic_modulus, k->compression_yield, k->yield);
    const strength weld = m->weld_zone > 0 ? strength_of(m->od - 2 * m->dressed, m->wall - m->dressed, k->elastic_modulus,
                                                         k->weld_yield, k->weld_yield) : tube;
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        const double middle = (p->at[i] + p->at[i + 1 < PICTURE_STATIONS ? i + 1 : i]) / 2;
        const double before = (p->at[i] + p->at[i > 0 ? i - 1 : 0]) / 2;
        /* a zone border is in the list twice, once for each side */
        const double here = i + 1 < PICTURE_STATIONS && !(p->at[i + 1] > p->at[i]) ? before : middle;
        const bool welded = here < m->weld_zone || (!p->free_b && here > m->length - m->weld_zone);
        p->allowed[i] = allowed_moment(welded ? &weld : &tube, l, check, r->column_load);
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
    const int own = m->column_curve == RBOW_CURVE_OF_MATERIAL ? (int)k->column_curve : m->column_curve;
    for (size_t i = 0; i < PICTURE_SLENDERNESSES; i++)
        p->slenderness[i] = last * (double)i / (PICTURE_SLENDERNESSES - 1);
    for (int curve = RBOW_CURVE_JOHNSON; curve < RBOW_CURVE_COUNT; curve++) {
        rbow_column column = {.curve = (rbow_curve)curve, .elastic_modulus = k->elastic_modulus,
                              .compression_yield = k->compression_yield, .column_intercept = k->column_intercept,
                              .wall_reduction = r->wall_reduction};
        if (curve == own) p->curve = p->curve_count;
        p->curves[p->curve_count].name = rbow_curve_name((rbow_curve)curve);
        for (size_t i = 0; i < PICTURE_SLENDERNESSES; i++) {
            column.slenderness = fmax(p->slenderness[i], 1e-3);
            rbow_column_stress(&column, &p->curves[p->curve_count].stress[i]);
        }
        p->curve_count++;
    }
}

void picture_of(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r)
{
    *p = (picture){.length = m->length, .weld_zone = m->weld_zone, .dressed = m->dressed,
                   .free_b = m->end_b <= RBOW_FREE && m->end_b > RBOW_WELDED, .end_a = end_word(m->end_a),
                   .end_b = end_word(m->end_b)};
    draw_loads(p, m, r);
    set_stations(p, m, r);
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        double bow[2];
        split(bow, m->bow * bow_share(m, p->at[i]), m->bow_clock);
        p->bow[0][i] = bow[0];
        p->bow[1][i] = bow[1];
    }
    draw_moments(p, m, k, r);
    draw_curves(p, m, k, r);
}
