/* Method: one plane obeys EI v'''' + P (v + y0)'' = q, M = -EI v''. Lengths are counted in L and moments in EI/L, so
 * that z = P L^2/EI is the only parameter. A solution is a sum of seven shapes: three free ones, whose shares follow
 * from the end rules, and four of loads. Both planes stand in one complex number, up + i right.
 *
 * Under compression and slight tension the shapes start at A, in C_n = x^n sum (-z x^2)^k/(2k + n)!, which have no
 * special place at z = 0 or pi^2. Under strong tension, where starting at A loses all digits, they are those of a tube
 * pinned at both ends, in sinh and cosh; there z is never near 0.
 *
 * What the scans can miss: along the tube a rise of |M|^2 by 0.2 % between two stations (the curvature allows a tenth
 * of it); over the load factor a hump whose top stays below 0.9 at the points of the scan. */
#include "plain.h"

#include <complex.h>
#include <stdbool.h>
#include <stdlib.h>

typedef long double real;
typedef long double complex vector;
typedef double complex plane;
typedef struct zone { double area, modulus, arm, squash, yield; } zone; /* arm: shear stress per torque */
typedef struct tube {
    rbow_member m;
    double area, inertia, modulus, radius, q, rigidity, critical, slenderness, column_stress, column_load;
    real hold_a, give_a, hold_b, give_b; /* of an end rule: give M +- hold v' = ...  */
    bool free_b;
    zone zones[2]; /* tube, weld */
    vector bow, point, spread, moment_a, moment_b, miss_a, miss_b; /* as the member has them */
    double border[6]; /* of pieces without a break inside, as shares of the length */
} tube;
enum { TURN, MOMENT, SHEAR, SPREAD, POINT, KINK, SINE, SHAPES };
typedef struct beam { real z; double point_at, kink_at; vector share[SHAPES]; } beam;
typedef struct peak { double value, at, next; } peak;
typedef struct state { double use, stress, use_next, stress_next, interaction; peak moment; } state; /* next: of the other zone */
typedef struct check { const tube *t; double tension; bool interaction; } check;
typedef struct stretch { double z, start; plane moment, shear, spread, sine; const beam *b; } stretch;
typedef double at_place(const void *of, double x);

enum { STATIONS_MOST = 2000 };
int plain_stations = 240, plain_scan = 240;
static const double endless = INFINITY, nothing = NAN;
static const double pi = 3.14159265358979323846;

static vector toward(double size, double clock) { return size * (cosl(clock) + sinl(clock) * (vector)I); }

static zone zone_of(double od, double wall, double e, double push_yield, double yield, double *q)
{
    const double bore = od - 2 * wall, area = pi * wall * (od - wall), ratio = od / wall;
    const double inertia = area * (od * od + bore * bore) / 16;
    *q = ratio <= 0.11 * e / push_yield ? 1 : fmin(1, 0.038 * e / (push_yield * ratio) + 2.0 / 3);
    return (zone){area, inertia / (od / 2), od / 4 / inertia, *q * push_yield, yield};
}

/* ---- one plane -------------------------------------------------------------------------------------- */

static void waves(real z, real x, real c[5]) /* C_0 ... C_4 */
{
    const real y = -z * x * x;
    real third = x * x * x / 6, fourth = third * x / 4;
    c[3] = c[4] = 0;
    for (int n = 4; fabsl(third) > 1e-24L * x * x * x; n += 2) {
        c[3] += third;
        c[4] += fourth;
        third *= y / (n * (n + 1));
        fourth *= y / ((n + 1) * (n + 2));
    }
    c[2] = x * x / 2 - z * c[4];
    c[1] = x - z * c[3];
    c[0] = 1 - z * c[2];
}

/* Of M'' + z M = cos(pi x) and = sin(pi x), at rest at 0; regular at z = pi^2. */
static void response(double z, double x, double *to_cos, double *to_sin)
{
    if (z > 1) {
        const double k = sqrt(z), sum = k + pi, apart = k - pi, beat = fabs(apart) > 0 ? sin(apart * x / 2) / (apart / 2) : x;
        *to_cos = sin(sum * x / 2) / sum * beat;
        *to_sin = (sin(k * x) / k - cos(sum * x / 2) * beat) / sum;
        return;
    }
    real c[5];
    waves(z, x, c);
    *to_cos = (cos(pi * x) - (double)c[0]) / (z - pi * pi);
    *to_sin = (sin(pi * x) - pi * (double)c[1]) / (z - pi * pi);
}

