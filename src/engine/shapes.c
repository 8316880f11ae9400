#include "engine/shapes.h"

#include "engine/smooth.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* The moment obeys m'' + z m = -q - F delta + z y0''. Each shape is the answer to one cause. */

static void put(shapes *at, enum shape which, double value, double slope)
{
    at->value[which] = value;
    at->slope[which] = slope;
}

/* ---- a half-wave bow -------------------------------------------------------------------------------- */

typedef struct sine_wave { /* the answer that starts from nothing at A, and its slope */
    double k, slope;
} sine_wave;

/* Near resonance m = -z pi^2 K, with
 *     K = integral of sin(pi y) sin(u (xi - y))/u dy = (pi sin(u xi)/u - sin(pi xi))/(pi^2 - u^2).
 * In the half sum and half difference of the two waves the small denominator cancels exactly. */
static sine_wave sine_from_a(double u, const spot *at)
{
    const double h_sine = sin(u * at->xi / 2), h_cosine = cos(u * at->xi / 2);
    const double sum = (u + M_PI) / 2, difference = (u - M_PI) / 2, a = difference * at->xi;
    /* sin(a)/difference by its series: a is below 0.03 */
    const double sine_over = at->xi * (1 - a * a / 6 * (1 - a * a / 20 * (1 - a * a / 42)));
    const double cosine_a = h_cosine * at->cosine + h_sine * at->sine;
    const double sine = h_sine * at->cosine + h_cosine * at->sine;
    const double cosine = h_cosine * at->cosine - h_sine * at->sine;
    return (sine_wave){
        .k = (sine * cosine_a / sum - cosine * sine_over) / (2 * u),
        .slope = M_PI * sine * sine_over / (2 * sum),
    };
}

static double versine_of(const spot *at)
{
    return 2 * at->sine * at->sine;
}

static void sine_moment(const rbow_prepared *p, const spot *at, double *value, double *slope)
{
    const double c = p->sine_amplitude;
    if (isnan(c)) {
        const sine_wave wave = sine_from_a(p->wave, at);
        *value = -p->load * M_PI * M_PI * wave.k;
        *slope = -p->load * M_PI * M_PI * wave.slope;
    } else {
        *value = c * at->whole_sine;
        *slope = c * M_PI * (1 - versine_of(at));
    }
}

static void sine_movement(const rbow_prepared *p, const spot *at, double *value, double *slope)
{
    const double c = p->sine_amplitude / (M_PI * M_PI), s = at->whole_sine, versine = versine_of(at);
    if (isnan(c)) {
        const sine_wave wave = sine_from_a(p->wave, at);
        *value = M_PI * at->xi - s - M_PI * M_PI * wave.k;
        *slope = M_PI * versine - M_PI * M_PI * wave.slope;
    } else {
        *value = c * s;
        *slope = c * M_PI * (1 - versine);
    }
}

/* ---- compression and slight tension: everything from its values at A; w'' = -m ---------------------- */

static bool past_kink(const rbow_prepared *p, double side)
{
    return p->beam.bow_shape == RBOW_BOW_KINK && side > p->bow_at;
}

static void load_from_a(double z, double t, enum shape which, shapes *m, shapes *w)
{
    const smooth s = smooth_at(z * t * t);
    put(m, which, -t * s.c1, -s.c0);
    put(w, which, t * t * t * s.c3, t * t * s.c2);
}

static void from_a(const rbow_prepared *p, const spot *at, shapes *m, shapes *w)
{
    const double z = p->load, xi = at->xi, x2 = xi * xi;
    const smooth s = smooth_at(z * x2);
    put(m, SHAPE_MOMENT_A, s.c0, -z * xi * s.c1);
    put(w, SHAPE_MOMENT_A, -x2 * s.c2, -xi * s.c1);
    put(m, SHAPE_SECOND, xi * s.c1, s.c0);
    put(w, SHAPE_SECOND, -xi * x2 * s.c3, -x2 * s.c2);
    put(w, SHAPE_TURN, xi, 1);
    put(m, SHAPE_SPREAD, -x2 * s.c2, -xi * s.c1);
    put(w, SHAPE_SPREAD, x2 * x2 * s.c4, xi * x2 * s.c3);
    if (at->side > p->point_at) load_from_a(z, xi - p->point_at, SHAPE_POINT, m, w);
    if (past_kink(p, at->side)) load_from_a(z, xi - p->bow_at, SHAPE_KINK, m, w);
}

/* ---- tension: everything from the moments at both ends, in waves that decay inward ------------------- */

/* sinh(n x) sinh(n y)/sinh n and cosh(n x) sinh(n y)/sinh n for x + y <= 1, without large numbers. */
static double sinh_sinh(double n, double x, double y)
{
    return exp(-n * (1 - x - y)) * expm1(-2 * n * x) * expm1(-2 * n * y) / (-2 * expm1(-2 * n));
}

static double cosh_sinh(double n, double x, double y)
{
    return exp(-n * (1 - x - y)) * (1 + exp(-2 * n * x)) * expm1(-2 * n * y) / (2 * expm1(-2 * n));
}

