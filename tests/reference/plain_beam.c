/* v'''' + z (v + y0)'' = q, M = -v''. The solution is a sum of seven shapes: three free ones, whose shares follow from
 * the end rules, and four of loads.
 *
 * Under compression and slight tension the shapes start at A, in C_n = x^n sum (-z x^2)^k/(2k + n)!, which have no
 * special place at z = 0 or z = pi^2. Under strong tension, where starting at A loses all digits, they are those of a
 * tube pinned at both ends, in sinh and cosh; there z is never near 0. */
#include "plain_beam.h"

#include <math.h>

enum { STATIONS_MOST = 2000 };
static const double pi = 3.14159265358979323846;

typedef struct stretch { /* part of the tube with no load or kink inside; moment and shear at its start */
    const plain_beam *b;
    double z, start;
    double complex moment, shear, spread, sine;
} stretch;

typedef double square(const stretch *s, double x, double *slope); /* |M|^2 or |v|^2, and half of its slope */

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
        const double k = sqrt(z), sum = k + pi, apart = k - pi;
        const double beat = fabs(apart) > 0 ? sin(apart * x / 2) / (apart / 2) : x;
        *to_cos = sin(sum * x / 2) / sum * beat;
        *to_sin = (sin(k * x) / k - cos(sum * x / 2) * beat) / sum;
        return;
    }
    real c[5];
    waves(z, x, c);
    *to_cos = (cos(pi * x) - (double)c[0]) / (z - pi * pi);
    *to_sin = (sin(pi * x) - pi * (double)c[1]) / (z - pi * pi);
}

/* ---- shapes ----------------------------------------------------------------------------------------- */

static bool acts(vector share) { return fabsl(creall(share)) + fabsl(cimagl(share)) > 0; }

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

static void start_shapes(const plain_beam *b, real x, real f[PLAIN_SHAPES][4])
{
    real c[5];
    waves(b->z, x, c);
    set(f[PLAIN_MOMENT], -c[2], -c[1], c[0], -b->z * c[1]);
    set(f[PLAIN_SHEAR], -c[3], -c[2], c[1], c[0]);
    set(f[PLAIN_SPREAD], c[4], c[3], -c[2], -c[1]);
    for (int j = PLAIN_POINT; j <= PLAIN_KINK; j++) {
        const real beyond = x - (j == PLAIN_POINT ? b->point_at : b->kink_at);
        if (beyond < 0 || !acts(b->share[j])) continue;
        waves(b->z, beyond, c);
        set(f[j], c[3], c[2], -c[1], -c[0]);
    }
}

static void pinned(real z, real f[4], real moment, real shear, real straight, real its_slope) /* M = straight + z v */
{
    set(f, (moment - straight) / z, (shear - its_slope) / z, moment, shear);
}

static void pinned_shapes(const plain_beam *b, real x, real f[PLAIN_SHAPES][4])
{
    const real z = b->z, k = sqrtl(-z), all = sinhl(k), rest = 1 - x;
    const real near = sinhl(k * x), near_slope = k * coshl(k * x), far = sinhl(k * rest), far_slope = -k * coshl(k * rest);
    pinned(z, f[PLAIN_MOMENT], far / all, far_slope / all, rest, -1);
    pinned(z, f[PLAIN_SHEAR], near / all, near_slope / all, x, 1);
    pinned(z, f[PLAIN_SPREAD], ((near + far) / all - 1) / z, (near_slope + far_slope) / all / z, x * rest / 2, 0.5L - x);
    for (int j = PLAIN_POINT; j <= PLAIN_KINK; j++) {
        if (!acts(b->share[j])) continue;
        const real a = j == PLAIN_POINT ? b->point_at : b->kink_at;
        const real left = sinhl(k * a) / all / k, right = sinhl(k * (1 - a)) / all / k;
        if (x < a) pinned(z, f[j], near * right, near_slope * right, x * (1 - a), 1 - a);
        else pinned(z, f[j], far * left, far_slope * left, a * rest, -a);
    }
}

static void shapes(const plain_beam *b, real x, real f[PLAIN_SHAPES][4])
{
    for (int j = 0; j < PLAIN_SHAPES; j++) set(f[j], 0, 0, 0, 0);
    set(f[PLAIN_TURN], x, 1, 0, 0);
    if (b->z < -4) pinned_shapes(b, x, f);
    else start_shapes(b, x, f);
    if (acts(b->share[PLAIN_SINE])) sine_shape((double)b->z, (double)x, f[PLAIN_SINE]);
}