static void set(real f[4], real v, real turn, real moment, real shear)
{
    f[0] = v, f[1] = turn, f[2] = moment, f[3] = shear;
}

static void sine_shape(double z, double x, real f[4]) /* of the load pi^2 sin(pi x) */
{
    const double s = sin(pi * x), c = cos(pi * x), u = 1 / (pi * pi - z);
    double to_cos, to_sin;
    set(f, u * s, u * pi * c, u * pi * pi * s, u * pi * pi * pi * c);
    if (z <= 1) return;
    response(z, x, &to_cos, &to_sin);
    const double moment = -pi * pi * to_sin, shear = -pi * pi * pi * to_cos;
    set(f, (moment + pi * x - s) / z, (shear + pi * (1 - c)) / z, moment, shear);
}

static bool acts(vector share) { return fabsl(creall(share)) + fabsl(cimagl(share)) > 0; }

static void start_shapes(const beam *b, real x, real f[SHAPES][4])
{
    real c[5];
    waves(b->z, x, c);
    set(f[MOMENT], -c[2], -c[1], c[0], -b->z * c[1]);
    set(f[SHEAR], -c[3], -c[2], c[1], c[0]);
    set(f[SPREAD], c[4], c[3], -c[2], -c[1]);
    for (int j = POINT; j <= KINK; j++) {
        const real beyond = x - (j == POINT ? b->point_at : b->kink_at);
        if (beyond < 0 || !acts(b->share[j])) continue;
        waves(b->z, beyond, c);
        set(f[j], c[3], c[2], -c[1], -c[0]);
    }
}

static void pinned(real z, real f[4], real moment, real shear, real at_rest, real its_slope) /* M = at rest + z v */
{
    set(f, (moment - at_rest) / z, (shear - its_slope) / z, moment, shear);
}

static void pinned_shapes(const beam *b, real x, real f[SHAPES][4])
{
    const real z = b->z, k = sqrtl(-z), all = sinhl(k), rest = 1 - x;
    const real near = sinhl(k * x), far = sinhl(k * rest), near_slope = k * coshl(k * x), far_slope = -k * coshl(k * rest);
    pinned(z, f[MOMENT], far / all, far_slope / all, rest, -1);
    pinned(z, f[SHEAR], near / all, near_slope / all, x, 1);
    pinned(z, f[SPREAD], ((near + far) / all - 1) / z, (near_slope + far_slope) / all / z, x * rest / 2, 0.5L - x);
    for (int j = POINT; j <= KINK; j++) {
        if (!acts(b->share[j])) continue;
        const real a = j == POINT ? b->point_at : b->kink_at;
        const real left = sinhl(k * a) / all / k, right = sinhl(k * (1 - a)) / all / k;
        if (x < a) pinned(z, f[j], near * right, near_slope * right, x * (1 - a), 1 - a);
        else pinned(z, f[j], far * left, far_slope * left, a * rest, -a);
    }
}

static void shapes(const beam *b, real x, real f[SHAPES][4])
{
    for (int j = 0; j < SHAPES; j++) set(f[j], 0, 0, 0, 0);
    set(f[TURN], x, 1, 0, 0);
    if (b->z < -4) pinned_shapes(b, x, f);
    else start_shapes(b, x, f);
    if (acts(b->share[SINE])) sine_shape((double)b->z, (double)x, f[SINE]);
}

static void movement(const beam *b, real x, vector sum[4]) /* v, v', M, M', just beyond x */
{
    real f[SHAPES][4];
    shapes(b, x, f);
    for (int i = 0; i < 4; i++) {
        sum[i] = 0;
        for (int j = 0; j < SHAPES; j++) sum[i] += b->share[j] * f[j][i];
    }
}

/* The end rules' left sides for one shape; of a free B: M' - z v' and M. */
static void rules(const tube *t, real z, real a[4], real b[4], real rule[3])
{
    rule[0] = t->give_a * a[2] + t->hold_a * a[1];
    rule[1] = t->free_b ? b[3] - z * b[1] : b[0];
    rule[2] = t->give_b * b[2] - t->hold_b * b[1];
}

