/* Equilibrium of the beam-column, written once for one axial load or for several at once (real.h).
 *
 * Everything is relative to the tube: t = x/L - 1/2 from -1/2 at A to 1/2 at B, z = P L^2/EI, m = M L/EI, w = v/L.
 * With w'' = -m the equation of one plane becomes
 *     m'' + z m = -q - z y0''
 * where q is the lateral load q L^3/EI. Its solution is a sum of shapes, each with its share:
 *     EVEN, ODD   the two waves about mid-length, cos(u t) and sin(u t)/u
 *     SPREAD      response to a spread load of 1; an arc bow acts like one (initial_bow.c)
 *     POINT, KINK response to a lateral force of 1; a kinked bow acts like one
 *     HALF_WAVE   response to cos(pi t) of the half-wave bow; its share is the bow's load, downward
 * and w is the matching sum plus a straight line, offset + turn t.
 * Source: Timoshenko & Gere, Theory of Elastic Stability, 2nd ed., ch. 1 (beam-columns), here about mid-length. */
#ifndef RAILBOW_MECHANICS_BEAMCOLUMN_BODY_H
#define RAILBOW_MECHANICS_BEAMCOLUMN_BODY_H

#include "mechanics/beam.h"
#include "mechanics/stability_functions.h"

#include <float.h>
#include <gsl/gsl_math.h>

typedef struct plane_loads { /* relative, in the order of the planes */
    real moment_a[PLANES], moment_b[PLANES], slope_a[PLANES], slope_b[PLANES];
    real spread[PLANES], point[PLANES], bow[PLANES];
} plane_loads;

typedef struct equilibrium {
    const beam *beam;
    real z;
    real per_off; /* 1/(z - pi^2) */
    real share[SHAPES][PLANES];
    real offset[PLANES], turn[PLANES];
} equilibrium;

typedef struct location { /* a station; each lane may have its own */
    real t, cosine, sine, point_side, kink_side;
} location;

INLINE location location_of(const station *s)
{
    return (location){all(s->t), all(s->cosine), all(s->sine), all(s->point_side), all(s->kink_side)};
}

typedef struct shape_values { /* of one shape at one station: moment, movement, and their slopes */
    real m, dm, w, dw;
} shape_values;

typedef struct moments { /* at one station, in both planes */
    real m[PLANES], dm[PLANES];
} moments;

/* The same solution in every lane. */
INLINE equilibrium equilibrium_from(const beam *k, const solution *s)
{
    equilibrium e = {.beam = k, .z = all(s->z), .per_off = all(1 / (s->z - M_PI * M_PI))};
    for (int i = 0; i < PLANES; i++) {
        for (int shape = 0; shape < SHAPES; shape++) e.share[shape][i] = all(s->share[shape][i]);
        e.offset[i] = all(s->offset[i]);
        e.turn[i] = all(s->turn[i]);
    }
    return e;
}

#if LANES == 1
static inline solution solution_of(const equilibrium *e)
{
    solution s = {.z = e->z};
    for (int i = 0; i < PLANES; i++) {
        for (int shape = 0; shape < SHAPES; shape++) s.share[shape][i] = e->share[shape][i];
        s.offset[i] = e->offset[i];
        s.turn[i] = e->turn[i];
    }
    return s;
}
#endif

/* Below this z, cosh and sinh are so large that they cancel, and waves that decay from either end replace them. Only single
 * numbers are compared with it: a batch with such a load is evaluated one lane at a time. */
static const double strong_tension = -25;

INLINE bool pulls_strongly(real z)
{
#if LANES == 1
    return z < strong_tension;
#else
    (void)z;
    return false;
#endif
}

/* cos(u t), sin(u t)/u; under strong tension both over cosh(n/2), n^2 = -z. */
INLINE wave waves_about_middle(real z, real t)
{
#if LANES == 1
    if (pulls_strongly(z)) {
        const double n = sqrt(-z), per = 1 / (1 + exp(-n));
        const double b = exp(n * (t - 0.5)) * per, a = exp(-n * (t + 0.5)) * per;
        return (wave){b + a, (b - a) / n, NAN};
    }
#endif
    return wave_at(z, t);
}

