/* Along the tube, with z = P L^2/EI, w the spread load and s a half wave, those that a bow acts like included:
 *
 *     v'''' + z (v + y0)'' = q      M = -v''      so that M'' = -z M - w - s
 *
 * Between two borders nothing else acts. There the state at one place is a power series of the state at another. */
#include "plain.h"

#include <string.h>

enum { MOVED, TURN, MOMENT, SHEAR, SPREAD, COSINE, SINE, ENTRIES }; /* a state: v, v', M, M', w, and s with its companion */
enum { PARTS = 64, CUTS_MOST = 56, SCAN = 200, SCAN_AGAIN = 8, TUBE = 0, WELD, WHOLE };
static const double pi = 3.14159265358979323846, endless = INFINITY, none = NAN, shortest = 1e-15;
int plain_stations = 120;

typedef double complex vector;
typedef struct beam { int parts; bool weld[PARTS]; double border[PARTS + 1]; vector at[PARTS + 1][ENTRIES]; } beam;
typedef double function(const plain_tube *t, double x);

static double product(vector p, vector q) { return creal(p) * creal(q) + cimag(p) * cimag(q); }
static double push_at(const plain_tube *t, double factor) { return factor * t->m.compression - t->tension; }
static vector toward(double size, double clock) { return CMPLX(size * cos(clock), size * sin(clock)); }

/* The state at x beyond y, by its power series. */
static void advance(double z, double x, const vector y[], vector next[])
{
    const double rate = x * sqrt(fabs(z) + pi * pi);
    vector term[ENTRIES];
    memcpy(term, y, sizeof term);
    memcpy(next, y, sizeof term);
    for (double n = 1, size = 1; size > 1e-17; n++) {
        const vector bend = -z * term[MOMENT] - term[SPREAD] - term[SINE];
        const vector slope[] = {term[TURN], -term[MOMENT], term[SHEAR], bend, 0, -pi * term[SINE], pi * term[COSINE]};
        for (int r = 0; r < ENTRIES; r++) next[r] += term[r] = slope[r] * (x / n);
        if (n > 2) size *= rate / (n - 2);
    }
}

/* Parts between the places where a load acts or a zone begins, cut again where strong tension would make a state grow. */
static void cut(const plain_tube *t, double z, beam *b)
{
    const double longest = 1 / (2 + fmin(CUTS_MOST - 2, sqrt(fmax(0, -z)) / 8)), reach = t->m.weld_zone / t->m.length;
    const double marks[] = {reach, 1 - reach, t->point_at, t->kink_at};
    b->parts = 0, b->border[0] = 0;
    for (double last = 0; last < 1; last = b->border[++b->parts]) {
        double next = fmin(1, last + longest);
        for (int i = 0; i < 4; i++)
            if (marks[i] > last + shortest && marks[i] < next - shortest) next = marks[i];
        b->weld[b->parts] = last + next < 2 * reach || (!t->free_b && last + next > 2 - 2 * reach);
        b->border[b->parts + 1] = next;
    }
}

/* What the two rules at B give for a state. */
static vector end_rule(const plain_tube *t, double z, int rule, const vector y[])
{
    if (rule == 0) return t->free_b ? y[SHEAR] - z * y[TURN] : y[MOVED];
    return t->give[1] * y[MOMENT] - t->hold[1] * y[TURN];
}

/* The states just beyond the borders. What obeys the two rules at A is y[2] and any shares of y[0] and y[1]; the rules at B
 * choose the shares. At each border the three are set square to each other, so that none outgrows the others.
 * Returns the determinant of the rules at B. */
