#include "engine/shapes.h"

#include "engine/smooth.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdbool.h>

/* The moment obeys m'' + z m = -q - F delta + z y0''. Each shape is the answer to one cause. */

static void put(shapes *at, enum shape which, double value, double slope)
{
    at->value[which] = value;
    at->slope[which] = slope;
}

/* ---- a half-wave bow -------------------------------------------------------------------------------- */

/* Away from z = pi^2: the pinned answer c sin(pi xi), which leaves both ends at rest. */
static bool sine_stands_alone(const rbow_prepared *p)
{
    return p->load < M_PI * M_PI / 2;
}

static double sine_amplitude(const rbow_prepared *p)
{
    return p->load / (M_PI * M_PI - p->load);
}

typedef struct sine_wave { /* the answer that starts from nothing at A, and its slope */
    double k, slope;
} sine_wave;

/* Near and beyond z = pi^2 the pinned answer is at or past resonance. There m = -z pi^2 K, with
 *     K = integral of sin(pi y) sin(u (xi - y))/u dy = (pi sin(u xi)/u - sin(pi xi))/(pi^2 - u^2).
 * In the half sum and half difference of the two waves the small denominator cancels exactly. */
static sine_wave sine_from_a(double u, double xi)
{
    const double sum = (u + M_PI) / 2, difference = (u - M_PI) / 2, a = difference * xi;
    const double sine_over = fabs(a) > 1e-4 ? sin(a) / difference : xi * (1 - a * a / 6);
    const double sine = sin(sum * xi), cosine = cos(sum * xi);
    return (sine_wave){
        .k = (sine * cos(a) / sum - cosine * sine_over) / (2 * u),
        .slope = M_PI * sine * sine_over / (2 * sum),
    };
}

static void sine_moment(const rbow_prepared *p, double xi, shapes *m)
{
    const double square = M_PI * M_PI;
    if (p->beam.bow_shape != RBOW_BOW_SINE) {
        put(m, SHAPE_SINE, 0, 0);
    } else if (sine_stands_alone(p)) {
        const double c = sine_amplitude(p) * square;
        put(m, SHAPE_SINE, c * sin(M_PI * xi), c * M_PI * cos(M_PI * xi));
    } else {
        const sine_wave wave = sine_from_a(p->wave, xi);
        put(m, SHAPE_SINE, -p->load * square * wave.k, -p->load * square * wave.slope);
    }
}

static void sine_movement(const rbow_prepared *p, double xi, shapes *w)
{
    const double s = sin(M_PI * xi), c = cos(M_PI * xi);
    if (p->beam.bow_shape != RBOW_BOW_SINE) {
        put(w, SHAPE_SINE, 0, 0);
    } else if (sine_stands_alone(p)) {
        put(w, SHAPE_SINE, sine_amplitude(p) * s, sine_amplitude(p) * M_PI * c);
    } else {
        const sine_wave wave = sine_from_a(p->wave, xi);
        put(w, SHAPE_SINE, M_PI * xi - s - M_PI * M_PI * wave.k, M_PI * (1 - c) - M_PI * M_PI * wave.slope);
    }
}

/* ---- compression and slight tension: everything from its values at A; w'' = -m ---------------------- */

static void load_moment(double z, double t, bool past, enum shape which, shapes *m)
{
    if (!past) {
        put(m, which, 0, 0);
        return;
    }
    const smooth s = smooth_at(z * t * t);
    put(m, which, -t * s.c1, -s.c0);
}

static void load_movement(double z, double t, bool past, enum shape which, shapes *w)
{
    if (!past) {
        put(w, which, 0, 0);
        return;
    }
    const smooth s = smooth_at(z * t * t);
    put(w, which, t * t * t * s.c3, t * t * s.c2);
}

static bool past_kink(const rbow_prepared *p, double side)
{
    return p->beam.bow_shape == RBOW_BOW_KINK && side > p->bow_at;
}

static void moment_from_a(const rbow_prepared *p, double xi, double side, shapes *m)
{
    const double z = p->load, x2 = xi * xi;
    const smooth s = smooth_at(z * x2);
    put(m, SHAPE_MOMENT_A, s.c0, -z * xi * s.c1);
    put(m, SHAPE_SECOND, xi * s.c1, s.c0);
    put(m, SHAPE_TURN, 0, 0);
    put(m, SHAPE_SPREAD, -x2 * s.c2, -xi * s.c1);
    load_moment(z, xi - p->point_at, side > p->point_at, SHAPE_POINT, m);
    load_moment(z, xi - p->bow_at, past_kink(p, side), SHAPE_KINK, m);
}