void plain_movement(const plain_beam *b, real x, vector sum[4])
{
    real f[PLAIN_SHAPES][4];
    shapes(b, x, f);
    for (int i = 0; i < 4; i++) {
        sum[i] = 0;
        for (int j = 0; j < PLAIN_SHAPES; j++) sum[i] += b->share[j] * f[j][i];
    }
}

/* ---- ends ------------------------------------------------------------------------------------------- */

static void cross(const real a[3], const real b[3], real c[3])
{
    for (int i = 0; i < 3; i++) c[i] = a[(i + 1) % 3] * b[(i + 2) % 3] - a[(i + 2) % 3] * b[(i + 1) % 3];
}

/* Three end rules, rule 1 being v(1) = 0 or, of a free B, M'(1) - z v'(1) = right. Fills in the free shares that give
 * `right` (Cramer); returns the determinant. */
static real fit(const plain_ends *e, plain_beam *b, vector right[3])
{
    real at_a[PLAIN_SHAPES][4], at_b[PLAIN_SHAPES][4], rule[PLAIN_SHAPES][3], normal[3], det = 0;
    shapes(b, 0, at_a);
    shapes(b, 1, at_b);
    for (int j = 0; j < PLAIN_SHAPES; j++) {
        rule[j][0] = e->give_a * at_a[j][2] + e->hold_a * at_a[j][1];
        rule[j][1] = e->free_b ? at_b[j][3] - b->z * at_b[j][1] : at_b[j][0];
        rule[j][2] = e->give_b * at_b[j][2] - e->hold_b * at_b[j][1];
        for (int i = 0; i < 3; i++) right[i] -= b->share[j] * rule[j][i];
    }
    for (int j = 0; j < 3; j++) {
        cross(rule[(j + 1) % 3], rule[(j + 2) % 3], normal);
        det = normal[0] * rule[j][0] + normal[1] * rule[j][1] + normal[2] * rule[j][2];
        b->share[j] = (normal[0] * right[0] + normal[1] * right[1] + normal[2] * right[2]) / det;
    }
    return det;
}

static real determinant(const plain_ends *e, real z)
{
    plain_beam b = {.z = z};
    return fit(e, &b, (vector[3]){0});
}

real plain_critical(const plain_ends *e) /* the first two roots lie more than 9 apart for every pair of ends */
{
    real low = 0, high = 1;
    const bool sign = determinant(e, 0) > 0;
    for (; (determinant(e, high) > 0) == sign; high++) low = high;
    for (int i = 0; i < 66; i++) *((determinant(e, (low + high) / 2) > 0) == sign ? &low : &high) = (low + high) / 2;
    return low;
}

/* The bow acts like loads: the arc like a spread load, the kink like a point load. */
plain_beam plain_solve(const plain_ends *e, const plain_loads *l)
{
    const real kink = l->kink_at, tip_slope[] = {-pi, -4, -1 / (1 - kink)}; /* sine, arc, kink */
    const vector bow = l->z * l->bow;
    plain_beam b = {.z = l->z, .point_at = l->point_at, .kink_at = l->kink_at};
    b.share[PLAIN_SPREAD] = l->spread;
    if (l->bow_shape == RBOW_BOW_ARC) b.share[PLAIN_SPREAD] += 8 * bow;
    if (l->bow_shape == RBOW_BOW_KINK) b.share[PLAIN_KINK] = bow * (1 / kink + 1 / (1 - kink));
    if (l->bow_shape == RBOW_BOW_SINE) b.share[PLAIN_SINE] = bow;
    if (l->point_at > 0 && l->point_at < 1) b.share[PLAIN_POINT] = l->point; /* joint A takes what acts at 0 */
    vector right[3] = {e->give_a * l->moment_a + e->hold_a * l->turn_a, 0, e->give_b * l->moment_b + e->hold_b * l->turn_b};
    if (e->free_b) right[1] = (l->point_at < 1 ? 0 : l->point) + bow * tip_slope[l->bow_shape];
    fit(e, &b, right);
    return b;
}

/* ---- maxima ----------------------------------------------------------------------------------------- */

static double product(double complex p, double complex q) { return creal(p) * creal(q) + cimag(p) * cimag(q); }

void plain_raise(plain_peak *top, double value, double at)
{
    const bool higher = value > top->value * (1 + 1e-12), elsewhere = fabs(at - top->at) > 0.01;
    if (elsewhere) top->next = fmax(top->next, higher ? top->value : value);
    if (higher) top->value = value, top->at = at;
}

