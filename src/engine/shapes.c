#include "engine/shapes.h"

#include "engine/smooth.h"

#include <math.h>
#include <stdbool.h>

static const double pi = 3.14159265358979323846;

/* The moment obeys m'' + z m = -q - F delta + z y0''. Each shape is the answer to one cause. */

/* Half-wave bow, away from z = pi^2: the pinned answer c sin(pi xi), which leaves both ends at rest. */
static void sine_alone(double z, double xi, shapes *at)
{
    const double c = z / (pi * pi - z), s = sin(pi * xi), k = cos(pi * xi);
    at->m[SHAPE_SINE] = c * pi * pi * s;
    at->dm[SHAPE_SINE] = c * pi * pi * pi * k;
    at->w[SHAPE_SINE] = c * s;
    at->dw[SHAPE_SINE] = c * pi * k;
}

/* Half-wave bow near and beyond z = pi^2, where the pinned answer is at or past resonance: the answer that
 * starts from nothing at A, m = -z pi^2 K, with
 *     K = integral of sin(pi y) sin(u (xi - y))/u dy = (pi sin(u xi)/u - sin(pi xi))/(pi^2 - u^2).
 * In the half sum and half difference of the two waves the small denominator cancels exactly. */
static void sine_from_a(double z, double u, double xi, shapes *at)
{
    const double sum = (u + pi) / 2, difference = (u - pi) / 2, a = difference * xi;
    const double sine_over = fabs(a) > 1e-4 ? sin(a) / difference : xi * (1 - a * a / 6);
    const double k = (sin(sum * xi) * cos(a) / sum - cos(sum * xi) * sine_over) / (2 * u);
    const double dk = pi * sin(sum * xi) * sine_over / (2 * sum);
    const double once = ((1 - cos(pi * xi)) / pi - dk) / z;
    const double twice = (xi / pi - sin(pi * xi) / (pi * pi) - k) / z;
    const double scale = z * pi * pi;
    at->m[SHAPE_SINE] = -scale * k;
    at->dm[SHAPE_SINE] = -scale * dk;
    at->w[SHAPE_SINE] = scale * twice;
    at->dw[SHAPE_SINE] = scale * once;
}

/* A load at a, answered from A on: nothing before it, then -t c1(z t^2). */
static void load_from_a(double z, double t, bool past, enum shape which, shapes *at)
{
    if (!past) {
        at->m[which] = at->dm[which] = at->w[which] = at->dw[which] = 0;
        return;
    }
    const smooth s = smooth_at(z * t * t);
    at->m[which] = -t * s.c1;
    at->dm[which] = -s.c0;
    at->w[which] = t * t * t * s.c3;
    at->dw[which] = t * t * s.c2;
}

/* Compression and slight tension: everything from its values at A; w'' = -m. */
static void from_a(const rbow_prepared *p, double xi, double side, shapes *at)
{
    const double z = p->load, x2 = xi * xi;
    const smooth s = smooth_at(z * x2);
    at->m[SHAPE_MOMENT_A] = s.c0;
    at->dm[SHAPE_MOMENT_A] = -z * xi * s.c1;
    at->w[SHAPE_MOMENT_A] = -x2 * s.c2;
    at->dw[SHAPE_MOMENT_A] = -xi * s.c1;
    at->m[SHAPE_SECOND] = xi * s.c1;
    at->dm[SHAPE_SECOND] = s.c0;
    at->w[SHAPE_SECOND] = -xi * x2 * s.c3;
    at->dw[SHAPE_SECOND] = -x2 * s.c2;
    at->m[SHAPE_TURN] = at->dm[SHAPE_TURN] = 0;
    at->w[SHAPE_TURN] = xi;
    at->dw[SHAPE_TURN] = 1;
    at->m[SHAPE_SPREAD] = -x2 * s.c2;
    at->dm[SHAPE_SPREAD] = -xi * s.c1;
    at->w[SHAPE_SPREAD] = x2 * x2 * s.c4;
    at->dw[SHAPE_SPREAD] = xi * x2 * s.c3;
    load_from_a(z, xi - p->point_at, side > p->point_at, SHAPE_POINT, at);
    load_from_a(z, xi - p->bow_at, side > p->bow_at, SHAPE_KINK, at);
    if (z < pi * pi / 2)
        sine_alone(z, xi, at);
    else
        sine_from_a(z, p->wave, xi, at);
}

/* sinh(n x) sinh(n y)/sinh n and cosh(n x) sinh(n y)/sinh n for x + y <= 1, without large numbers. */
static double sinh_sinh(double n, double x, double y)
{
    return exp(-n * (1 - x - y)) * expm1(-2 * n * x) * expm1(-2 * n * y) / (-2 * expm1(-2 * n));
}