/* A load at a on the pinned, pulled tube. */
static void load_between(double n, double a, double xi, bool past, enum shape which, shapes *m)
{
    if (past)
        put(m, which, sinh_sinh(n, a, 1 - xi) / n, -cosh_sinh(n, 1 - xi, a));
    else
        put(m, which, sinh_sinh(n, xi, 1 - a) / n, cosh_sinh(n, xi, 1 - a));
}

static void moment_between(const rbow_prepared *p, const spot *at, shapes *m)
{
    const double xi = at->xi, side = at->side, n = p->wave, all = -expm1(-2 * n);
    const double near_a = exp(-n * xi), near_b = exp(-n * (1 - xi));
    put(m, SHAPE_MOMENT_A, near_a * -expm1(-2 * n * (1 - xi)) / all, -n * near_a * (1 + near_b * near_b) / all);
    put(m, SHAPE_SECOND, near_b * -expm1(-2 * n * xi) / all, n * near_b * (1 + near_a * near_a) / all);
    put(m, SHAPE_SPREAD, expm1(-n * xi) * expm1(-n * (1 - xi)) / (n * n * (1 + exp(-n))),
        (near_a - near_b) / (n * (1 + exp(-n))));
    if (p->point_at < 1) load_between(n, p->point_at, xi, side > p->point_at, SHAPE_POINT, m);
    if (p->beam.bow_shape == RBOW_BOW_KINK) load_between(n, p->bow_at, xi, side > p->bow_at, SHAPE_KINK, m);
}

/* The movement is what statics would have as moment, less what is left of it: w = (static moment - m)/n^2. */
static void movement_between(const rbow_prepared *p, const spot *at, const shapes *m, shapes *w)
{
    const double xi = at->xi, side = at->side;
    const double square = p->wave * p->wave, a = p->point_at, kink = p->bow_at;
    const bool past_point = side > a, past_bow = side > kink;
    shapes statics;
    put(&statics, SHAPE_MOMENT_A, 1 - xi, -1);
    put(&statics, SHAPE_SECOND, xi, 1);
    put(&statics, SHAPE_TURN, 0, 0);
    put(&statics, SHAPE_SPREAD, xi * (1 - xi) / 2, (1 - 2 * xi) / 2);
    put(&statics, SHAPE_POINT, past_point ? a * (1 - xi) : xi * (1 - a), past_point ? -a : 1 - a);
    put(&statics, SHAPE_KINK, past_bow ? kink * (1 - xi) : xi * (1 - kink), past_bow ? -kink : 1 - kink);
    for (enum shape i = 0; i < SHAPE_SINE; i++)
        put(w, i, (statics.value[i] - m->value[i]) / square, (statics.slope[i] - m->slope[i]) / square);
    put(w, SHAPE_TURN, xi, 1);
}

/* ---- either ------------------------------------------------------------------------------------------ */

spot spot_at(double xi, double side)
{
    if (xi <= 0) return (spot){xi, side, 0, 1, 0, 1};
    if (xi >= 1) return (spot){xi, side, 1, 0, 0, -1};
    const double sine = sin(M_PI / 2 * xi), cosine = cos(M_PI / 2 * xi);
    return (spot){xi, side, sine, cosine, 2 * sine * cosine, 1 - 2 * sine * sine};
}

void shapes_at(const rbow_prepared *p, const spot *at, shapes *m, shapes *w)
{
    *m = *w = (shapes){{0}, {0}};
    if (p->tension) {
        moment_between(p, at, m);
        movement_between(p, at, m, w);
    } else if (at->xi > 0) {
        from_a(p, at, m, w);
    } else {
        m->value[SHAPE_MOMENT_A] = m->slope[SHAPE_SECOND] = w->slope[SHAPE_TURN] = 1;
    }
    if (p->beam.bow_shape != RBOW_BOW_SINE) return;
    sine_moment(p, at, &m->value[SHAPE_SINE], &m->slope[SHAPE_SINE]);
    sine_movement(p, at, &w->value[SHAPE_SINE], &w->slope[SHAPE_SINE]);
}

static pair sum(const double shape[SHAPE_COUNT], const shares *s)
{
    pair all = {0, 0};
    for (int i = 0; i < SHAPE_COUNT; i++) all += s->of[i] * shape[i];
    return all;
}

/* The higher derivatives come free from m'' = -z m - q - z pi^2 b sin(pi xi). */
jet jet_of_moment(const rbow_prepared *p, const shares *s, const spot *at)
{
    shapes m, w;
    shapes_at(p, at, &m, &w);
    const double z = p->load;
    const pair f = sum(m.value, s), d1 = sum(m.slope, s), source = s->of[SHAPE_SINE] * (z * M_PI * M_PI);
    const pair d2 = -(f * z + s->of[SHAPE_SPREAD] + source * at->whole_sine);
    return (jet){f, d1, d2, -(d1 * z + source * (M_PI * at->whole_cosine)),
                 -(d2 * z - source * (M_PI * M_PI * at->whole_sine))};
}

jet jet_of_movement(const rbow_prepared *p, const shares *s, const spot *at)
{
    shapes m, w;
    shapes_at(p, at, &m, &w);
    const pair f = sum(m.value, s), source = s->of[SHAPE_SINE] * (p->load * M_PI * M_PI);
    return (jet){sum(w.value, s), sum(w.slope, s), -f, -sum(m.slope, s),
                 f * p->load + s->of[SHAPE_SPREAD] + source * at->whole_sine};
}