static void movement_from_a(const rbow_prepared *p, double xi, double side, shapes *w)
{
    const double z = p->load, x2 = xi * xi;
    const smooth s = smooth_at(z * x2);
    put(w, SHAPE_MOMENT_A, -x2 * s.c2, -xi * s.c1);
    put(w, SHAPE_SECOND, -xi * x2 * s.c3, -x2 * s.c2);
    put(w, SHAPE_TURN, xi, 1);
    put(w, SHAPE_SPREAD, x2 * x2 * s.c4, xi * x2 * s.c3);
    load_movement(z, xi - p->point_at, side > p->point_at, SHAPE_POINT, w);
    load_movement(z, xi - p->bow_at, past_kink(p, side), SHAPE_KINK, w);
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

static void moment_between(const rbow_prepared *p, double xi, double side, shapes *m)
{
    const double n = p->wave, all = -expm1(-2 * n);
    const double near_a = exp(-n * xi), near_b = exp(-n * (1 - xi));
    put(m, SHAPE_MOMENT_A, near_a * -expm1(-2 * n * (1 - xi)) / all, -n * near_a * (1 + near_b * near_b) / all);
    put(m, SHAPE_SECOND, near_b * -expm1(-2 * n * xi) / all, n * near_b * (1 + near_a * near_a) / all);
    put(m, SHAPE_TURN, 0, 0);
    put(m, SHAPE_SPREAD, expm1(-n * xi) * expm1(-n * (1 - xi)) / (n * n * (1 + exp(-n))),
        (near_a - near_b) / (n * (1 + exp(-n))));
    put(m, SHAPE_POINT, 0, 0);
    put(m, SHAPE_KINK, 0, 0);
    if (p->point_at < 1) load_between(n, p->point_at, xi, side > p->point_at, SHAPE_POINT, m);
    if (p->beam.bow_shape == RBOW_BOW_KINK) load_between(n, p->bow_at, xi, side > p->bow_at, SHAPE_KINK, m);
}

/* The movement is what statics would have as moment, less what is left of it: w = (static moment - m)/n^2. */
static void movement_between(const rbow_prepared *p, double xi, double side, shapes *w)
{
    const double square = p->wave * p->wave, a = p->point_at, kink = p->bow_at;
    const bool past_point = side > a, past_bow = side > kink;
    shapes statics;
    put(&statics, SHAPE_MOMENT_A, 1 - xi, -1);
    put(&statics, SHAPE_SECOND, xi, 1);
    put(&statics, SHAPE_TURN, 0, 0);
    put(&statics, SHAPE_SPREAD, xi * (1 - xi) / 2, (1 - 2 * xi) / 2);
    put(&statics, SHAPE_POINT, past_point ? a * (1 - xi) : xi * (1 - a), past_point ? -a : 1 - a);
    put(&statics, SHAPE_KINK, past_bow ? kink * (1 - xi) : xi * (1 - kink), past_bow ? -kink : 1 - kink);
    moment_between(p, xi, side, w);
    for (enum shape i = 0; i < SHAPE_SINE; i++)
        put(w, i, (statics.value[i] - w->value[i]) / square, (statics.slope[i] - w->slope[i]) / square);
    put(w, SHAPE_TURN, xi, 1);
}

/* ---- either ------------------------------------------------------------------------------------------ */

void shapes_of_moment(const rbow_prepared *p, double xi, double side, shapes *m)
{
    if (p->tension)
        moment_between(p, xi, side, m);
    else
        moment_from_a(p, xi, side, m);
    sine_moment(p, xi, m);
}

void shapes_of_movement(const rbow_prepared *p, double xi, double side, shapes *w)
{
    if (p->tension)
        movement_between(p, xi, side, w);
    else
        movement_from_a(p, xi, side, w);
    sine_movement(p, xi, w);
}

static double dot(const double *shape, const double *share)
{
    double sum = 0;
    for (int i = 0; i < SHAPE_COUNT; i++) sum += shape[i] * share[i];
    return sum;
}

/* The second derivative comes free from m'' = -z m - q - z pi^2 b sin(pi xi). */
void jet_of_moment(const rbow_prepared *p, const rbow_solution two[2], double xi, double side, jet *out)
{
    shapes m;
    const bool waves = p->beam.bow_shape == RBOW_BOW_SINE;
    const double source = waves ? p->load * M_PI * M_PI * sin(M_PI * xi) : 0;
    shapes_of_moment(p, xi, side, &m);
    for (int i = 0; i < 2; i++) {
        const double *share = two[i].share;
        out->f[i] = dot(m.value, share);
        out->d1[i] = dot(m.slope, share);
        out->d2[i] = -p->load * out->f[i] - share[SHAPE_SPREAD] - source * share[SHAPE_SINE];
    }
}

void jet_of_movement(const rbow_prepared *p, const rbow_solution two[2], double xi, double side, jet *out)
{
    shapes m, w;
    shapes_of_moment(p, xi, side, &m);
    shapes_of_movement(p, xi, side, &w);
    for (int i = 0; i < 2; i++) {
        const double *share = two[i].share;
        out->f[i] = dot(w.value, share);
        out->d1[i] = dot(w.slope, share);
        out->d2[i] = -dot(m.value, share);
    }
}