static void cross(const real a[3], const real b[3], real c[3])
{
    for (int i = 0; i < 3; i++) c[i] = a[(i + 1) % 3] * b[(i + 2) % 3] - a[(i + 2) % 3] * b[(i + 1) % 3];
}

/* Fills in the three free shares that give the rules `right`; returns the determinant. */
static real fit(const tube *t, beam *b, vector right[3])
{
    real a[SHAPES][4], e[SHAPES][4], rule[SHAPES][3], normal[3];
    shapes(b, 0, a);
    shapes(b, 1, e);
    for (int j = 0; j < SHAPES; j++) {
        rules(t, b->z, a[j], e[j], rule[j]);
        for (int i = 0; i < 3; i++) right[i] -= b->share[j] * rule[j][i];
    }
    real det = 0;
    for (int j = 0; j < 3; j++) {
        cross(rule[(j + 1) % 3], rule[(j + 2) % 3], normal);
        det = normal[0] * rule[j][0] + normal[1] * rule[j][1] + normal[2] * rule[j][2];
        b->share[j] = (normal[0] * right[0] + normal[1] * right[1] + normal[2] * right[2]) / det;
    }
    return det;
}

static real determinant(const tube *t, real z)
{
    beam b = {.z = z};
    return fit(t, &b, (vector[3]){0});
}

static real critical_z(const tube *t) /* the first two roots lie more than 9 apart for every pair of ends */
{
    real low = 0, high = 1;
    const bool sign = determinant(t, 0) > 0;
    for (; (determinant(t, high) > 0) == sign; high++) low = high;
    for (int i = 0; i < 66; i++) *((determinant(t, (low + high) / 2) > 0) == sign ? &low : &high) = (low + high) / 2;
    return low;
}

static beam beam_at(const tube *t, double tension, real factor)
{
    const rbow_member *m = &t->m;
    const real l = m->length, unit = t->rigidity / l, z = (factor * m->compression - tension) * l / unit;
    const double at = m->point_at < 0 ? 0.5 : m->point_at / m->length, kink = m->bow_at < 0 ? 0.5 : m->bow_at / m->length;
    const vector bow = t->bow * z / l, point = factor * l / unit * t->point;
    const real tip_slope[] = {-pi, -4, -1 / (1 - (real)kink)};
    beam b = {.z = z, .point_at = at, .kink_at = kink};
    b.share[SPREAD] = factor * l * l / unit * t->spread;
    if (m->bow_shape == RBOW_BOW_ARC) b.share[SPREAD] += 8 * bow;
    if (m->bow_shape == RBOW_BOW_KINK) b.share[KINK] = bow * (1 / (real)kink + 1 / (1 - (real)kink));
    if (m->bow_shape == RBOW_BOW_SINE) b.share[SINE] = bow;
    if (at > 0 && at < 1) b.share[POINT] = point; /* joint A takes what acts at 0 */
    vector right[3] = {t->give_a * factor / unit * t->moment_a + t->hold_a / l * t->miss_a,
                       t->free_b ? (at < 1 ? 0 : point) + bow * tip_slope[m->bow_shape] : 0,
                       t->give_b * factor / unit * t->moment_b + t->hold_b / l * t->miss_b};
    fit(t, &b, right);
    return b;
}

/* ---- maxima ----------------------------------------------------------------------------------------- */

static double golden(at_place *f, const void *of, double low, double high, double *at)
{
    const double cut = 0.61803398874989485;
    double left = high - cut * (high - low), right = low + cut * (high - low), f_left = f(of, left), f_right = f(of, right);
    for (int i = 0; i < 28 && right > left; i++) {
        if (f_left >= f_right) high = right, right = left, f_right = f_left, left = high - cut * (high - low), f_left = f(of, left);
        else low = left, left = right, f_left = f_right, right = low + cut * (high - low), f_right = f(of, right);
    }
    *at = f_left >= f_right ? left : right;
    return fmax(f_left, f_right);
}