/* The half-wave bow: (cos(pi t) - cos(u t))/(z - pi^2). Near u = pi, where both terms are large, the same as a product:
 * sin(d t)/d sin(a t)/a /2 with a, d = (u + pi)/2, (u - pi)/2. */
INLINE void half_wave_moment(real z, real per_off, const location *at, wave about, real *m, real *dm)
{
    const real off = z - M_PI * M_PI;
    const mask near_pi = less(size(off), all(1));
#if LANES == 1
    if (pulls_strongly(z)) about = (wave){0, 0, 0};
#endif
    if (MASK_BITS(near_pi) != ALL_LANES) {
        *m = (at->cosine - about.c) * per_off;
        *dm = (z * about.s - M_PI * at->sine) * per_off;
    }
    if (!MASK_ANY(near_pi)) return;
    const real u = root(larger(z, all(1))), a = (u + M_PI) * 0.5, d = off / (u + M_PI) * 0.5;
    const wave sum = wave_at(choose(near_pi, a * a, all(0)), at->t), rest = wave_at(choose(near_pi, d * d, all(0)), at->t);
    *m = choose(near_pi, 0.5 * (sum.s * rest.s), *m);
    *dm = choose(near_pi, 0.5 * (sum.c * rest.s + sum.s * rest.c), *dm);
}

/* Response to a force of 1: half of the sum of both sides; the other half are waves. */
INLINE void force_moment(real z, real distance, real side, real *m, real *dm)
{
    const real away = side * distance;
#if LANES == 1
    if (pulls_strongly(z)) {
        const double n = sqrt(-z), decay = exp(-n * away);
        *m = decay / (2 * n);
        *dm = -0.5 * side * decay;
        return;
    }
#endif
    const wave from = wave_at(z, away);
    *m = -0.5 * from.s;
    *dm = -0.5 * side * from.c;
}

/* The moment of every shape at a station. Given: about  the waves at the station */
INLINE void shape_moments(const beam *k, real z, real per_off, const location *at, wave about, shape_values v[SHAPES])
{
    v[EVEN].m = about.c;
    v[EVEN].dm = -z * about.s;
    v[ODD].m = about.s;
    v[ODD].dm = about.c;
    v[SPREAD].m = -about.lag;
    v[SPREAD].dm = -about.s;
#if LANES == 1
    if (pulls_strongly(z)) {
        v[SPREAD].m = -1 / z;
        v[SPREAD].dm = 0;
    }
#endif
    v[POINT] = v[KINK] = v[HALF_WAVE] = (shape_values){all(0), all(0), all(0), all(0)};
    if (k->has_point) force_moment(z, at->t - k->point_at, at->point_side, &v[POINT].m, &v[POINT].dm);
    if (k->has_kink) force_moment(z, at->t - k->kink_at, at->kink_side, &v[KINK].m, &v[KINK].dm);
    if (k->has_half_wave) half_wave_moment(z, per_off, at, about, &v[HALF_WAVE].m, &v[HALF_WAVE].dm);
}

INLINE void force_movement(real z, real distance, real side, shape_values *v)
{
    const real away = side * distance;
#if LANES == 1
    if (pulls_strongly(z)) {
        v->w = (v->m + away / 2) / z;
        v->dw = (v->dm + side / 2) / z;
        return;
    }
#endif
    const stumpff s = stumpff_of(z * (away * away));
    v->w = 0.5 * away * away * away * s.c3;
    v->dw = side * 0.5 * away * away * s.c2;
}

INLINE void force_at(real z, real distance, real side, shape_values *v)
{
    force_moment(z, distance, side, &v->m, &v->dm);
    force_movement(z, distance, side, v);
}

