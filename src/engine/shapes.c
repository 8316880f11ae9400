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

half_wave half_wave_at(const rbow_prepared *p, double x)
{
    const double angle = p->wave * x / 2;
    return p->load > 0 ? (half_wave){sin(angle), cos(angle)} : (half_wave){sinh(angle), cosh(angle)};
}

/* Near and beyond z = pi^2 the pinned answer is at or past resonance. There m = -z pi^2 K, with
 *     K = integral of sin(pi y) sin(u (xi - y))/u dy = (pi sin(u xi)/u - sin(pi xi))/(pi^2 - u^2).
 * In the half sum and half difference of the two waves the small denominator cancels exactly. */
static sine_wave sine_from_a(double u, const half_wave *h, const spot *at)
{
    const double sum = (u + M_PI) / 2, difference = (u - M_PI) / 2, a = difference * at->xi;
    /* sin(a)/difference: from the two waves where they differ enough, else from its series */
    const double sine_over = fabs(a) > 0.05 ? (h->sine * at->cosine - h->cosine * at->sine) / difference
                                            : at->xi * (1 - a * a / 6 * (1 - a * a / 20 * (1 - a * a / 42)));
    const double cosine_a = h->cosine * at->cosine + h->sine * at->sine;
    const double sine = h->sine * at->cosine + h->cosine * at->sine;
    const double cosine = h->cosine * at->cosine - h->sine * at->sine;
    return (sine_wave){
        .k = (sine * cosine_a / sum - cosine * sine_over) / (2 * u),
        .slope = M_PI * sine * sine_over / (2 * sum),
    };
}

static void sine_moment(const rbow_prepared *p, const half_wave *h, const spot *at, shapes *m)
{
    const double square = M_PI * M_PI;
    if (sine_stands_alone(p)) {
        const double c = sine_amplitude(p) * square;
        put(m, SHAPE_SINE, c * 2 * at->sine * at->cosine, c * M_PI * (1 - 2 * at->sine * at->sine));
    } else {
        const sine_wave wave = sine_from_a(p->wave, h, at);
        put(m, SHAPE_SINE, -p->load * square * wave.k, -p->load * square * wave.slope);
    }
}

static void sine_movement(const rbow_prepared *p, const spot *at, shapes *w)
{
    const double s = 2 * at->sine * at->cosine, versine = 2 * at->sine * at->sine;
    if (p->beam.bow_shape != RBOW_BOW_SINE) {
        put(w, SHAPE_SINE, 0, 0);
    } else if (sine_stands_alone(p)) {
        put(w, SHAPE_SINE, sine_amplitude(p) * s, sine_amplitude(p) * M_PI * (1 - versine));
    } else {
        const half_wave h = half_wave_at(p, at->xi);
        const sine_wave wave = sine_from_a(p->wave, &h, at);
        put(w, SHAPE_SINE, M_PI * at->xi - s - M_PI * M_PI * wave.k, M_PI * versine - M_PI * M_PI * wave.slope);
    }
}

/* ---- compression and slight tension: everything from its values at A; w'' = -m ---------------------- */

/* cos(u x), sin(u x)/u and (1 - cos(u x))/z: all that moments need. In half angles none of them cancels, but for
 * a small z the series costs less. */
typedef struct low {
    double c0, x1, x2;
} low;

static low low_from_half(const rbow_prepared *p, const half_wave *h)
{
    const double square = 2 * h->sine * h->sine;
    return (low){p->load > 0 ? 1 - square : 1 + square, 2 * h->sine * h->cosine / p->wave, square / fabs(p->load)};
}

static low low_from_series(const rbow_prepared *p, double x)
{
    const smooth s = smooth_at(p->load * x * x);
    return (low){s.c0, x * s.c1, x * x * s.c2};
}

static bool series_serves(const rbow_prepared *p)
{
    return fabs(p->load) < 2;
}

