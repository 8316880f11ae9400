/* Section, column, stress, load factors and results of one member, as they are defined. The beam-column is in
 * plain_beam.c.
 *
 * Over the load factor: a scan, dense near 0 and near its end, bisection where the level passes 1, and golden section
 * at each hump. What it can miss: a hump that stays below 0.9 at the points of the scan and passes 1 between them. */
#include "plain.h"

#include "plain_beam.h"

#include <stdlib.h>

int plain_stations = 240, plain_scan = 200;
static const double pi = 3.14159265358979323846, endless = INFINITY, nothing = NAN;

typedef struct zone { /* arm: shear stress per torque; squash: Q times compression yield */
    double area, modulus, arm, squash, yield, q;
} zone;

typedef struct tube {
    const rbow_member *m;
    double inertia, radius, rigidity, critical, slenderness, column_stress, column_load;
    zone zones[2]; /* tube, weld */
    plain_ends ends;
    plain_loads run, built; /* what grows with the load factor, and what does not */
    double border[6];       /* between them nothing acts; as shares of the length */
} tube;

typedef struct state { /* next: in the other zone */
    double use, stress, use_next, stress_next, interaction;
    plain_peak moment;
} state;

typedef struct check {
    const tube *t;
    double tension;
    bool interaction;
} check;

static zone zone_of(double od, double wall, double e, double push_yield, double yield)
{
    const double bore = od - 2 * wall, area = pi * wall * (od - wall), ratio = od / wall;
    const double inertia = area * (od * od + bore * bore) / 16;
    const double q = ratio <= 0.11 * e / push_yield ? 1 : fmin(1, 0.038 * e / (push_yield * ratio) + 2.0 / 3);
    return (zone){area, inertia / (od / 2), od / 4 / inertia, q * push_yield, yield, q};
}

static zone tube_zone(const rbow_member *m, const rbow_material *k)
{
    return zone_of(m->od, m->wall, k->elastic_modulus, k->compression_yield, k->yield);
}

static double column_stress(const tube *t, const rbow_material *k, int curve)
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

static void hold(double end, const tube *t, real *held, real *given)
{
    const real u = 3.14159265358979323846264338327950288L * sqrtl(2), soft = -u / tanl(u / 2);
    const real k = end <= RBOW_WELDED ? soft : (real)end * t->m->length / t->rigidity;
    *held = isinf(end) ? 1 : k / (1 + k);
    *given = isinf(end) ? 0 : 1 / (1 + k);
}

static void set_loads(tube *t, const rbow_material *k)
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

static void set_borders(tube *t)
{
    const rbow_member *m = t->m;
    const double reach = m->weld_zone / m->length;
    const bool kinked = m->bow > 0 && m->bow_shape == RBOW_BOW_KINK;
    const double border[] = {0, 1, reach, t->ends.free_b ? 0 : 1 - reach, fabs(m->point_load) > 0 ? t->built.point_at : 0,
                             kinked ? t->built.kink_at : 0};
    for (int i = 0; i < 6; i++) t->border[i] = border[i];
    qsort(t->border, 6, sizeof *t->border, order);
}

static tube tube_of_member(const rbow_member *m, const rbow_material *k)
{
    const double bore = m->od - 2 * m->wall, e = k->elastic_modulus, dressed = m->dressed;
    tube t = {.m = m, .ends.give_b = 1, .ends.free_b = m->end_b <= RBOW_FREE && m->end_b > RBOW_WELDED};
    t.zones[0] = tube_zone(m, k);
    t.zones[1] = zone_of(m->od - 2 * dressed, m->wall - dressed, e, k->weld_yield, k->weld_yield);
    t.inertia = t.zones[0].modulus * m->od / 2;
    t.radius = sqrt(m->od * m->od + bore * bore) / 4;
    t.rigidity = e * t.inertia;
    hold(m->end_a, &t, &t.ends.hold_a, &t.ends.give_a);
    if (!t.ends.free_b) hold(m->end_b, &t, &t.ends.hold_b, &t.ends.give_b);
    const double z = (double)plain_critical(&t.ends);
    t.critical = z * t.rigidity / (m->length * m->length);
    t.slenderness = pi / sqrt(z) * m->length / t.radius;
    t.column_stress = column_stress(&t, k, m->column_curve == RBOW_CURVE_OF_MATERIAL ? (int)k->column_curve : m->column_curve);
    t.column_load = t.column_stress * t.zones[0].area;
    set_loads(&t, k);
    set_borders(&t);
    return t;
}