static double solve(const plain_tube *t, double z, double factor, beam *b)
{
    const vector ends[2] = {t->give[0] * factor * t->moment[0] + t->hold[0] * t->turn[0],
                            t->give[1] * factor * t->moment[1] + t->hold[1] * t->turn[1]};
    vector along[PARTS + 1][3][ENTRIES] = {0}, part[PARTS + 1][3][2] = {0}, rule[2][3], share[2];
    cut(t, z, b);
    along[0][0][TURN] = t->give[0], along[0][0][MOMENT] = -t->hold[0], along[0][1][SHEAR] = 1;
    along[0][2][TURN] = t->hold[0] * ends[0], along[0][2][MOMENT] = t->give[0] * ends[0];
    along[0][2][SPREAD] = factor * t->spread + z * t->arc, along[0][2][COSINE] = z * t->wave;
    for (int i = 0; i < b->parts; i++) {
        const double x = b->border[i], to = b->border[i + 1];
        vector(*y)[ENTRIES] = along[i + 1];
        for (int c = 0; c < 3; c++) advance(z, to - x, along[i][c], y[c]);
        if (x < t->point_at - shortest && to >= t->point_at - shortest) y[2][SHEAR] -= factor * t->point;
        if (x < t->kink_at - shortest && to >= t->kink_at - shortest) y[2][SHEAR] -= z * t->kink;
        for (int c = 0; c < 3; c++) {
            for (int of = 0; of <= c && of < 2; of++) {
                for (int r = 0; r < SPREAD; r++) part[i + 1][c][of] += y[c][r] * y[of][r];
                if (of == c) part[i + 1][c][of] = csqrt(part[i + 1][c][of]);
                for (int r = 0; r < SPREAD; r++) y[c][r] = of == c ? y[c][r] / part[i + 1][c][of] : y[c][r] - part[i + 1][c][of] * y[of][r];
            }
        }
    }
    for (int k = 0; k < 2; k++)
        for (int c = 0; c < 3; c++) rule[k][c] = end_rule(t, z, k, along[b->parts][c]);
    rule[0][2] -= t->free_b ? z * t->tip : 0, rule[1][2] -= ends[1];
    const vector determinant = rule[0][0] * rule[1][1] - rule[0][1] * rule[1][0];
    share[0] = (rule[0][1] * rule[1][2] - rule[1][1] * rule[0][2]) / determinant;
    share[1] = (rule[1][0] * rule[0][2] - rule[0][0] * rule[1][2]) / determinant;
    for (int i = b->parts; i >= 0; i--) {
        vector *const y = b->at[i];
        double size = 0;
        for (int r = 0; r < ENTRIES; r++) y[r] = along[i][2][r] + share[0] * along[i][0][r] + share[1] * along[i][1][r];
        for (int r = 0; r < SPREAD; r++) size += cabs(y[r]);
        for (int r = 0; r < SPREAD; r++) y[r] *= cabs(y[r]) > 4e-15 * size; /* what is left of 0 by rounding */
        if (i == 0) break;
        share[1] = (share[1] - part[i][2][1]) / part[i][1][1];
        share[0] = (share[0] - part[i][2][0] - part[i][1][0] * share[1]) / part[i][0][0];
    }
    return creal(determinant);
}

static void raise_to(plain_peak *top, vector y, double at)
{
    const double size = cabs(y), clock = size > 0 ? fmod(carg(y) + 2 * pi, 2 * pi) : none;
    const bool higher = size > top->size * (1 + 1e-12);
    if (fabs(at - top->at) > 0.01) top->next = fmax(top->next, higher ? top->size : size);
    if (higher) *top = (plain_peak){size, at, top->next, clock};
}

/* The largest of an entry in the tube, in its welds, and in both, at the borders and where it stops growing between two
 * stations. What it can miss: a top and a valley between two stations. */