/* Under strong tension movements come from the equation itself: z w = m + t^2/2 ... */
INLINE void strong_movements(const beam *k, real z, const location *at, real bow, real bow_slope, shape_values v[SHAPES])
{
    v[EVEN].w = v[EVEN].m / z;
    v[EVEN].dw = v[EVEN].dm / z;
    v[ODD].w = v[ODD].m / z;
    v[ODD].dw = v[ODD].dm / z;
    v[SPREAD].w = (v[SPREAD].m + at->t * at->t / 2) / z;
    v[SPREAD].dw = at->t / z;
    v[HALF_WAVE].w = k->has_half_wave ? (v[HALF_WAVE].m + bow) / z : all(0);
    v[HALF_WAVE].dw = k->has_half_wave ? (v[HALF_WAVE].dm + bow_slope) / z : all(0);
}

/* The movement of every shape, w'' = -m, except for a straight line; that of a half-wave bow under a large load from the
 * equation. Given: s  of z t^2 */
INLINE void shape_movements(const beam *k, real z, const location *at, const stumpff *s, real bow, real bow_slope, shape_values v[SHAPES])
{
    const real t = at->t, t2 = t * t;
    v[EVEN].w = -t2 * s->c2;
    v[EVEN].dw = -t * s->c1;
    v[ODD].w = -t * t2 * s->c3;
    v[ODD].dw = -t2 * s->c2;
    v[SPREAD].w = t2 * t2 * s->c4;
    v[SPREAD].dw = t * t2 * s->c3;
    if (!k->has_half_wave) return;
    const mask slight = less(size(z), all(1));
    const real per = 1 / choose(slight, z - M_PI * M_PI, z);
    v[HALF_WAVE].w = (choose(slight, t2 * s->c2, v[HALF_WAVE].m) + bow) * per;
    v[HALF_WAVE].dw = (choose(slight, t * s->c1, v[HALF_WAVE].dm) + bow_slope) * per;
}

/* The moments and movements of every shape at a station. */
INLINE void shapes_at(const beam *k, real z, real per_off, const location *at, shape_values v[SHAPES])
{
    const real t = at->t, t2 = t * t;
    const real bow = (at->cosine - 1) * (1 / (M_PI * M_PI)), bow_slope = at->sine * (-1 / M_PI);
    if (pulls_strongly(z)) {
        shape_moments(k, z, per_off, at, waves_about_middle(z, t), v);
        strong_movements(k, z, at, bow, bow_slope, v);
    } else {
        const stumpff s = stumpff_of(z * t2);
        shape_moments(k, z, per_off, at, (wave){s.c0, t * s.c1, t2 * s.c2}, v);
        shape_movements(k, z, at, &s, bow, bow_slope, v);
    }
    if (k->has_point) force_movement(z, t - k->point_at, at->point_side, &v[POINT]);
    if (k->has_kink) force_movement(z, t - k->kink_at, at->kink_side, &v[KINK]);
}

/* ---- end rules ---------------------------------------------------------------------------------------- */

/* The three rules, each a sum over the shapes:
 *     A   m + r w' = m_a + r alpha      (rotational spring r; divided by 1 + r, so that it may be infinite)
 *     B   m - r w' = m_b + r beta
 *     B supported      w(B) - w(A) = 0          B free  -m' + z (w' + y0') = -F at B */
INLINE void rules_of(const beam *k, real z, const shape_values *a, const shape_values *b, real rule[3])
{
    rule[0] = k->spring_a.moment * a->m + k->spring_a.slope * a->dw;
    rule[1] = k->spring_b.moment * b->m - k->spring_b.slope * b->dw;
    rule[2] = k->free_b ? z * b->dw - b->dm : b->w - a->w;
}

static const station station_a = {-0.5, 0, -1, -1, -1}, station_b = {0.5, 0, 1, 1, 1};