static void load_moment(const rbow_prepared *p, double t, bool past, enum shape which, shapes *m)
{
    if (!past) {
        put(m, which, 0, 0);
        return;
    }
    low l;
    if (series_serves(p)) {
        l = low_from_series(p, t);
    } else {
        const half_wave h = half_wave_at(p, t);
        l = low_from_half(p, &h);
    }
    put(m, which, -l.x1, -l.c0);
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

static void moment_from_a(const rbow_prepared *p, const spot *at, shapes *m)
{
    half_wave h = {0, 1};
    low l;
    if (series_serves(p)) {
        l = low_from_series(p, at->xi);
    } else {
        h = half_wave_at(p, at->xi);
        l = low_from_half(p, &h);
    }
    put(m, SHAPE_MOMENT_A, l.c0, -p->load * l.x1);
    put(m, SHAPE_SECOND, l.x1, l.c0);
    put(m, SHAPE_TURN, 0, 0);
    put(m, SHAPE_SPREAD, -l.x2, -l.x1);
    load_moment(p, at->xi - p->point_at, at->side > p->point_at, SHAPE_POINT, m);
    load_moment(p, at->xi - p->bow_at, past_kink(p, at->side), SHAPE_KINK, m);
    if (p->beam.bow_shape == RBOW_BOW_SINE)
        sine_moment(p, &h, at, m);
    else
        put(m, SHAPE_SINE, 0, 0);
}

static void movement_from_a(const rbow_prepared *p, const spot *at, shapes *w)
{
    const double z = p->load, xi = at->xi, x2 = xi * xi;
    const smooth s = smooth_at(z * x2);
    put(w, SHAPE_MOMENT_A, -x2 * s.c2, -xi * s.c1);
    put(w, SHAPE_SECOND, -xi * x2 * s.c3, -x2 * s.c2);
    put(w, SHAPE_TURN, xi, 1);
    put(w, SHAPE_SPREAD, x2 * x2 * s.c4, xi * x2 * s.c3);
    load_movement(z, xi - p->point_at, at->side > p->point_at, SHAPE_POINT, w);
    load_movement(z, xi - p->bow_at, past_kink(p, at->side), SHAPE_KINK, w);
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
    put(m, SHAPE_TURN, 0, 0);
    put(m, SHAPE_SPREAD, expm1(-n * xi) * expm1(-n * (1 - xi)) / (n * n * (1 + exp(-n))),
        (near_a - near_b) / (n * (1 + exp(-n))));
    put(m, SHAPE_POINT, 0, 0);
    put(m, SHAPE_KINK, 0, 0);
    if (p->point_at < 1) load_between(n, p->point_at, xi, side > p->point_at, SHAPE_POINT, m);
    if (p->beam.bow_shape == RBOW_BOW_KINK) load_between(n, p->bow_at, xi, side > p->bow_at, SHAPE_KINK, m);
    put(m, SHAPE_SINE, 0, 0);
    if (p->beam.bow_shape == RBOW_BOW_SINE) sine_moment(p, NULL, at, m); /* far from resonance: stands alone */
}

/* The movement is what statics would have as moment, less what is left of it: w = (static moment - m)/n^2. */
static void movement_between(const rbow_prepared *p, const spot *at, shapes *w)
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
    moment_between(p, at, w);
    for (enum shape i = 0; i < SHAPE_SINE; i++)
        put(w, i, (statics.value[i] - w->value[i]) / square, (statics.slope[i] - w->slope[i]) / square);
    put(w, SHAPE_TURN, xi, 1);
}

/* ---- either ------------------------------------------------------------------------------------------ */

spot spot_at(double xi, double side)
{
    return (spot){xi, side, sin(M_PI / 2 * xi), cos(M_PI / 2 * xi)};
}

void shapes_of_moment(const rbow_prepared *p, const spot *at, shapes *m)
{
    if (p->tension)
        moment_between(p, at, m);
    else
        moment_from_a(p, at, m);
}

void shapes_of_movement(const rbow_prepared *p, const spot *at, shapes *w)
{
    if (p->tension)
        movement_between(p, at, w);
    else
        movement_from_a(p, at, w);
    sine_movement(p, at, w);
}

/* ---- waves on one piece ------------------------------------------------------------------------------ */

/* In half angles nothing cancels, however slight the axial load; only none at all has no wave. */
bool field_serves(const rbow_prepared *p)
{
    return !p->tension && p->wave > 1e-100;
}

