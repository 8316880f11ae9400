/* Load factors and results of one member, as they are defined. plain_tube.c has section, column and loads, plain_beam.c
 * the beam-column.
 *
 * Over the load factor: a scan, dense near 0 and near its end, bisection where the level passes 1, and golden section
 * at each hump. What it can miss: a hump that stays below 0.9 at the points of the scan and passes 1 between them. */
#include "plain.h"

#include "plain_tube.h"

int plain_stations = 240, plain_scan = 200;
static const double pi = 3.14159265358979323846, endless = INFINITY, nothing = NAN;

typedef struct state { /* next: in the other zone */
    double use, stress, use_next, stress_next, interaction;
    plain_peak moment;
} state;

typedef struct check {
    const plain_tube *t;
    double tension;
    bool interaction;
} check;

static plain_beam beam_at(const plain_tube *t, double tension, double factor)
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

static bool is_weld(const plain_tube *t, double x)
{
    const double reach = t->m->weld_zone / t->m->length;
    return x < reach || (!t->ends.free_b && x > 1 - reach);
}

static void add_zone(state *s, const plain_tube *t, const plain_zone *z, double moment, double push, double torque)
{
    const double shear = sqrt(3) * torque * z->arm, bending = moment / z->modulus;
    const double pushed = hypot(fmax(bending + push / z->area, 0), shear);
    const double pulled = hypot(fmax(bending - push / z->area, 0), shear);
    const double use = fmax(pushed / z->squash, pulled / z->yield);
    const double stress = pushed / z->squash >= pulled / z->yield ? pushed : pulled;
    s->interaction = fmax(s->interaction, push / t->column_load + hypot(bending, shear) / z->squash);
    if (use > s->use) s->use_next = s->use, s->stress_next = s->stress, s->use = use, s->stress = stress;
    else s->use_next = use, s->stress_next = stress;
}

static state state_at(const plain_tube *t, double tension, double factor)
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
    for (int i = 0; i < 60 && high - low > 1e-15 * high; i++) {
        const double middle = (low + high) / 2;
        *(level(c, middle) < 1 ? &low : &high) = middle;
    }
    return high;
}

/* The top of a hump between two factors, by golden section. */
static double top_between(const check *c, double low, double high)
{
    const double cut = 0.61803398874989485;
    double left = high - cut * (high - low), right = low + cut * (high - low);
    double at_left = level(c, left), at_right = level(c, right);
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

static double yield_factor(const plain_tube *t, double tension)
{
    const check c = {t, tension, false};
    const double push = t->m->compression;
    double end = push > 0 ? (t->critical + tension) / push : endless;
    for (int i = 0; i < 5; i++) { /* where the axial stress alone is enough */
        const double from = t->border[i], to = t->border[i + 1];
        const plain_zone *z = &t->zones[is_weld(t, (from + to) / 2)];
        if (!(to - from > 1e-13)) continue;
        if (push > 0) end = fmin(end, (z->squash * z->area + tension) / push);
        if (push < 0) end = fmin(end, (z->yield * z->area - tension) / -push);
    }
    return first_reach(&c, 0, end, true);
}

static plain_factors factors(const plain_tube *t, double tension)
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
    return m->gap / (m->length / (k->elastic_modulus * plain_zone_of(m, k).area) + 1 / m->gap_stiffness);
}

plain_factors plain_factors_of(const rbow_member *m, const rbow_material *k, double tension)
{
    const plain_tube t = plain_tube_of(m, k);
    return factors(&t, tension);
}

void plain_uses(const rbow_member *m, const rbow_material *k, double tension, const double at[], int count, double use[])
{
    const plain_tube t = plain_tube_of(m, k);
    for (int i = 0; i < count; i++) use[i] = state_at(&t, tension, at[i]).use;
}

void plain_at(const rbow_member *m, const rbow_material *k, double tension, double factor, double at, double *moment,
              double *moved)
{
    const plain_tube t = plain_tube_of(m, k);
    const plain_beam b = beam_at(&t, tension, factor);
    vector sum[4];
    plain_movement(&b, at / m->length, sum);
    *moment = (double)cabsl(sum[2]) * t.rigidity / m->length;
    *moved = (double)cabsl(sum[0]) * m->length;
}

static void add_deflection(const plain_tube *t, double tension, plain_result *r)
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
    const plain_tube t = plain_tube_of(m, k);
    plain_result r = {
        .area = t.zones[0].area, .inertia = t.inertia, .section_modulus = t.zones[0].modulus, .radius = t.radius,
        .weight = k->density * t.zones[0].area * m->length, .wall_reduction = t.zones[0].q, .critical_load = t.column_critical, .buckling_load = t.critical,
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