static void raise(peak *top, double value, double at)
{
    const bool higher = value > top->value * (1 + 1e-12), elsewhere = fabs(at - top->at) > 0.01;
    if (elsewhere) top->next = fmax(top->next, higher ? top->value : value);
    if (higher) top->value = value, top->at = at;
}

/* The largest of stations a step apart and of the maxima between them. */
static void highest(const double f[], int last, double step, at_place *eval, const void *of, double start, peak *top)
{
    for (int i = 0; i <= last; i++) {
        const int before = i > 0 ? i - 1 : 0, after = i < last ? i + 1 : last;
        if (f[before] > f[i] || f[after] > f[i]) continue;
        double at;
        raise(top, f[i], start + i * step);
        if (!(f[i] * 1.002 > top->value) || f[i] - fmin(f[before], f[after]) <= 1e-14 * f[i]) continue;
        if (before == i && eval(of, 1e-4 * step) < f[i]) continue; /* it falls from the border on */
        if (after == i && eval(of, (i - 1e-4) * step) < f[i]) continue;
        const double value = golden(eval, of, before * step, after * step, &at);
        raise(top, value, start + at);
    }
}

static double size2(plane p) { return creal(p) * creal(p) + cimag(p) * cimag(p); }

static double moment2(const void *of, double x) /* |M|^2, x from the start of a stretch */
{
    const stretch *s = of;
    const double k = sqrt(fabs(s->z)), half = s->z > 0 ? sin(k * x / 2) / (k / 2) : s->z < 0 ? sinh(k * x / 2) / (k / 2) : x;
    const double c2 = half * half / 2, c1 = half * (s->z > 0 ? cos(k * x / 2) : cosh(k * x / 2));
    plane m = s->moment * (1 - s->z * c2) + s->shear * c1 - s->spread * c2;
    if (size2(s->sine) > 0) {
        double to_cos, to_sin;
        response(s->z, x, &to_cos, &to_sin);
        m -= s->sine * (sin(pi * s->start) * to_cos + cos(pi * s->start) * to_sin);
    }
    return size2(m);
}

/* Stations by M(x + h) + M(x - h) = 2 C_0(h) M(x) - 2 C_2(h) w - sine, which is exact. */
static void stations(const stretch *s, double h, int last, double f[])
{
    real c[5];
    double to_cos = 0, to_sin = 0;
    waves(s->z, h, c);
    if (size2(s->sine) > 0) response(s->z, h, &to_cos, &to_sin);
    const double bend = (double)(s->z * 2 * c[2]), turn = 4 * pow(sin(pi * h / 2), 2);
    const plane load = (double)(2 * c[2]) * s->spread, sine = 2 * to_cos * s->sine;
    double wave = sin(pi * s->start), rise = 2 * sin(pi * h / 2) * cos(pi * (s->start + h / 2));
    plane m = s->moment;
    plane grow = s->shear * (double)c[1] - m * (double)(s->z * c[2]) - (double)c[2] * s->spread
                 - s->sine * (wave * to_cos + cos(pi * s->start) * to_sin);
    for (int i = 0; i <= last; i++) {
        f[i] = size2(m);
        m += grow;
        wave += rise;
        grow -= bend * m + load + sine * wave;
        rise -= turn * wave;
    }
}

static bool is_weld(const tube *t, double x)
{
    const double reach = t->m.weld_zone / t->m.length;
    return x < reach || (!t->free_b && x > 1 - reach);
}

static void moments(const tube *t, const beam *b, peak top[2]) /* |M|^2 of the tube and of its weld zones */
{
    double f[STATIONS_MOST + 1];
    for (int i = 0; i < 5; i++) {
        const double from = t->border[i], length = t->border[i + 1] - from;
        if (!(length > 1e-13)) continue;
        const int parts = 1 + (b->z < 0 ? (int)(sqrt((double)-b->z) * length / 4) : 0), last = parts > 4 ? plain_stations / 4 : plain_stations / parts;
        for (int j = 0; j < parts; j++) {
            vector at[4];
            const double start = from + j * length / parts, step = length / parts / last;
            movement(b, start, at);
            const stretch s = {(double)b->z, start, (plane)at[2], (plane)at[3], (plane)b->share[SPREAD], (plane)(b->share[SINE] * pi * pi), b};
            stations(&s, step, last, f);
            highest(f, last, step, moment2, &s, start, &top[is_weld(t, from + length / 2)]);
        }
    }
}