/* The shapes at B from those at A; all but the responses to forces are even or odd about mid-length. */
INLINE void shapes_mirrored(const beam *k, real z, const shape_values a[SHAPES], shape_values b[SHAPES])
{
    for (int i = 0; i < SHAPES; i++) b[i] = (shape_values){a[i].m, -a[i].dm, a[i].w, -a[i].dw};
    b[ODD] = (shape_values){-a[ODD].m, a[ODD].dm, -a[ODD].w, a[ODD].dw};
    if (k->has_point) force_at(z, all(0.5 - k->point_at), all(1), &b[POINT]);
    if (k->has_kink) force_at(z, all(0.5 - k->kink_at), all(1), &b[KINK]);
}

/* Solves three equations for the shares of EVEN and ODD and for the turn, by cofactors.
 * Given: m  one column for each unknown */
INLINE void solve_three(const real m[3][3], const real right[3], real unknown[3])
{
    const real c0 = m[1][1] * m[2][2] - m[2][1] * m[1][2];
    const real c1 = m[2][1] * m[0][2] - m[0][1] * m[2][2];
    const real c2 = m[0][1] * m[1][2] - m[1][1] * m[0][2];
    const real det = m[0][0] * c0 + m[1][0] * c1 + m[2][0] * c2;
    /* just below buckling the determinant may round to 0 */
    const real per = 1 / choose(less(size(det), all(DBL_MIN)), all(DBL_MIN), det);
    unknown[0] = per * (right[0] * c0 + right[1] * (m[2][0] * m[1][2] - m[1][0] * m[2][2])
                        + right[2] * (m[1][0] * m[2][1] - m[2][0] * m[1][1]));
    unknown[1] = per * (right[0] * c1 + right[1] * (m[0][0] * m[2][2] - m[2][0] * m[0][2])
                        + right[2] * (m[2][0] * m[0][1] - m[0][0] * m[2][1]));
    unknown[2] = per * (right[0] * c2 + right[1] * (m[1][0] * m[0][2] - m[0][0] * m[1][2])
                        + right[2] * (m[0][0] * m[1][1] - m[1][0] * m[0][1]));
}

INLINE real sum_of_shapes(const equilibrium *e, int plane, real even, real odd, real spread, real point, real kink, real half_wave)
{
    const beam *k = e->beam;
    real sum = e->share[EVEN][plane] * even + e->share[ODD][plane] * odd + e->share[SPREAD][plane] * spread;
    if (k->has_point) sum += e->share[POINT][plane] * point;
    if (k->has_kink) sum += e->share[KINK][plane] * kink;
    if (k->has_half_wave) sum += e->share[HALF_WAVE][plane] * half_wave;
    return sum;
}

/* All but the offset. */
INLINE real movement_of(const equilibrium *e, int plane, real t, const shape_values v[SHAPES])
{
    return e->turn[plane] * t
        + sum_of_shapes(e, plane, v[EVEN].w, v[ODD].w, v[SPREAD].w, v[POINT].w, v[KINK].w, v[HALF_WAVE].w);
}

/* Given:    k, z   a beam and its load, below the critical load
 *           loads  relative
 * Returned: e      its equilibrium */
