/* An upper bound of the square of a vector between two positions, from its values at both. The search for maxima uses it,
 * for one number or for several at once.
 *
 * f(t) is the vector (moment or movement, a component a plane), F = f.f and g = F'/2 = f.f'. On a cell of width h
 * sizes[k] bounds |f^(k)| (k-th derivative), so
 *     |g'''|  <= B3 = 3 s2^2 + 4 s1 s3 + s0 s4           (F'''' = 2 g''')
 *     |g''''| <= B4 = 10 s2 s3 + 5 s1 s4 + s0 s5
 * Three bounds are valid; the smallest counts:
 *   values     F lies below the control points of the cubic through values and slopes at both ends, plus the cubic's
 *              error h^4/384 max|F''''|
 *   monotone   where the control points of g's own cubic have one sign beyond its error h^4/384 B4, F has its maximum
 *              at an end
 *   one end    from an end, with s the distance into the cell and g seen into the cell, F <= F_end + 2 (g s + b s^2),
 *              where b is the larger of g'/2 and g'/2 + g'' h/6 + B3 h^2/24: Taylor's series with Lagrange's remainder, whose
 *              bracket is convex in s and so largest at either end of the cell. Where b < 0 the square rises by
 *              g^2/(-2b) at most, and not at all where g <= 0
 * Source of the cubic's error: Hermite interpolation, derived here from Rolle's theorem. */
#ifndef RAILBOW_CHECK_MAXIMUM_BODY_H
#define RAILBOW_CHECK_MAXIMUM_BODY_H

#include "check/along.h"
#include "mechanics/beamcolumn_body.h"

enum { SIZES = 6 };

typedef struct node { /* at one position: F, g = F'/2, and g', g'' */
    real square, g, g1, g2;
} node;

typedef struct cell_bounds { /* of one cell, or of many of the same width */
    real h, square_error, b3, g_error;
} cell_bounds;

/* Given: f, f1, f2, f3  the vector and its derivatives */
INLINE node node_of(const real f[2], const real f1[2], const real f2[2], const real f3[2])
{
    node n = {all(0), all(0), all(0), all(0)};
    for (int i = 0; i < 2; i++) {
        n.square += f[i] * f[i];
        n.g += f[i] * f1[i];
        n.g1 += f1[i] * f1[i] + f[i] * f2[i];
        n.g2 += 3 * f1[i] * f2[i] + f[i] * f3[i];
    }
    return n;
}

INLINE cell_bounds cell_bounds_of(const real s[SIZES], real h)
{
    const real h2 = h * h, h4 = h2 * h2;
    const real b3 = 3 * s[2] * s[2] + 4 * s[1] * s[3] + s[0] * s[4];
    const real b4 = 10 * s[2] * s[3] + 5 * s[1] * s[4] + s[0] * s[5];
    return (cell_bounds){h, h4 * b3 * (2.0 / 384), b3, h4 * b4 * (1.0 / 384)};
}

/* Allowance for rounding and for a slope near 0; it is far below the accuracy that maximum.h states. */
static const double slight = 1e-12;

/* The bound from one end of the cell; infinite if it gives none. Given: g, g2  seen into the cell */
INLINE real bound_from_end(const cell_bounds *c, real square, real g, real g1, real g2)
{
    const real near = 0.5 * g1, far = near + c->h * (1.0 / 6) * g2 + c->h * c->h * (1.0 / 24) * c->b3;
    const real b = larger(near, far), room = -2 * slight * square * b; /* the square can rise by g^2/(-2b) at most */
    const mask falls = less(b, all(0)) & (less(g, all(0)) | MASK_NOT(less(room, g * g)));
    return choose(falls, square * (1 + slight), all((double)INFINITY));
}

/* Given: a, b  the nodes at both ends. Returned: an upper bound of F in the cell */
INLINE real bound_of_cell(const cell_bounds *c, const node *a, const node *b)
{
    const real third = c->h * (1.0 / 3), ends = larger(a->square, b->square);
    const real cubic = larger(ends, larger(a->square + 2 * third * a->g, b->square - 2 * third * b->g)) + c->square_error;
    const real g_a = a->g + third * a->g1, g_b = b->g - third * b->g1;
    const real least = smaller(smaller(a->g, b->g), smaller(g_a, g_b)) - c->g_error;
    const real most = larger(larger(a->g, b->g), larger(g_a, g_b)) + c->g_error;
    const real monotone = choose(less(least * most, all(0)), all((double)INFINITY), ends);
    const real from_a = bound_from_end(c, a->square, a->g, a->g1, a->g2);
    const real from_b = bound_from_end(c, b->square, -b->g, b->g1, -b->g2);
    return smaller(smaller(cubic, monotone), smaller(from_a, from_b));
}

/* ---- the moment and the movement ------------------------------------------------------------------------- */

typedef struct place { /* values at one position of the vector f that is searched */
    node node;
    real f[PLANES], df[PLANES];
    real m, dm, size, slope; /* bounds on the lengths of the moment, its slope, f and its slope */
} place;

/* An upper bound of the length of the vector, at most an eighth too large. */
INLINE real length_bound(const real v[PLANES])
{
    const real a = size(v[UP]), b = size(v[RIGHT]);
    return larger(a, b) + 0.5 * smaller(a, b);
}

