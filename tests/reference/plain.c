/* Along the tube, with z = P L^2/EI, w the spread load and s a half wave, those that a bow acts like included:
 *
 *     v'''' + z (v + y0)'' = q      M = -v''      so that M'' = -z M - w - s
 *
 * Between two borders nothing else acts. There the state at one place is a matrix times the state at another. */
#include "plain.h"

#include <string.h>

enum { MOVED, TURN, MOMENT, SHEAR, SPREAD, COSINE, SINE, ENTRIES }; /* a state: v, v', M, M', w, and s with its companion */
enum { UNKNOWN = SPREAD, PARTS = 64, SPLITS = 56, ROWS = UNKNOWN * (PARTS + 1), BAND = 6, STEPS_MOST = 1000, SCAN = 200, SCAN_AGAIN = 8 };
static const double pi = 3.14159265358979323846, endless = INFINITY, none = NAN, shortest = 1e-15;
int plain_stations = 240;

typedef double complex vector;
typedef struct beam { int parts; bool weld[PARTS]; double z, border[PARTS + 1]; vector at[PARTS + 1][ENTRIES]; } beam;
typedef double function(const plain_tube *t, double x);

static double product(vector p, vector q) { return creal(p) * creal(q) + cimag(p) * cimag(q); }
static double push_at(const plain_tube *t, double factor) { return factor * t->m.compression - t->tension; }
static vector toward(double size, double clock) { return CMPLX(size * cos(clock), size * sin(clock)); }

/* The matrix from a place to one x beyond it: the power series of v, v', M = -v'' and M'. The n-th derivative of v is `row`
 * times the state, and power[j] is x^(n-j)/(n-j)!. */
static void transfer(double z, double x, double t[ENTRIES][ENTRIES])
{
    const double rate = sqrt(fabs(z) + pi * pi);
    double row[ENTRIES] = {[MOVED] = 1}, power[UNKNOWN] = {1}, size = 1;
    memset(t, 0, sizeof(double[ENTRIES][ENTRIES]));
    t[SPREAD][SPREAD] = 1;
    t[COSINE][COSINE] = t[SINE][SINE] = cos(pi * x);
    t[COSINE][SINE] = -(t[SINE][COSINE] = sin(pi * x));
    for (int n = 0; size > 1e-20; n++) {
        for (int r = 0; r < UNKNOWN; r++)
            for (int c = 0; c < ENTRIES; c++) t[r][c] += (r < MOMENT ? power[r] : -power[r]) * row[c];
        const double slope[] = {0, row[MOVED], -row[TURN] - z * row[SHEAR], row[MOMENT], -row[SHEAR], pi * row[SINE],
                                -row[SHEAR] - pi * row[COSINE]};
        memcpy(row, slope, sizeof row);
        memmove(power + 1, power, SHEAR * sizeof *power);
        power[0] *= x / (n + 1);
        if (n >= SHEAR) size *= rate * x / (n - 2);
    }
}

/* Of the entries from `first` on; no other has a part in them. */
static void advance(double m[ENTRIES][ENTRIES], int first, const vector y[], vector next[])
{
    for (int r = first; r < ENTRIES; r++) {
        next[r] = 0;
        for (int c = first; c < ENTRIES; c++) next[r] += m[r][c] * y[c];
    }
}

/* Solves for y in place, by elimination with the largest pivot in a band; returns the determinant. */
static double eliminate(int n, double *row[], vector y[])
{
    double determinant = 1;
    for (int k = 0; k < n; k++) {
        const int last = k + BAND < n ? k + BAND : n, end = k + 2 * UNKNOWN < n ? k + 2 * UNKNOWN : n;
        int top = k;
        for (int i = k + 1; i < last; i++)
            if (fabs(row[i][k]) > fabs(row[top][k])) top = i;
        double *const pivot = row[top];
        const vector right = y[top];
        row[top] = row[k], row[k] = pivot, y[top] = y[k], y[k] = right;
        determinant *= top == k ? pivot[k] : -pivot[k];
        for (int i = 0; i < last; i++) {
            const double by = i == k ? 0 : row[i][k] / pivot[k];
            for (int j = k; j < end; j++) row[i][j] -= by * pivot[j];
            y[i] -= by * right;
        }
    }
    for (int k = 0; k < n; k++) y[k] /= row[k][k];
    return determinant;
}