static double deflection2(const void *of, double x)
{
    vector at[4];
    const stretch *s = of;
    movement(s->b, s->start + x, at);
    return size2((plane)at[0]);
}

static peak deflections(const tube *t, const beam *b)
{
    double f[STATIONS_MOST + 1];
    peak top = {0};
    for (int i = 0; i < 5; i++) {
        const stretch s = {.b = b, .start = t->border[i]};
        const double step = (t->border[i + 1] - s.start) / plain_stations;
        for (int j = 0; j <= plain_stations; j++) f[j] = deflection2(&s, j * step);
        if (step > 1e-15) highest(f, plain_stations, step, deflection2, &s, s.start, &top);
    }
    return top;
}

/* ---- the check -------------------------------------------------------------------------------------- */

static state state_at(const tube *t, double tension, double factor)
{
    const beam b = beam_at(t, tension, factor);
    const double push = factor * t->m.compression - tension;
    peak top[2] = {{-1, 0, -1}, {-1, 0, -1}};
    state s = {-1, 0, -1, 0, 0, {-1, 0, -1}};
    moments(t, &b, top);
    for (int i = 0; i < 2; i++) {
        if (top[i].value < 0) continue;
        top[i].value = sqrt(top[i].value) * t->rigidity / t->m.length;
        top[i].next = sqrt(fmax(top[i].next, 0)) * t->rigidity / t->m.length;
        const zone *z = &t->zones[i];
        const double shear = sqrt(3) * factor * t->m.torque * z->arm, bending = top[i].value / z->modulus;
        const double pushed = hypot(fmax(bending + push / z->area, 0), shear), pulled = hypot(fmax(bending - push / z->area, 0), shear);
        const double use = fmax(pushed / z->squash, pulled / z->yield);
        const double stress = pushed / z->squash >= pulled / z->yield ? pushed : pulled;
        if (use > s.use) s.use_next = s.use, s.stress_next = s.stress, s.use = use, s.stress = stress;
        else s.use_next = use, s.stress_next = stress;
        s.interaction = fmax(s.interaction, push / t->column_load + hypot(bending, shear) / z->squash);
    }
    const int first = top[1].at < top[0].at;
    raise(&s.moment, top[first].value, top[first].at);
    raise(&s.moment, top[!first].value, top[!first].at);
    s.moment.next = fmax(s.moment.next, fmax(top[0].next, top[1].next));
    return s;
}

static double level(const void *of, double factor)
{
    const check *c = of;
    const state s = state_at(c->t, c->tension, factor);
    return c->interaction ? s.interaction : s.use;
}

static double bisect(const check *c, double low, double high)
{
    for (int i = 0; i < 60 && high - low > 1e-15 * high; i++) *(level(c, (low + high) / 2) < 1 ? &low : &high) = (low + high) / 2;
    return high;
}

/* The smallest factor in from ... end at which the level reaches 1, INFINITY if none; sure: it does at the end. */
static double first_reach(const check *c, double from, double end, bool sure)
{
    double range = 1e-6, at[3] = {from, from, from}, value[3] = {level(c, from), 0, 0}, top;
    if (value[0] >= 1) return from;
    while (from + range < end && range < 1e30 && level(c, from + range) < 1) range *= 2;
    if (range >= 1e30) return INFINITY;
    sure = sure || from + range < end;
    range = fmin(range, end - from);
    value[1] = value[0];
    for (int i = 1; i <= plain_scan; i++) {
        const double share = (double)i / plain_scan;
        at[2] = from + range * share * share * (3 - 2 * share);
        value[2] = i < plain_scan ? level(c, at[2]) : sure ? endless : -1;
        if (value[2] >= 1) return bisect(c, at[1], at[2]);
        if (value[1] > 0.9 && value[1] >= value[2] && value[1] >= value[0] && golden(level, c, at[0], at[2], &top) >= 1)
            return bisect(c, at[0], top);
        at[0] = at[1], at[1] = at[2], value[0] = value[1], value[1] = value[2];
    }
    return INFINITY;
}