/* The moment at a position. Given: m  its values */
INLINE void look_at_moments(const equilibrium *e, const location *at, const moments *m, place *p)
{
    real d2[PLANES], d3[PLANES];
    p->m = p->size = length_bound(m->m);
    p->dm = p->slope = length_bound(m->dm);
    for (int i = 0; i < PLANES; i++) {
        p->f[i] = m->m[i];
        p->df[i] = m->dm[i];
        d2[i] = bend_of(e, i, m->m[i], at->cosine);
        d3[i] = next_bend_of(e, i, m->dm[i], -M_PI * at->sine);
    }
    p->node = node_of(p->f, p->df, d2, d3);
}

/* The movement at a position: w'' = -m. */
INLINE void look_at_movements(const equilibrium *e, const location *at, place *p)
{
    shape_values v[SHAPES];
    moments m;
    real d2[PLANES], d3[PLANES];
    shapes_at(e->beam, e->z, e->per_off, at, v);
    moments_of(e, v, &m);
    movements_of(e, at->t, v, p->f, p->df);
    p->m = length_bound(m.m);
    p->dm = length_bound(m.dm);
    p->size = length_bound(p->f);
    p->slope = length_bound(p->df);
    for (int i = 0; i < PLANES; i++) {
        d2[i] = -m.m[i];
        d3[i] = -m.dm[i];
    }
    p->node = node_of(p->f, p->df, d2, d3);
}

INLINE void look_at(const equilibrium *e, const location *at, quantity what, place *p)
{
    moments m;
    if (what == MOVEMENT) {
        look_at_movements(e, at, p);
        return;
    }
    moments_at(e, at, &m);
    look_at_moments(e, at, &m, p);
}

/* Bounds of the moment and its derivatives in a cell, from |m| <= its ends + h^2/8 max|m''| and the equation
 * m'' = -z m - q + k cos(pi t). They are infinite if the cell is too wide for the wave. */
typedef struct cell_waves { /* values that the bounds share in all cells of one width */
    real h, z, share, bow, per_left; /* share: of the spread load and the bow */
} cell_waves;

INLINE cell_waves cell_waves_of(const equilibrium *e, real h)
{
    const real z = size(e->z), left = 1 - z * h * h * 0.125;
    const real bow = e->beam->has_half_wave ? length_bound(e->share[HALF_WAVE]) : all(0);
    return (cell_waves){h, z, length_bound(e->share[SPREAD]) + bow, bow,
                        choose(less(all(0.25), left), 1 / left, all((double)INFINITY))};
}

/* Of the moment. Given: ends  the larger of its bounds at the ends. Returned: bend  of its second derivative */
INLINE real moment_bound(const cell_waves *w, real ends, real *bend)
{
    *bend = (w->z * ends + w->share) * w->per_left;
    return ends + w->h * w->h * 0.125 * *bend;
}

INLINE void moment_sizes(const cell_waves *w, const place *a, const place *b, real s[SIZES])
{
    const real h = w->h, z = w->z, bow = w->bow;
    s[0] = moment_bound(w, larger(a->m, b->m), &s[2]);
    s[1] = larger(a->dm, b->dm) + h * 0.5 * s[2];
    s[3] = z * s[1] + M_PI * bow;
    s[4] = z * s[2] + (M_PI * M_PI) * bow;
    s[5] = z * s[3] + (M_PI * M_PI * M_PI) * bow;
}

/* Given: s  the moment's. Returned: s  the movement's, whose second derivative is the moment */
INLINE void movement_sizes(const place *a, const place *b, real h, real s[SIZES])
{
    for (int k = SIZES - 1; k >= 2; k--) s[k] = s[k - 2];
    s[1] = larger(a->slope, b->slope) + h * 0.5 * s[2];
    s[0] = larger(a->size, b->size) + h * h * 0.125 * s[2];
}

INLINE real highest_in_cell(const cell_waves *w, quantity what, const place *a, const place *b)
{
    real s[SIZES];
    moment_sizes(w, a, b, s);
    if (what == MOVEMENT) movement_sizes(a, b, w->h, s);
    const cell_bounds c = cell_bounds_of(s, w->h);
    return bound_of_cell(&c, &a->node, &b->node);
}

/* The zero of the cubic through the slopes g at both ends and their derivatives, as a share of the cell, if F changes from
 * rising to falling. The middle, if Newton's method does not converge to a zero at which g falls. */
INLINE real zero_of_slope(const node *a, const node *b, real h)
{
    const real c1 = h * a->g1, d = b->g - a->g, c2 = 3 * d - h * (2 * a->g1 + b->g1), c3 = h * (a->g1 + b->g1) - 2 * d;
    real u = a->g / (a->g - b->g), step = all(1), slope = all(0);
    for (int i = 0; i < 3; i++) {
        slope = c1 + u * (2 * c2 + u * 3 * c3);
        step = (a->g + u * (c1 + u * (c2 + u * c3))) / slope;
        u = smaller(larger(u - step, all(1e-4)), all(1 - 1e-4));
    }
    return choose(less(slope, all(0)) & less(size(step), all(0.05)), u, all(0.5));
}

#endif