/* Parts between the places where a load acts or a zone begins, cut again where strong tension would make a state grow. */
static void cut(const plain_tube *t, double z, beam *b)
{
    const double cuts = 2 + floor(fmin(SPLITS - 2, sqrt(fmax(0, -z)) / 8)), reach = t->m.weld_zone / t->m.length;
    const double marks[] = {reach, 1 - reach, t->point_at, t->kink_at};
    b->z = z, b->parts = 0, b->border[0] = 0;
    for (double last = 0; last < 1; last = b->border[++b->parts]) {
        double next = fmin(1, (floor(last * cuts + 1e-9) + 1) / cuts);
        for (int i = 0; i < 4; i++)
            if (marks[i] > last + shortest && marks[i] < next - shortest) next = marks[i];
        b->weld[b->parts] = last + next < 2 * reach || (!t->free_b && last + next > 2 - 2 * reach);
        b->border[b->parts + 1] = next;
    }
}

/* The states just beyond the borders: two rules for that at A, four for each from the one before, two for that at B.
 * Returns their determinant. */
static double solve(const plain_tube *t, double z, double factor, beam *b)
{
    cut(t, z, b);
    const int n = UNKNOWN * (b->parts + 1), end = n - UNKNOWN;
    double m[ENTRIES][ENTRIES], a[ROWS * ROWS], *row[ROWS];
    vector y[ROWS] = {0, t->give[0] * factor * t->moment[0] + t->hold[0] * t->turn[0]};
    memset(a, 0, (size_t)(n * n) * sizeof *a);
    for (int i = 0; i < n; i++) row[i] = a + i * n;
    row[0][MOVED] = 1, row[1][TURN] = t->hold[0], row[1][MOMENT] = t->give[0];
    for (int i = 0; i < b->parts; i++) {
        const double x = b->border[i], to = b->border[i + 1];
        const int first = 2 + UNKNOWN * i;
        b->at[i][SPREAD] = factor * t->spread + z * t->arc;
        b->at[i][COSINE] = z * t->wave * cos(pi * x), b->at[i][SINE] = z * t->wave * sin(pi * x);
        transfer(z, to - x, m);
        for (int r = 0; r < UNKNOWN; r++) {
            memcpy(row[first + r] + first - 2, m[r], UNKNOWN * sizeof **m);
            row[first + r][first + 2 + r] = -1;
            for (int c = SPREAD; c < ENTRIES; c++) y[first + r] -= m[r][c] * b->at[i][c];
        }
        if (x < t->point_at - shortest && to >= t->point_at - shortest) y[first + SHEAR] += factor * t->point;
        if (x < t->kink_at - shortest && to >= t->kink_at - shortest) y[first + SHEAR] += z * t->kink;
    }
    if (t->free_b) row[n - 2][end + TURN] = -z, row[n - 2][end + SHEAR] = 1, y[n - 2] = z * t->tip;
    else row[n - 2][end + MOVED] = 1;
    row[n - 1][end + TURN] = -t->hold[1], row[n - 1][end + MOMENT] = t->give[1];
    y[n - 1] = t->give[1] * factor * t->moment[1] + t->hold[1] * t->turn[1];
    const double determinant = eliminate(n, row, y);
    for (int i = 0; i < n; i++) b->at[i / UNKNOWN][i % UNKNOWN] = y[i];
    return determinant;
}

static void raise_to(plain_peak *top, vector y, double at)
{
    const double size = cabs(y), clock = size > 0 ? fmod(carg(y) + 2 * pi, 2 * pi) : none;
    const bool higher = size > top->size * (1 + 1e-12);
    if (fabs(at - top->at) > 0.01) top->next = fmax(top->next, higher ? top->size : size);
    if (higher) *top = (plain_peak){size, at, top->next, clock};
}