static plain_factors factors(const tube *t, double tension)
{
    const double c = t->m.compression;
    const check yield = {t, tension, false}, interaction = {t, tension, true};
    plain_factors f = {INFINITY, INFINITY, INFINITY};
    if (-tension >= t->critical) return (plain_factors){0, 0, 0};
    double end = c > 0 ? (t->critical + tension) / c : endless;
    for (int i = 0; i < (t->m.weld_zone > 0 ? 2 : 1); i++) { /* where the axial stress alone is enough */
        if (i == 0 && 2 * t->m.weld_zone >= t->m.length) continue;
        if (c > 0) end = fmin(end, (t->zones[i].squash * t->zones[i].area + tension) / c);
        if (c < 0) end = fmin(end, (t->zones[i].yield * t->zones[i].area - tension) / -c);
    }
    f.yield = first_reach(&yield, 0, end, true);
    if (c > 0) f.column = fmax(0, (t->column_load + tension) / c);
    else if (-tension >= t->column_load) f.column = 0;
    if (c > 0) f.interaction = first_reach(&interaction, fmax(0, tension / c), f.column, true);
    else if (tension < 0) f.interaction = first_reach(&interaction, 0, c < 0 ? tension / c : endless, false);
    return f;
}

static double column_stress(const tube *t, const rbow_material *k, int curve)
{
    const double fc = t->zones[0].squash, e = k->elastic_modulus, s = t->slenderness, fe = pi * pi * e / (s * s);
    static const double imperfection[] = {0.13, 0.21, 0.34, 0.49, 0.76};
    if (curve == RBOW_CURVE_JOHNSON) return s < pi * sqrt(2 * e / fc) ? fc * (1 - fc / (4 * fe)) : fe;
    if (curve == RBOW_CURVE_EULER) return fmin(fc, fe);
    if (curve == RBOW_CURVE_AISC) return fc / fe <= 2.25 ? pow(0.658, fc / fe) * fc : 0.877 * fe;
    if (curve == RBOW_CURVE_THREE_HALVES) {
        const double start = t->q * k->column_intercept, change = pi * sqrt(7 * e / (3 * start));
        return fmin(fc, s < change ? start - 4.0 / 3 * pi * pi * e * pow(change, -3.5) * pow(s, 1.5) : fe);
    }
    const double l = sqrt(fc / fe), phi = 0.5 * (1 + imperfection[curve - RBOW_CURVE_EN_A0] * (l - 0.2) + l * l);
    return l <= 0.2 ? fc : fc / (phi + sqrt(phi * phi - l * l));
}

static void ends(tube *t, double end, bool a)
{
    const real turn = 3.14159265358979323846264338327950288L * sqrtl(2), soft = -turn / tanl(turn / 2);
    const bool welded = end <= RBOW_WELDED;
    const real k = welded ? soft : (real)end * t->m.length / t->rigidity;
    const real hold = isinf(end) ? 1 : k / (1 + k), give = isinf(end) ? 0 : 1 / (1 + k);
    *(a ? &t->hold_a : &t->hold_b) = hold;
    *(a ? &t->give_a : &t->give_b) = give;
}

