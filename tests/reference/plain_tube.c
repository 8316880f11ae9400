/* Section, wall rule, column curves and loads of a member, as they are defined. */
#include "plain_tube.h"

#include <stdlib.h>

static const double pi = 3.14159265358979323846;

static plain_zone zone_of(double od, double wall, double e, double push_yield, double yield)
{
    const double bore = od - 2 * wall, area = pi * wall * (od - wall), ratio = od / wall;
    const double inertia = area * (od * od + bore * bore) / 16;
    const double q = ratio <= 0.11 * e / push_yield ? 1 : fmin(1, 0.038 * e / (push_yield * ratio) + 2.0 / 3);
    return (plain_zone){area, inertia / (od / 2), od / 4 / inertia, q * push_yield, yield, q};
}

plain_zone plain_zone_of(const rbow_member *m, const rbow_material *k)
{
    return zone_of(m->od, m->wall, k->elastic_modulus, k->compression_yield, k->yield);
}

static double column_stress(const plain_tube *t, const rbow_material *k, int curve)
{
    static const double imperfection[] = {0.13, 0.21, 0.34, 0.49, 0.76};
    const double fc = t->zones[0].squash, e = k->elastic_modulus, s = t->slenderness, fe = pi * pi * e / (s * s);
    if (curve == RBOW_CURVE_JOHNSON) return s < pi * sqrt(2 * e / fc) ? fc * (1 - fc / (4 * fe)) : fe;
    if (curve == RBOW_CURVE_EULER) return fmin(fc, fe);
    if (curve == RBOW_CURVE_AISC) return fc / fe <= 2.25 ? pow(0.658, fc / fe) * fc : 0.877 * fe;
    if (curve == RBOW_CURVE_THREE_HALVES) {
        const double start = t->zones[0].q * k->column_intercept, change = pi * sqrt(7 * e / (3 * start));
        return fmin(fc, s < change ? start - 4.0 / 3 * pi * pi * e * pow(change, -3.5) * pow(s, 1.5) : fe);
    }
    const double l = sqrt(fc / fe), phi = 0.5 * (1 + imperfection[curve - RBOW_CURVE_EN_A0] * (l - 0.2) + l * l);
    return l <= 0.2 ? fc : fc / (phi + sqrt(phi * phi - l * l));
}

/* ---- the member without dimensions ------------------------------------------------------------------ */

static vector toward(double size, double clock) { return size * (cosl(clock) + sinl(clock) * (vector)I); }

static void hold(double end, const plain_tube *t, real *held, real *given)
{
    const real u = 3.14159265358979323846264338327950288L * sqrtl(2), soft = -u / tanl(u / 2);
    const real k = end <= RBOW_SOFT_WELD ? soft : (real)end * t->m->length / t->rigidity;
    const bool fixed = isinf(end) || (end <= RBOW_STIFF_WELD && end > RBOW_SOFT_WELD);
    *held = fixed ? 1 : k / (1 + k);
    *given = fixed ? 0 : 1 / (1 + k);
}

static plain_ends ends_of(const plain_tube *t, double stiff_weld)
{
    const rbow_member *m = t->m;
    plain_ends e = {.give_b = 1, .free_b = m->end_b <= RBOW_FREE && m->end_b > RBOW_WELDED};
    hold(m->end_a <= RBOW_STIFF_WELD ? fmin(m->end_a, stiff_weld) : m->end_a, t, &e.hold_a, &e.give_a);
    if (!e.free_b) hold(m->end_b <= RBOW_STIFF_WELD ? fmin(m->end_b, stiff_weld) : m->end_b, t, &e.hold_b, &e.give_b);
    return e;
}

static void set_loads(plain_tube *t, const rbow_material *k)
{
    const rbow_member *m = t->m;
    const real l = m->length, unit = t->rigidity / l;
    const vector offset = m->compression * toward(m->eccentricity, m->eccentricity_clock);
    const double weight = k->density * t->zones[0].area * m->vertical_g * cos(m->slope); /* clock 180 */
    t->run.moment_a = (toward(m->moment_a, m->moment_clock) + (t->ends.free_b ? 0 : offset)) / unit;
    t->run.moment_b = (toward(m->moment_b, m->moment_clock) + offset) / unit;
    t->run.point = toward(m->point_load, m->point_clock) * l / unit;
    t->run.spread = (toward(m->spread_load, m->spread_clock) - weight) * l * l / unit;
    t->built.turn_a = toward(m->miss_a, m->miss_a_clock) / l;
    t->built.turn_b = toward(m->miss_b, m->miss_b_clock) / l;
    t->built.bow = toward(m->bow, m->bow_clock) / l;
    t->built.bow_shape = (rbow_bow_shape)m->bow_shape;
    t->built.point_at = m->point_at < 0 ? 0.5 : m->point_at / m->length;
    t->built.kink_at = m->bow_at < 0 ? 0.5 : m->bow_at / m->length;
}

static int order(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void set_borders(plain_tube *t)
{
    const rbow_member *m = t->m;
    const double reach = m->weld_zone / m->length;
    const bool kinked = m->bow > 0 && m->bow_shape == RBOW_BOW_KINK;
    const double border[] = {0, 1, reach, t->ends.free_b ? 0 : 1 - reach, fabs(m->point_load) > 0 ? t->built.point_at : 0,
                             kinked ? t->built.kink_at : 0};
    for (int i = 0; i < 6; i++) t->border[i] = border[i];
    qsort(t->border, 6, sizeof *t->border, order);
}

plain_tube plain_tube_of(const rbow_member *m, const rbow_material *k)
{
    const double bore = m->od - 2 * m->wall, e = k->elastic_modulus, dressed = m->dressed;
    plain_tube t = {.m = m};
    t.zones[0] = plain_zone_of(m, k);
    t.zones[1] = zone_of(m->od - 2 * dressed, m->wall - dressed, e, k->weld_yield, k->weld_yield);
    t.inertia = t.zones[0].modulus * m->od / 2;
    t.radius = sqrt(m->od * m->od + bore * bore) / 4;
    t.rigidity = e * t.inertia;
    t.ends = ends_of(&t, RBOW_STIFF_WELD);
    const plain_ends soft = ends_of(&t, RBOW_SOFT_WELD); /* of the column: all welds are soft */
    const double z = (double)plain_critical(&soft);
    t.critical = (double)plain_critical(&t.ends) * t.rigidity / (m->length * m->length);
    t.column_critical = z * t.rigidity / (m->length * m->length);
    t.slenderness = pi / sqrt(z) * m->length / t.radius;
    const bool own_curve = m->column_curve != RBOW_CURVE_OF_MATERIAL;
    t.column_stress = column_stress(&t, k, own_curve ? m->column_curve : (int)k->column_curve);
    t.column_load = t.column_stress * t.zones[0].area;
    set_loads(&t, k);
    set_borders(&t);
    return t;
}