static void find_tops(const plain_tube *t, double factor, int of, double unit, plain_peak top[])
{
    const double push = push_at(t, factor), z = push * t->m.length / t->unit, start = push < t->buckling_load ? -1 : none;
    vector y[ENTRIES], next[ENTRIES];
    beam b = {0};
    if (push < t->buckling_load) solve(t, z, factor, &b);
    for (int i = TUBE; i <= WHOLE; i++) top[i] = (plain_peak){start, 2, start, none};
    for (int p = 0; p < b.parts; p++) {
        const int steps = 8 + (int)(plain_stations * (b.border[p + 1] - b.border[p]));
        const double step = (b.border[p + 1] - b.border[p]) / steps;
        memcpy(y, b.at[p], sizeof y);
        for (int i = 0; i <= steps; i++, memcpy(y, next, sizeof y)) {
            advance(z, step, y, next);
            const bool inside = i < steps && product(y[of], y[of + 1]) > 0 && product(next[of], next[of + 1]) < 0;
            double low = 0, high = inside ? step : 0;
            vector best[ENTRIES];
            if (!inside && i > 0 && i < steps) continue;
            for (int n = 0; n < 18; n++) {
                advance(z, (low + high) / 2, y, best);
                *(product(best[of], best[of + 1]) > 0 ? &low : &high) = (low + high) / 2;
            }
            raise_to(&top[b.weld[p] ? WELD : TUBE], best[of], b.border[p] + i * step + low);
            raise_to(&top[WHOLE], best[of], b.border[p] + i * step + low);
        }
    }
    for (int i = TUBE; i <= WHOLE; i++) top[i].size *= unit, top[i].next *= unit, top[i].at *= t->m.length;
}

plain_state plain_state_at(const plain_tube *t, double factor)
{
    const double push = push_at(t, factor);
    plain_state s = {none, none, none, none, none, {none, none, none, none}};
    plain_peak top[WHOLE + 1]; /* use grows with the moment: each zone's largest is enough */
    find_tops(t, factor, MOMENT, t->unit, top);
    s.moment = top[WHOLE];
    for (int i = TUBE; i <= WELD; i++) {
        const plain_zone *q = &t->zones[i];
        const double bending = top[i].size / q->modulus, shear = sqrt(3) * factor * t->m.torque * q->arm;
        const double pushed = hypot(fmax(bending + push / q->area, 0), shear), of_squash = pushed / q->squash;
        const double pulled = hypot(fmax(bending - push / q->area, 0), shear), of_yield = pulled / q->yield;
        const double use = fmax(of_squash, of_yield), stress = of_squash >= of_yield ? pushed : pulled;
        if (isnan(bending) || bending < 0) continue; /* no such zone, or no balance */
        s.interaction = fmax(s.interaction, push / t->column_load + hypot(bending, shear) / q->squash);
        const bool most = !(use <= s.use);
        s.use_next = most ? s.use : use, s.stress_next = most ? s.stress : stress;
        if (most) s.use = use, s.stress = stress;
    }
    return s;
}

plain_peak plain_moved(const plain_tube *t, double factor)
{
    plain_peak top[WHOLE + 1];
    find_tops(t, factor, MOVED, t->m.length, top);
    return top[WHOLE];
}

void plain_place(const plain_tube *t, double factor, double at, double *moment, double *moved)
{
    const double z = push_at(t, factor) * t->m.length / t->unit;
    vector y[ENTRIES];
    beam b;
    int part = 0;
    solve(t, z, factor, &b);
    while (part + 1 < b.parts && at >= b.border[part + 1] * t->m.length) part++;
    advance(z, at / t->m.length - b.border[part], b.at[part], y);
    *moment = cabs(y[MOMENT]) * t->unit;
    *moved = cabs(y[MOVED]) * t->m.length;
}

static double over_use(const plain_tube *t, double factor) { return plain_state_at(t, factor).use - 1; }
static double over_interaction(const plain_tube *t, double factor) { return plain_state_at(t, factor).interaction - 1; }

/* Below 0 up to the z at which the tube bows: the determinant keeps the sign it has without push. */
static double over_critical(const plain_tube *t, double z)
{
    beam b;
    return -solve(t, z, 0, &b) * solve(t, 0, 0, &b);
}