static plain_beam beam_at(const tube *t, double tension, double factor)
{
    plain_loads l = t->built;
    l.z = ((real)factor * t->m->compression - tension) * t->m->length * t->m->length / t->rigidity;
    l.moment_a = factor * t->run.moment_a;
    l.moment_b = factor * t->run.moment_b;
    l.point = factor * t->run.point;
    l.spread = factor * t->run.spread;
    return plain_solve(&t->ends, &l);
}

/* ---- stress ----------------------------------------------------------------------------------------- */

static bool is_weld(const tube *t, double x)
{
    const double reach = t->m->weld_zone / t->m->length;
    return x < reach || (!t->ends.free_b && x > 1 - reach);
}

static void add_zone(state *s, const tube *t, const zone *z, double moment, double push, double torque)
{
    const double shear = sqrt(3) * torque * z->arm, bending = moment / z->modulus;
    const double pushed = hypot(fmax(bending + push / z->area, 0), shear), pulled = hypot(fmax(bending - push / z->area, 0), shear);
    const double use = fmax(pushed / z->squash, pulled / z->yield), stress = pushed / z->squash >= pulled / z->yield ? pushed : pulled;
    s->interaction = fmax(s->interaction, push / t->column_load + hypot(bending, shear) / z->squash);
    if (use > s->use) s->use_next = s->use, s->stress_next = s->stress, s->use = use, s->stress = stress;
    else s->use_next = use, s->stress_next = stress;
}

static state state_at(const tube *t, double tension, double factor)
{
    const plain_beam b = beam_at(t, tension, factor);
    plain_peak top[2] = {{-1, 2, -1}, {-1, 2, -1}}; /* every use grows with the moment: each zone's largest is enough */
    state s = {-1, 0, -1, 0, -endless, {-1, 2, -1}};
    for (int i = 0; i < 5; i++) {
        const double from = t->border[i], to = t->border[i + 1];
        plain_raise_moment(&b, from, to, plain_stations, &top[is_weld(t, (from + to) / 2)]);
    }
    const int first = top[1].at < top[0].at;
    for (int i = first, n = 0; n < 2; n++, i = !i) {
        if (top[i].value < 0) continue;
        const double unit = t->rigidity / t->m->length, moment = sqrt(top[i].value) * unit;
        add_zone(&s, t, &t->zones[i], moment, factor * t->m->compression - tension, factor * t->m->torque);
        plain_raise(&s.moment, moment, top[i].at);
        s.moment.next = fmax(s.moment.next, sqrt(fmax(top[i].next, 0)) * unit);
    }
    return s;
}

/* ---- load factors ----------------------------------------------------------------------------------- */

static double level(const check *c, double factor)
{
    const state s = state_at(c->t, c->tension, factor);
    return c->interaction ? s.interaction : s.use;
}

static double bisect(const check *c, double low, double high)
{
    for (int i = 0; i < 60 && high - low > 1e-15 * high; i++) *(level(c, (low + high) / 2) < 1 ? &low : &high) = (low + high) / 2;
    return high;
}

/* The top of a hump between two factors, by golden section. */
static double top_between(const check *c, double low, double high)
{
    const double cut = 0.61803398874989485;
    double left = high - cut * (high - low), right = low + cut * (high - low), at_left = level(c, left), at_right = level(c, right);
    for (int i = 0; i < 30; i++) {
        if (at_left >= at_right) {
            high = right, right = left, at_right = at_left;
            left = high - cut * (high - low), at_left = level(c, left);
        } else {
            low = left, left = right, at_left = at_right;
            right = low + cut * (high - low), at_right = level(c, right);
        }
    }
    return at_left >= at_right ? left : right;
}

/* The smallest factor in from ... end at which the level reaches 1, INFINITY if none; sure: it does at the end. */
static double first_reach(const check *c, double from, double end, bool sure)
{
    const double start = level(c, from);
    double range = 1e-6, at[2] = {from, from}, value[2] = {start, start};
    if (start >= 1) return from;
    while (from + range < end && range < 1e30 && level(c, from + range) < 1) range *= 2;
    if (range >= 1e30) return endless;
    sure = sure || from + range < end;
    range = fmin(range, end - from);
    for (int i = 1; i <= plain_scan; i++) {
        const double share = (double)i / plain_scan, next = from + range * share * share * (3 - 2 * share);
        const double now = i < plain_scan ? level(c, next) : sure ? endless : -1;
        if (now >= 1) return bisect(c, at[1], next);
        if (value[1] > 0.9 && value[1] >= now && value[1] >= value[0]) {
            const double top = top_between(c, at[0], next);
            if (level(c, top) >= 1) return bisect(c, at[0], top);
        }
        at[0] = at[1], at[1] = next, value[0] = value[1], value[1] = now;
    }
    return endless;
}