half_wave half_wave_on(const rbow_prepared *p, half_wave x, half_wave y)
{
    const double product = x.sine * y.sine;
    return (half_wave){
        .sine = x.sine * y.cosine + x.cosine * y.sine,
        .cosine = x.cosine * y.cosine + (p->load > 0 ? -product : product),
    };
}

/* A load F at a adds -F sin(u (xi - a))/u behind it: by the sine of a difference, a share of either wave. */
static void take_in(wave_field *f, const rbow_solution two[2], double at, enum shape which)
{
    const half_wave h = half_wave_at(f->p, at);
    const low l = low_from_half(f->p, &h);
    for (int i = 0; i < f->planes; i++) {
        f->constant[i] += two[i].share[which] * l.x1;
        f->second[i] -= two[i].share[which] * l.c0;
    }
}

wave_field field_of(const rbow_prepared *p, const rbow_solution two[2], int planes, double side)
{
    wave_field f = {.p = p, .planes = planes};
    for (int i = 0; i < planes; i++) {
        f.constant[i] = two[i].share[SHAPE_MOMENT_A];
        f.second[i] = two[i].share[SHAPE_SECOND];
        f.spread[i] = two[i].share[SHAPE_SPREAD];
        f.bow[i] = two[i].share[SHAPE_SINE];
    }
    if (side > p->point_at) take_in(&f, two, p->point_at, SHAPE_POINT);
    if (past_kink(p, side)) take_in(&f, two, p->bow_at, SHAPE_KINK);
    return f;
}

void jet_of_field(const wave_field *f, const half_wave *h, const spot *at, jet *out)
{
    const rbow_prepared *p = f->p;
    const low l = low_from_half(p, h);
    double bow = 0, bow_slope = 0, source = 0;
    if (p->beam.bow_shape == RBOW_BOW_SINE) {
        shapes m;
        sine_moment(p, h, at, &m);
        bow = m.value[SHAPE_SINE];
        bow_slope = m.slope[SHAPE_SINE];
        source = p->load * M_PI * M_PI * 2 * at->sine * at->cosine;
    }
    out->f[1] = out->d1[1] = out->d2[1] = 0;
    for (int i = 0; i < f->planes; i++) {
        out->f[i] = f->constant[i] * l.c0 + f->second[i] * l.x1 - f->spread[i] * l.x2 + f->bow[i] * bow;
        out->d1[i] = (-p->load * f->constant[i] - f->spread[i]) * l.x1 + f->second[i] * l.c0 + f->bow[i] * bow_slope;
        out->d2[i] = -p->load * out->f[i] - f->spread[i] - f->bow[i] * source;
    }
}

/* ---- any place, any shape ---------------------------------------------------------------------------- */

static double dot(const double *shape, const double *share)
{
    double sum = 0;
    for (int i = 0; i < SHAPE_COUNT; i++) sum += shape[i] * share[i];
    return sum;
}

static void no_plane(jet *out, int i)
{
    out->f[i] = out->d1[i] = out->d2[i] = 0;
}

/* The second derivative comes free from m'' = -z m - q - z pi^2 b sin(pi xi). */
void jet_of_moment(const rbow_prepared *p, const rbow_solution two[2], int planes, const spot *at, jet *out)
{
    shapes m;
    const double source = p->load * M_PI * M_PI * 2 * at->sine * at->cosine;
    shapes_of_moment(p, at, &m);
    no_plane(out, 1);
    for (int i = 0; i < planes; i++) {
        const double *share = two[i].share;
        out->f[i] = dot(m.value, share);
        out->d1[i] = dot(m.slope, share);
        out->d2[i] = -p->load * out->f[i] - share[SHAPE_SPREAD] - source * share[SHAPE_SINE];
    }
}

void jet_of_movement(const rbow_prepared *p, const rbow_solution two[2], int planes, const spot *at, jet *out)
{
    shapes m, w;
    shapes_of_moment(p, at, &m);
    shapes_of_movement(p, at, &w);
    no_plane(out, 1);
    for (int i = 0; i < planes; i++) {
        const double *share = two[i].share;
        out->f[i] = dot(w.value, share);
        out->d1[i] = dot(w.slope, share);
        out->d2[i] = -dot(m.value, share);
    }
}