/* Between low, where f is below 0, and high, where it is not (or is NaN): the first place where it is not. */
static double rise(function *f, const plain_tube *t, double low, double high)
{
    for (int i = 0; i < 55; i++) *(f(t, (low + high) / 2) < 0 ? &low : &high) = (low + high) / 2;
    return high;
}

/* The smallest x in from ... end at which f is not below 0, endless if none. A scan, dense at both of its ends, and again
 * about each top. What it can miss: a hump that stays below -0.1 at the points of the first scan. */
static double scan(function *f, const plain_tube *t, double from, double end, int depth)
{
    double x[2] = {from, from}, value[2] = {-endless, f(t, from)};
    for (int i = 1, count = depth == 0 ? SCAN : SCAN_AGAIN; i <= count; i++) {
        const double share = (double)i / count, next = from + (end - from) * share * share * (3 - 2 * share);
        const double now = f(t, next);
        const bool top = depth < 8 && value[1] > -0.1 && value[1] > value[0] + 1e-12 && value[1] >= now;
        const double inside = top ? scan(f, t, x[0], next, depth + 1) : endless;
        if (inside < endless) return inside;
        if (!(now < 0)) return rise(f, t, x[1], next);
        x[0] = x[1], x[1] = next, value[0] = value[1], value[1] = now;
    }
    return endless;
}

/* The same for any end; one that f just reaches counts. */
static double first_reach(function *f, const plain_tube *t, double from, double end)
{
    double range = 1e-6;
    if (!(f(t, from) < 0)) return from;
    while (range < 1e30 && from + range < end && f(t, from + range) < 0) range *= 2;
    return range < 1e30 ? scan(f, t, from, fmin(from + range, end * (1 + 1e-12)), 0) : endless;
}

plain_factors plain_factors_of(const plain_tube *t)
{
    const double push = t->m.compression, zero = t->tension / push, column = fmax(0, (t->column_load + t->tension) / push);
    plain_factors f = {0, 0, 0};
    if (-t->tension >= t->buckling_load) return f;
    f.yield = first_reach(over_use, t, 0, push > 0 ? (t->buckling_load + t->tension) / push : endless);
    f.column = push > 0 ? column : -t->tension >= t->column_load ? 0 : endless;
    f.interaction = endless; /* it is for compression alone */
    if (push > 0) f.interaction = first_reach(over_interaction, t, fmax(0, zero), column);
    else if (t->tension < 0) f.interaction = first_reach(over_interaction, t, 0, push < 0 ? zero : endless);
    return f;
}

static plain_zone zone_of(double od, double wall, double e, double push_yield, double yield)
{
    const double bore = od - 2 * wall, area = pi * wall * (od - wall), ratio = od / wall;
    const double inertia = area * (od * od + bore * bore) / 16;
    const double q = ratio <= 0.11 * e / push_yield ? 1 : fmin(1, 0.038 * e / (push_yield * ratio) + 2.0 / 3);
    return (plain_zone){area, inertia / (od / 2), od / 4 / inertia, q * push_yield, yield, q};
}

static double column_stress(int curve, double fc, double fe, double e, double intercept, double s)
{
    static const double imperfection[] = {0.13, 0.21, 0.34, 0.49, 0.76};
    const double change = pi * sqrt(7 * e / (3 * intercept)), l = sqrt(fc / fe);
    switch (curve) {
    case RBOW_CURVE_JOHNSON: return fc < 2 * fe ? fc * (1 - fc / (4 * fe)) : fe;
    case RBOW_CURVE_THREE_HALVES:
        return fmin(fc, s < change ? intercept - 4.0 / 3 * pi * pi * e * pow(change, -3.5) * pow(s, 1.5) : fe);
    case RBOW_CURVE_EULER: return fmin(fc, fe);
    case RBOW_CURVE_AISC: return fc / fe <= 2.25 ? pow(0.658, fc / fe) * fc : 0.877 * fe;
    default:
        const double phi = 0.5 * (1 + imperfection[curve - RBOW_CURVE_EN_A0] * (l - 0.2) + l * l);
        return l <= 0.2 ? fc : fc / (phi + sqrt(phi * phi - l * l));
    }
}