static double yield_factor(const tube *t, double tension)
{
    const check c = {t, tension, false};
    const double push = t->m->compression;
    double end = push > 0 ? (t->critical + tension) / push : endless;
    for (int i = 0; i < 5; i++) { /* where the axial stress alone is enough */
        const zone *z = &t->zones[is_weld(t, (t->border[i] + t->border[i + 1]) / 2)];
        if (push > 0) end = fmin(end, (z->squash * z->area + tension) / push);
        if (push < 0) end = fmin(end, (z->yield * z->area - tension) / -push);
    }
    return first_reach(&c, 0, end, true);
}

static plain_factors factors(const tube *t, double tension)
{
    const check c = {t, tension, true};
    const double push = t->m->compression;
    plain_factors f = {endless, endless, endless};
    if (-tension >= t->critical) return (plain_factors){0, 0, 0};
    f.yield = yield_factor(t, tension);
    if (push > 0) f.column = fmax(0, (t->column_load + tension) / push);
    else if (-tension >= t->column_load) f.column = 0;
    if (push > 0) f.interaction = first_reach(&c, fmax(0, tension / push), f.column, true);
    else if (tension < 0) f.interaction = first_reach(&c, 0, push < 0 ? tension / push : endless, false);
    return f;
}

/* ---- results ---------------------------------------------------------------------------------------- */

double plain_tension(const rbow_member *m, const rbow_material *k)
{
    return m->gap / (m->length / (k->elastic_modulus * tube_zone(m, k).area) + 1 / m->gap_stiffness);
}

plain_factors plain_factors_of(const rbow_member *m, const rbow_material *k, double tension)
{
    const tube t = tube_of_member(m, k);
    return factors(&t, tension);
}

void plain_uses(const rbow_member *m, const rbow_material *k, double tension, const double at[], int count, double use[])
{
    const tube t = tube_of_member(m, k);
    for (int i = 0; i < count; i++) use[i] = state_at(&t, tension, at[i]).use;
}

void plain_at(const rbow_member *m, const rbow_material *k, double tension, double factor, double at, double *moment, double *moved)
{
    const tube t = tube_of_member(m, k);
    const plain_beam b = beam_at(&t, tension, factor);
    vector sum[4];
    plain_movement(&b, at / m->length, sum);
    *moment = (double)cabsl(sum[2]) * t.rigidity / m->length;
    *moved = (double)cabsl(sum[0]) * m->length;
}

static void add_deflection(const tube *t, double tension, plain_result *r)
{
    const plain_beam b = beam_at(t, tension, 1);
    plain_peak far = {-1, 2, -1};
    vector sum[4];
    for (int i = 0; i < 5; i++) plain_raise_movement(&b, t->border[i], t->border[i + 1], plain_stations, &far);
    plain_movement(&b, far.at, sum);
    r->deflection = sqrt(far.value) * t->m->length;
    r->deflection_next = sqrt(fmax(far.next, 0)) * t->m->length;
    r->deflection_clock = far.value > 0 ? (double)cargl(sum[0]) : nothing;
    if (r->deflection_clock < 0) r->deflection_clock += 2 * pi;
}

plain_result plain_check(const rbow_member *m, const rbow_material *k, double tension)
{
    const tube t = tube_of_member(m, k);
    plain_result r = {
        .area = t.zones[0].area, .inertia = t.inertia, .section_modulus = t.zones[0].modulus, .radius = t.radius,
        .weight = k->density * t.zones[0].area * m->length, .wall_reduction = t.zones[0].q, .critical_load = t.critical,
        .effective_length = t.slenderness * t.radius, .slenderness = t.slenderness, .column_stress = t.column_stress,
        .column_load = t.column_load, .fit_axial = -tension, .fit_moment = NAN, .fit_stress = NAN, .fit_stress_next = NAN,
        .axial = m->compression - tension, .peak_moment = NAN, .peak_moment_at = NAN, .peak_stress = NAN, .stress_use = NAN,
        .peak_stress_next = NAN, .deflection = NAN, .deflection_clock = NAN, .moment_next = NAN, .deflection_next = NAN,
    };
    if (-tension < t.critical) {
        const state s = state_at(&t, tension, 0);
        r.fit_moment = s.moment.value;
        r.fit_stress = s.stress;
        r.fit_stress_next = s.use_next >= s.use * (1 - 1e-9) ? s.stress_next : s.stress;
    }
    if (!(r.axial < t.critical)) return r;
    const state s = state_at(&t, tension, 1);
    r.peak_moment = s.moment.value;
    r.peak_moment_at = s.moment.at * m->length;
    r.moment_next = s.moment.next;
    r.peak_stress = s.stress;
    r.peak_stress_next = s.use_next >= s.use * (1 - 1e-9) ? s.stress_next : s.stress;
    r.stress_use = s.use;
    add_deflection(&t, tension, &r);
    return r;
}