/* Raises top to the largest size of an entry in a part, from stations and the maxima between them. What it can miss: one
 * that rises above both its neighbours among the stations. */
static void raise_along(const beam *b, int part, int of, plain_peak *top)
{
    const double from = b->border[part], length = b->border[part + 1] - from;
    const int steps = 8 + (int)(plain_stations * length);
    const double step = length / steps;
    double m[ENTRIES][ENTRIES], square[STEPS_MOST + 1];
    vector y[STEPS_MOST + 1][ENTRIES], now[ENTRIES];
    memcpy(y, b->at[part], sizeof *y);
    transfer(b->z, step, m);
    for (int i = 0; i < steps; i++) advance(m, of, y[i], y[i + 1]);
    for (int i = 0; i <= steps; i++) square[i] = product(y[i][of], y[i][of]);
    for (int i = 0; i <= steps; i++) {
        const int before = i > 0 ? i - 1 : 0, after = i < steps ? i + 1 : steps;
        const double lower = fmin(square[before], square[after]), slope = product(y[i][of], y[i][of + 1]) / square[i];
        double low = 0, high = (after - before) * step;
        if (square[i] < square[before] || square[i] < square[after]) continue;
        raise_to(top, y[i][of], from + i * step);
        if (square[i] * 1.002 < top->size * top->size || square[i] - lower <= 1e-14 * square[i]) continue;
        if ((i == 0 && slope < -1e-12) || (i == steps && slope > 1e-12)) continue; /* it falls from the border on */
        for (int n = 0; n < 20; n++) {
            transfer(b->z, (low + high) / 2, m);
            advance(m, of, y[before], now);
            *(product(now[of], now[of + 1]) > 0 ? &low : &high) = (low + high) / 2;
        }
        raise_to(top, now[of], from + before * step + low);
    }
}

plain_state plain_state_at(const plain_tube *t, double factor)
{
    const double push = push_at(t, factor);
    plain_peak top[2] = {{-1, 2, -1, none}, {-1, 2, -1, none}}; /* use grows with the moment: each zone's largest is enough */
    plain_state s = {-1, -1, none, none, none, {-1, 2, -1, none}};
    beam b;
    if (!(push < t->buckling_load)) return (plain_state){none, none, none, none, none, {none, none, none, none}};
    solve(t, push_at(t, factor) * t->m.length / t->unit, factor, &b);
    for (int i = 0; i < b.parts; i++) raise_along(&b, i, MOMENT, &top[b.weld[i]]);
    for (int n = 0, i = top[1].at < top[0].at; n < 2; n++, i = !i) {
        const plain_zone *q = &t->zones[i];
        const double bending = top[i].size * t->unit / q->modulus, shear = sqrt(3) * factor * t->m.torque * q->arm;
        const double pushed = hypot(fmax(bending + push / q->area, 0), shear), of_squash = pushed / q->squash;
        const double pulled = hypot(fmax(bending - push / q->area, 0), shear), of_yield = pulled / q->yield;
        const double use = fmax(of_squash, of_yield), stress = of_squash >= of_yield ? pushed : pulled;
        if (top[i].size < 0) continue; /* no such zone */
        s.interaction = fmax(s.interaction, push / t->column_load + hypot(bending, shear) / q->squash);
        const bool most = use > s.use;
        s.use_next = most ? s.use : use, s.stress_next = most ? s.stress : stress;
        if (most) s.use = use, s.stress = stress;
        raise_to(&s.moment, top[i].size * t->unit, top[i].at);
        s.moment.next = fmax(s.moment.next, top[i].next * t->unit);
    }
    s.moment.at *= t->m.length;
    return s;
}

plain_peak plain_moved(const plain_tube *t, double factor)
{
    plain_peak top = {-1, 2, -1, none};
    beam b;
    if (!(push_at(t, factor) < t->buckling_load)) return (plain_peak){none, none, none, none};
    solve(t, push_at(t, factor) * t->m.length / t->unit, factor, &b);
    for (int i = 0; i < b.parts; i++) raise_along(&b, i, MOVED, &top);
    return (plain_peak){top.size * t->m.length, top.at * t->m.length, top.next * t->m.length, top.clock};
}