/* lbf. The first two loads at which the straight tube can bow lie more than 9 EI/L^2 apart for every pair of ends. */
static double critical_of(plain_tube *t, bool soft_welds)
{
    const double ends[] = {t->m.end_a, t->free_b ? 0 : t->m.end_b}, start = pi * sqrt(2), soft = -start / tan(start / 2);
    double high = 3;
    for (int i = 0; i < 2; i++) {
        const bool stiff = isinf(ends[i]) || (ends[i] < 0 && ends[i] > RBOW_SOFT_WELD && !soft_welds);
        const double k = ends[i] < 0 ? soft : ends[i] / t->unit;
        t->hold[i] = stiff ? 1 : k / hypot(1, k);
        t->give[i] = stiff ? 0 : 1 / hypot(1, k);
    }
    while (over_critical(t, high) < 0) high += 3;
    return rise(over_critical, t, high - 3, high) * t->unit / t->m.length;
}

plain_tube plain_tube_of(const rbow_member *m, const rbow_material *k)
{
    const double l = m->length, e = k->elastic_modulus;
    const vector offset = m->compression * toward(m->eccentricity, m->eccentricity_clock);
    plain_tube t = {.m = *m, .free_b = m->end_b <= RBOW_FREE};
    t.point_at = m->point_at < 0 ? 0.5 : m->point_at / l;
    t.kink_at = m->bow_at < 0 ? 0.5 : m->bow_at / l;
    t.zones[0] = zone_of(m->od, m->wall, e, k->compression_yield, k->yield);
    t.zones[1] = zone_of(m->od - 2 * m->dressed, m->wall - m->dressed, e, k->weld_yield, k->weld_yield);
    t.inertia = t.zones[0].modulus * m->od / 2;
    t.radius = sqrt(t.inertia / t.zones[0].area);
    t.unit = e * t.inertia / l;
    t.weight = k->density * t.zones[0].area * l;
    t.tension = m->gap / (l / (e * t.zones[0].area) + 1 / m->gap_stiffness);
    t.moment[0] = (toward(m->moment_a, m->moment_clock) + (t.free_b ? 0 : offset)) / t.unit;
    t.moment[1] = (toward(m->moment_b, m->moment_clock) + offset) / t.unit;
    t.point = t.point_at < 1 || t.free_b ? toward(m->point_load, m->point_clock) * l / t.unit : 0; /* a held joint takes it */
    t.spread = (toward(m->spread_load, m->spread_clock) * l - t.weight * m->vertical_g * cos(m->slope)) * l / t.unit;
    t.turn[0] = toward(m->miss_a, m->miss_a_clock) / l;
    t.turn[1] = toward(m->miss_b, m->miss_b_clock) / l;
    const vector bow = toward(m->bow, m->bow_clock) / l;
    if (m->bow_shape == RBOW_BOW_SINE) t.wave = pi * pi * bow, t.tip = -pi * bow;
    if (m->bow_shape == RBOW_BOW_ARC) t.arc = 8 * bow, t.tip = -4 * bow;
    if (m->bow_shape == RBOW_BOW_KINK) t.kink = bow * (1 / t.kink_at + 1 / (1 - t.kink_at)), t.tip = -bow / (1 - t.kink_at);
    t.critical_load = critical_of(&t, true);
    t.buckling_load = critical_of(&t, false);
    t.effective_length = pi * sqrt(t.unit * l / t.critical_load);
    t.slenderness = t.effective_length / t.radius;
    t.column_stress = column_stress(m->column_curve != RBOW_CURVE_OF_MATERIAL ? m->column_curve : (int)k->column_curve,
                                    t.zones[0].squash, pi * pi * e / (t.slenderness * t.slenderness), e,
                                    t.zones[0].q * k->column_intercept, t.slenderness);
    t.column_load = t.column_stress * t.zones[0].area;
    return t;
}