static double cosh_sinh(double n, double x, double y)
{
    return exp(-n * (1 - x - y)) * (1 + exp(-2 * n * x)) * expm1(-2 * n * y) / (2 * expm1(-2 * n));
}

/* A load at a on the pinned, pulled tube. The movement is what statics would have, less what the moment
 * does not need: w = (static moment - m)/n^2. */
static void load_between(double n, double a, double xi, bool past, enum shape which, shapes *at)
{
    if (past) {
        at->m[which] = sinh_sinh(n, a, 1 - xi) / n;
        at->dm[which] = -cosh_sinh(n, 1 - xi, a);
        at->w[which] = (a * (1 - xi) - at->m[which]) / (n * n);
        at->dw[which] = (-a - at->dm[which]) / (n * n);
    } else {
        at->m[which] = sinh_sinh(n, xi, 1 - a) / n;
        at->dm[which] = cosh_sinh(n, xi, 1 - a);
        at->w[which] = (xi * (1 - a) - at->m[which]) / (n * n);
        at->dw[which] = (1 - a - at->dm[which]) / (n * n);
    }
}

/* Tension: everything from the moments at both ends, in waves that decay inward. */
static void between_ends(const rbow_prepared *p, double xi, double side, shapes *at)
{
    const double n = p->wave, n2 = n * n, all = -expm1(-2 * n);
    const double near_a = exp(-n * xi), near_b = exp(-n * (1 - xi));
    at->m[SHAPE_MOMENT_A] = near_a * -expm1(-2 * n * (1 - xi)) / all;
    at->dm[SHAPE_MOMENT_A] = -n * near_a * (1 + near_b * near_b) / all;
    at->w[SHAPE_MOMENT_A] = (1 - xi - at->m[SHAPE_MOMENT_A]) / n2;
    at->dw[SHAPE_MOMENT_A] = (-1 - at->dm[SHAPE_MOMENT_A]) / n2;
    at->m[SHAPE_SECOND] = near_b * -expm1(-2 * n * xi) / all;
    at->dm[SHAPE_SECOND] = n * near_b * (1 + near_a * near_a) / all;
    at->w[SHAPE_SECOND] = (xi - at->m[SHAPE_SECOND]) / n2;
    at->dw[SHAPE_SECOND] = (1 - at->dm[SHAPE_SECOND]) / n2;
    at->m[SHAPE_TURN] = at->dm[SHAPE_TURN] = 0;
    at->w[SHAPE_TURN] = xi;
    at->dw[SHAPE_TURN] = 1;
    at->m[SHAPE_SPREAD] = expm1(-n * xi) * expm1(-n * (1 - xi)) / (n2 * (1 + exp(-n)));
    at->dm[SHAPE_SPREAD] = (near_a - near_b) / (n * (1 + exp(-n)));
    at->w[SHAPE_SPREAD] = (xi * (1 - xi) / 2 - at->m[SHAPE_SPREAD]) / n2;
    at->dw[SHAPE_SPREAD] = ((1 - 2 * xi) / 2 - at->dm[SHAPE_SPREAD]) / n2;
    load_between(n, p->point_at, xi, side > p->point_at, SHAPE_POINT, at);
    load_between(n, p->bow_at, xi, side > p->bow_at, SHAPE_KINK, at);
    sine_alone(p->load, xi, at);
}

void shapes_at(const rbow_prepared *p, double xi, double side, shapes *at)
{
    if (p->tension)
        between_ends(p, xi, side, at);
    else
        from_a(p, xi, side, at);
}

static double dot(const double *shape, const double *share)
{
    double sum = 0;
    for (int i = 0; i < SHAPE_COUNT; i++) sum += shape[i] * share[i];
    return sum;
}

/* Second and third derivatives come free from m'' = -z m - q - z pi^2 b sin(pi xi). */
void jet_of_moment(const rbow_prepared *p, const rbow_solution two[2], double xi, double side, jet *out)
{
    shapes at;
    shapes_at(p, xi, side, &at);
    for (int i = 0; i < 2; i++) {
        const double *share = two[i].share, bow = p->load * pi * pi * share[SHAPE_SINE];
        out->f[i] = dot(at.m, share);
        out->d1[i] = dot(at.dm, share);
        out->d2[i] = -p->load * out->f[i] - share[SHAPE_SPREAD] - bow * sin(pi * xi);
        out->d3[i] = -p->load * out->d1[i] - bow * pi * cos(pi * xi);
    }
}

void jet_of_movement(const rbow_prepared *p, const rbow_solution two[2], double xi, double side, jet *out)
{
    shapes at;
    shapes_at(p, xi, side, &at);
    for (int i = 0; i < 2; i++) {
        const double *share = two[i].share;
        out->f[i] = dot(at.w, share);
        out->d1[i] = dot(at.dw, share);
        out->d2[i] = -dot(at.m, share);
        out->d3[i] = -dot(at.dm, share);
    }
}