INLINE void equilibrium_of(const beam *k, real z, const plane_loads *loads, equilibrium *e)
{
    shape_values a[SHAPES], b[SHAPES];
    const location end_a = location_of(&station_a);
    const shape_values turning = {all(0), all(0), all(-0.5), all(1)}, turned = {all(0), all(0), all(0.5), all(1)};
    real rule[SHAPES][3], column[3][3];
    e->beam = k;
    e->z = z;
    e->per_off = 1 / (z - M_PI * M_PI);
    shapes_at(k, z, e->per_off, &end_a, a);
    shapes_mirrored(k, z, a, b);
    for (int i = 0; i < SHAPES; i++) rules_of(k, z, &a[i], &b[i], rule[i]);
    rules_of(k, z, &turning, &turned, column[2]);
    for (int i = 0; i < 3; i++) {
        column[0][i] = rule[EVEN][i];
        column[1][i] = rule[ODD][i];
    }
    for (int i = 0; i < PLANES; i++) {
        const real bow = loads->bow[i];
        real right[3], unknown[3];
        e->share[SPREAD][i] = loads->spread[i] + (k->has_arc ? k->bow.spread * z * bow : all(0));
        e->share[POINT][i] = k->has_point ? loads->point[i] : all(0);
        e->share[KINK][i] = k->has_kink ? z * bow * k->bow.force : all(0);
        e->share[HALF_WAVE][i] = k->has_half_wave ? -k->bow.half_wave * (z * bow) : all(0);
        right[0] = k->spring_a.moment * loads->moment_a[i] + k->spring_a.slope * loads->slope_a[i];
        right[1] = k->spring_b.moment * loads->moment_b[i] + k->spring_b.slope * loads->slope_b[i];
        right[2] = k->free_b ? -z * bow * k->bow.slope_b - (k->has_point ? all(0) : loads->point[i]) : all(0);
        for (int shape = SPREAD; shape < SHAPES; shape++)
            for (int j = 0; j < 3; j++) right[j] -= e->share[shape][i] * rule[shape][j];
        solve_three((const real(*)[3])column, right, unknown);
        e->share[EVEN][i] = unknown[0];
        e->share[ODD][i] = unknown[1];
        e->turn[i] = unknown[2];
        e->offset[i] = -movement_of(e, i, end_a.t, a); /* the movement is 0 at A */
    }
}

/* ---- along the tube ------------------------------------------------------------------------------------ */

INLINE void moments_of(const equilibrium *e, const shape_values v[SHAPES], moments *out)
{
    for (int i = 0; i < PLANES; i++) {
        out->m[i] = sum_of_shapes(e, i, v[EVEN].m, v[ODD].m, v[SPREAD].m, v[POINT].m, v[KINK].m, v[HALF_WAVE].m);
        out->dm[i] = sum_of_shapes(e, i, v[EVEN].dm, v[ODD].dm, v[SPREAD].dm, v[POINT].dm, v[KINK].dm, v[HALF_WAVE].dm);
    }
}

INLINE void moments_by_waves(const equilibrium *e, const location *at, wave about, moments *out)
{
    shape_values v[SHAPES];
    shape_moments(e->beam, e->z, e->per_off, at, about, v);
    moments_of(e, v, out);
}

INLINE void moments_at(const equilibrium *e, const location *at, moments *out)
{
    moments_by_waves(e, at, waves_about_middle(e->z, at->t), out);
}

/* Returned: w, dw  movement and slope */
INLINE void movements_of(const equilibrium *e, real t, const shape_values v[SHAPES], real w[PLANES], real dw[PLANES])
{
    for (int i = 0; i < PLANES; i++) {
        w[i] = e->offset[i] + movement_of(e, i, t, v);
        dw[i] = e->turn[i]
            + sum_of_shapes(e, i, v[EVEN].dw, v[ODD].dw, v[SPREAD].dw, v[POINT].dw, v[KINK].dw, v[HALF_WAVE].dw);
    }
}

INLINE void movements_at(const equilibrium *e, const location *at, real w[PLANES], real dw[PLANES])
{
    shape_values v[SHAPES];
    shapes_at(e->beam, e->z, e->per_off, at, v);
    movements_of(e, at->t, v, w, dw);
}

/* m'' from the equation. */
INLINE real bend_of(const equilibrium *e, int plane, real m, real cosine)
{
    return e->share[HALF_WAVE][plane] * cosine - (e->z * m + e->share[SPREAD][plane]);
}

/* The derivative of m two orders higher, by the same equation. Given: d  m' or m''; wave  that derivative of cos(pi t) */
INLINE real next_bend_of(const equilibrium *e, int plane, real d, real wave_derivative)
{
    return e->share[HALF_WAVE][plane] * wave_derivative - e->z * d;
}

#endif