void plain_place(const plain_tube *t, double factor, double at, double *moment, double *moved)
{
    double m[ENTRIES][ENTRIES];
    vector y[ENTRIES];
    beam b;
    int part = 0;
    solve(t, push_at(t, factor) * t->m.length / t->unit, factor, &b);
    while (part + 1 < b.parts && at >= b.border[part + 1] * t->m.length) part++;
    transfer(b.z, at / t->m.length - b.border[part], m);
    advance(m, MOVED, b.at[part], y);
    *moment = cabs(y[MOMENT]) * t->unit;
    *moved = cabs(y[MOVED]) * t->m.length;
}

static double determinant(const plain_tube *t, double z) { beam b; return t->sign * solve(t, z, 0, &b); }
static double over_use(const plain_tube *t, double factor) { return plain_state_at(t, factor).use - 1; }
static double over_interaction(const plain_tube *t, double factor) { return plain_state_at(t, factor).interaction - 1; }

/* Between low, where f is below 0, and high, where it is not: the first place where it is not. */
static double rise(function *f, const plain_tube *t, double low, double high)
{
    for (int i = 0; i < 55; i++) *(f(t, (low + high) / 2) < 0 ? &low : &high) = (low + high) / 2;
    return high;
}

/* The smallest x in from ... end at which f reaches 0, endless if none; sure: it does at the end. A scan, dense at both of
 * its ends, and again about each top. What it can miss: a hump that stays below -0.1 at the points of the first scan. */
static double first_reach(function *f, const plain_tube *t, double from, double end, bool sure, int depth)
{
    double range = 1e-6, x[2] = {from, from}, value[2] = {-endless, f(t, from)};
    if (value[1] >= 0) return from;
    while (depth == 0 && from + range < end && range < 1e30 && f(t, from + range) < 0) range *= 2;
    if (range >= 1e30) return endless;
    sure = sure || (depth == 0 && from + range < end);
    if (depth == 0) end = fmin(from + range, end);
    for (int i = 1, count = depth == 0 ? SCAN : SCAN_AGAIN; i <= count; i++) {
        const double share = (double)i / count, next = from + (end - from) * share * share * (3 - 2 * share);
        const double now = i < count ? f(t, next) : sure ? endless : -1;
        const bool top = value[1] > -0.1 && value[1] > value[0] + 1e-12 && value[1] >= now;
        const double inside = top && depth < 8 ? first_reach(f, t, x[0], next, false, depth + 1) : endless;
        if (inside < endless) return inside;
        if (now >= 0) return rise(f, t, x[1], next);
        x[0] = x[1], x[1] = next, value[0] = value[1], value[1] = now;
    }
    return endless;
}

plain_factors plain_factors_of(const plain_tube *t)
{
    const double push = t->m.compression, tension = t->tension, ends[] = {(t->buckling_load + tension) / push, tension / push};
    plain_factors f = {0, 0, 0};
    if (-tension >= t->buckling_load) return f;
    f.yield = first_reach(over_use, t, 0, push > 0 ? ends[0] : endless, true, 0);
    f.column = push > 0 ? fmax(0, (t->column_load + tension) / push) : -tension >= t->column_load ? 0 : endless;
    if (push > 0) f.interaction = first_reach(over_interaction, t, fmax(0, ends[1]), f.column, true, 0);
    else f.interaction = tension < 0 ? first_reach(over_interaction, t, 0, push < 0 ? ends[1] : endless, false, 0) : endless;
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
        t->hold[i] = stiff ? 1 : k / (1 + k);
        t->give[i] = stiff ? 0 : 1 / (1 + k);
    }
    t->sign = 1;
    t->sign = determinant(t, 0) < 0 ? 1 : -1;
    while (determinant(t, high) < 0) high += 3;
    return rise(determinant, t, high - 3, high) * t->unit / t->m.length;
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
    t.point = toward(m->point_load, m->point_clock) * l / t.unit;
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