static int order(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static tube tube_of_member(const rbow_member *m, const rbow_material *k)
{
    tube t = {.m = *m};
    const double l = m->length, bore = m->od - 2 * m->wall, reach = m->weld_zone / l;
    double q_weld;
    t.free_b = m->end_b <= RBOW_FREE && m->end_b > RBOW_WELDED;
    t.zones[0] = zone_of(m->od, m->wall, k->elastic_modulus, k->compression_yield, k->yield, &t.q);
    t.zones[1] = zone_of(m->od - 2 * m->dressed, m->wall - m->dressed, k->elastic_modulus, k->weld_yield, k->weld_yield, &q_weld);
    t.area = t.zones[0].area;
    t.modulus = t.zones[0].modulus;
    t.inertia = t.modulus * m->od / 2;
    t.radius = sqrt(m->od * m->od + bore * bore) / 4;
    t.rigidity = k->elastic_modulus * t.inertia;
    t.bow = toward(m->bow, m->bow_clock);
    t.point = toward(m->point_load, m->point_clock);
    t.spread = toward(m->spread_load, m->spread_clock) - k->density * t.area * m->vertical_g * cos(m->slope);
    const vector offset = m->compression * toward(m->eccentricity, m->eccentricity_clock);
    t.moment_a = toward(m->moment_a, m->moment_clock) + (t.free_b ? 0 : offset);
    t.moment_b = toward(m->moment_b, m->moment_clock) + offset;
    t.miss_a = toward(m->miss_a, m->miss_a_clock);
    t.miss_b = toward(m->miss_b, m->miss_b_clock);
    ends(&t, m->end_a, true);
    if (t.free_b) t.give_b = 1;
    else ends(&t, m->end_b, false);
    const double z = (double)critical_z(&t);
    t.critical = z * t.rigidity / (l * l);
    t.slenderness = pi / sqrt(z) * l / t.radius;
    t.column_stress = column_stress(&t, k, m->column_curve == RBOW_CURVE_OF_MATERIAL ? (int)k->column_curve : m->column_curve);
    t.column_load = t.column_stress * t.area;
    const double breaks[] = {0, 1, reach, t.free_b ? 0 : 1 - reach, !(fabs(m->point_load) > 0) ? 0 : m->point_at < 0 ? 0.5 : m->point_at / l,
                             !(m->bow > 0 && m->bow_shape == RBOW_BOW_KINK) ? 0 : m->bow_at < 0 ? 0.5 : m->bow_at / l};
    for (int i = 0; i < 6; i++) t.border[i] = breaks[i];
    qsort(t.border, 6, sizeof *t.border, order);
    return t;
}

double plain_tension(const rbow_member *m, const rbow_material *k)
{
    double q;
    const zone z = zone_of(m->od, m->wall, k->elastic_modulus, k->compression_yield, k->yield, &q);
    return m->gap / (m->length / (k->elastic_modulus * z.area) + 1 / m->gap_stiffness);
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
    const beam b = beam_at(&t, tension, factor);
    vector sum[4];
    movement(&b, at / m->length, sum);
    *moment = (double)cabsl(sum[2]) * t.rigidity / m->length;
    *moved = (double)cabsl(sum[0]) * m->length;
}

plain_result plain_check(const rbow_member *m, const rbow_material *k, double tension)
{
    const tube t = tube_of_member(m, k);
    const double l = m->length;
    plain_result r = {
        .area = t.area, .inertia = t.inertia, .section_modulus = t.modulus, .radius = t.radius, .weight = k->density * t.area * l,
        .wall_reduction = t.q, .critical_load = t.critical, .effective_length = t.slenderness * t.radius,
        .slenderness = t.slenderness, .column_stress = t.column_stress, .column_load = t.column_load, .fit_axial = -tension,
        .fit_moment = NAN, .fit_stress = NAN, .fit_stress_next = NAN, .peak_stress_next = NAN, .axial = m->compression - tension, .peak_moment = NAN, .peak_moment_at = NAN,
        .peak_stress = NAN, .stress_use = NAN, .deflection = NAN, .deflection_clock = NAN, .moment_next = NAN, .deflection_next = NAN,
    };
    if (-tension < t.critical) {
        const state fitted = state_at(&t, tension, 0);
        r.fit_moment = fitted.moment.value;
        r.fit_stress = fitted.stress;
        r.fit_stress_next = fitted.use_next >= fitted.use * (1 - 1e-9) ? fitted.stress_next : fitted.stress;
    }
    if (!(r.axial < t.critical)) return r;
    const state loaded = state_at(&t, tension, 1);
    const beam b = beam_at(&t, tension, 1);
    const peak far = deflections(&t, &b);
    vector sum[4];
    movement(&b, far.at, sum);
    r.peak_moment = loaded.moment.value;
    r.peak_moment_at = loaded.moment.at * l;
    r.moment_next = loaded.moment.next;
    r.peak_stress = loaded.stress;
    r.peak_stress_next = loaded.use_next >= loaded.use * (1 - 1e-9) ? loaded.stress_next : loaded.stress;
    r.stress_use = loaded.use;
    r.deflection = sqrt(far.value) * l;
    r.deflection_next = sqrt(fmax(far.next, 0)) * l;
    r.deflection_clock = far.value > 0 ? (double)cargl(sum[0]) : nothing;
    if (r.deflection_clock < 0) r.deflection_clock += 2 * pi;
    return r;
}