/* Raises top to the largest of stations a step apart and of the maxima between them, where the slope changes sign. */
static void highest(const double f[], int last, double step, square *of, const stretch *s, plain_peak *top)
{
    for (int i = 0; i <= last; i++) {
        const int before = i > 0 ? i - 1 : 0, after = i < last ? i + 1 : last;
        double slope;
        if (f[before] > f[i] || f[after] > f[i]) continue;
        plain_raise(top, f[i], s->start + i * step);
        if (!(f[i] * 1.002 > top->value) || f[i] - fmin(f[before], f[after]) <= 1e-14 * f[i]) continue;
        of(s, i * step, &slope);
        double low = (slope > 0 ? i : before) * step, high = (slope > 0 ? after : i) * step;
        if (!(high > low)) continue; /* it falls from the border on */
        for (int n = 0; n < 36; n++) {
            const double middle = (low + high) / 2;
            of(s, middle, &slope);
            *(slope > 0 ? &low : &high) = middle;
        }
        plain_raise(top, of(s, low, &slope), s->start + low);
    }
}

static double moment2(const stretch *s, double x, double *slope) /* |M|^2, x from the start of the stretch */
{
    const double k = sqrt(fabs(s->z)), turn = k * x / 2, half = k > 0 ? (s->z > 0 ? sin(turn) : sinh(turn)) / (k / 2) : x;
    const double c2 = half * half / 2, c1 = half * (s->z > 0 ? cos(turn) : cosh(turn)), c0 = 1 - s->z * c2;
    double complex m = s->moment * c0 + s->shear * c1 - s->spread * c2;
    double complex rise = s->shear * c0 - (s->spread + s->z * s->moment) * c1;
    if (product(s->sine, s->sine) > 0) {
        const double sine = sin(pi * s->start), cosine = cos(pi * s->start);
        double to_cos, to_sin;
        response(s->z, x, &to_cos, &to_sin);
        m -= s->sine * (sine * to_cos + cosine * to_sin);
        rise -= s->sine * (sine * (c1 - pi * to_sin) + cosine * pi * to_cos);
    }
    *slope = product(m, rise);
    return product(m, m);
}

/* |M|^2 at stations by M(x + h) + M(x - h) = 2 C_0(h) M(x) - 2 C_2(h) w - the sine's part, which is exact. */
static void march(const stretch *s, double h, int last, double f[])
{
    real c[5];
    double to_cos = 0, to_sin = 0, slope;
    waves(s->z, h, c);
    if (product(s->sine, s->sine) > 0) response(s->z, h, &to_cos, &to_sin);
    const double bend = (double)(s->z * 2 * c[2]), turn = 4 * pow(sin(pi * h / 2), 2);
    const double complex load = (double)(2 * c[2]) * s->spread, sine = 2 * to_cos * s->sine;
    double wave = sin(pi * s->start), rise = 2 * sin(pi * h / 2) * cos(pi * (s->start + h / 2));
    double complex m = s->moment, grow = s->shear * (double)c[1] - m * (double)(s->z * c[2]) - (double)c[2] * s->spread
                                         - s->sine * (wave * to_cos + cos(pi * s->start) * to_sin);
    for (int i = 0; i < last; i++) {
        f[i] = product(m, m);
        m += grow;
        wave += rise;
        grow -= bend * m + load + sine * wave;
        rise -= turn * wave;
    }
    f[last] = moment2(s, last * h, &slope);
}

void plain_raise_moment(const plain_beam *b, double from, double to, int stations, plain_peak *top)
{
    double f[STATIONS_MOST + 1];
    const int parts = 1 + (b->z < 0 ? (int)(sqrt((double)-b->z) * (to - from) / 4) : 0); /* marching loses exp(4) at most */
    const int last = stations / (parts < 4 ? parts : 4);
    for (int j = 0; j < parts && to - from > 1e-13; j++) {
        vector at[4];
        const double start = from + j * (to - from) / parts, step = (to - from) / parts / last;
        plain_movement(b, start, at);
        const stretch s = {b, (double)b->z, start, (double complex)at[2], (double complex)at[3],
                           (double complex)b->share[PLAIN_SPREAD], (double complex)b->share[PLAIN_SINE] * pi * pi};
        march(&s, step, last, f);
        highest(f, last, step, moment2, &s, top);
    }
}

static double movement2(const stretch *s, double x, double *slope)
{
    vector at[4];
    plain_movement(s->b, s->start + x, at);
    *slope = product((double complex)at[0], (double complex)at[1]);
    return product((double complex)at[0], (double complex)at[0]);
}

void plain_raise_movement(const plain_beam *b, double from, double to, int stations, plain_peak *top)
{
    double f[STATIONS_MOST + 1], slope;
    const stretch s = {.b = b, .start = from};
    const double step = (to - from) / stations;
    if (!(to - from > 1e-13)) return;
    for (int i = 0; i <= stations; i++) f[i] = movement2(&s, i * step, &slope);
    highest(f, stations, step, movement2, &s, top);
}
