/* glances_at for one width of vector instructions: the file that includes this names it, GLANCES_AT, and says how many
 * load factors go side by side, LANES. Written as if for one, so no width rounds otherwise than another. */
#include "engine/glances.h"
#include "engine/stress.h"
#include "engine/waves.h"

#include <float.h>
#include <gsl/gsl_math.h>

typedef double lanes __attribute__((vector_size(LANES * sizeof(double))));
typedef long long mask __attribute__((vector_size(LANES * sizeof(long long))));

#define INLINE static inline __attribute__((always_inline))

INLINE lanes all(double x)
{
    return x - (lanes){0};
}

INLINE lanes chosen(mask m, lanes a, lanes b)
{
    return (lanes)((m & (mask)a) | (~m & (mask)b));
}

INLINE lanes larger_of(lanes a, lanes b)
{
    return chosen(a > b, a, b);
}

INLINE bool any(mask m)
{
    long long some = 0;
    for (int i = 0; i < LANES; i++) some |= m[i];
    return some != 0;
}

INLINE lanes root_of(lanes a)
{
    for (int i = 0; i < LANES; i++) a[i] = sqrt(a[i]);
    return a;
}

/* ---- equilibrium ------------------------------------------------------------------------------------- */

typedef struct smooth_lanes { /* see smooth.h */
    lanes c0, c1, c2, c3, c4;
} smooth_lanes;

/* From their series at z/64, 0.62 at most, by twice the angle three times:
 *     c1(4w) = c0 c1     c2(4w) = c1^2/2     c3(4w) = (c2 + c0 c3)/4     c4(4w) = c3 (1 + c1)/8  */
INLINE smooth_lanes smooth_of(lanes z)
{
    static const double odd[] = {1.0 / 6,          -1.0 / 120,          1.0 / 5040,         -1.0 / 362880,
                                 1.0 / 39916800.0, -1.0 / 6227020800.0, 1.0 / 1307674368e3, -1.0 / 355687428096e3};
    static const double even[] = {1.0 / 24,          -1.0 / 720,           1.0 / 40320,          -1.0 / 3628800,
                                  1.0 / 479001600.0, -1.0 / 87178291200.0, 1.0 / 20922789888e3,  -1.0 / 6402373705728e3};
    const lanes w = z * (1.0 / 64);
    lanes c3 = all(odd[7]), c4 = all(even[7]);
    for (int k = 6; k >= 0; k--) {
        c3 = odd[k] + w * c3;
        c4 = even[k] + w * c4;
    }
    lanes c2 = 0.5 - w * c4, c1 = 1 - w * c3, c0 = 1 - w * c2;
    for (int i = 0; i < 3; i++) {
        c4 = c3 * (1 + c1) * 0.125;
        c3 = (c2 + c0 * c3) * 0.25;
        c2 = c1 * c1 * 0.5;
        c1 = c0 * c1;
        c0 = 1 - z * (i == 2 ? 1 : i == 1 ? 0.25 : 0.0625) * c2;
    }
    return (smooth_lanes){c0, c1, c2, c3, c4};
}

typedef struct field_lanes { /* wave_field, a plane each */
    lanes constant[2], second[2], spread[2], bow[2];
} field_lanes;

typedef struct glimpse { /* what all eight have in common, and what each is at */
    const frame *frame;
    lanes factor, axial, z;
    lanes force[2], kink[2]; /* shares of the loads that begin on the way */
    field_lanes field;
} glimpse;

typedef struct rule { /* of one shape at B: held and sideways, see end_rules */
    lanes held, sideways;
} rule;

INLINE bool is_free(const rbow_prepared *p)
{
    return end_is(p->beam.stiffness_b, RBOW_FREE);
}

/* Of a load at 1 - t. */
INLINE rule rule_of(const rbow_prepared *p, double t, lanes z)
{
    const smooth_lanes s = smooth_of(z * (t * t));
    return (rule){-p->hold_b[0] * t * s.c1 - p->hold_b[1] * t * t * s.c2, is_free(p) ? all(1) : t * t * t * s.c3};
}

/* As beam_load and beam_solve, which say what is what; the turn of the chord is not asked. */
INLINE void settle(glimpse *g)
{
    const frame *f = g->frame;
    const rbow_prepared *p = &f->ready;
    const loads *run = &f->run, *built = &f->built;
    const double a = p->hold_a[0], r = p->hold_a[1], b = p->hold_b[0], q = p->hold_b[1];
    const double length = p->beam.length, per_unit = p->per_unit;
    const rbow_bow_shape shape = p->beam.bow_shape;
    const bool freely = is_free(p), sine = shape == RBOW_BOW_SINE, kink = shape == RBOW_BOW_KINK;
    const bool point = f->has_point && p->point_at < 1;
    const lanes z = g->z, none = all(0);
    const smooth_lanes s = smooth_of(z);

    const rule first = {b * s.c0 + q * s.c1, freely ? none : -s.c2}, second = {b * s.c1 + q * s.c2, freely ? all(-1) : -s.c3};
    const rule turn = {all(-q), freely ? z : all(1)}, spread = {-b * s.c2 - q * s.c3, freely ? all(1) : s.c4};
    const rule at_point = point ? rule_of(p, 1 - p->point_at, z) : (rule){none, none};
    const rule at_kink = kink ? rule_of(p, 1 - p->bow_at, z) : (rule){none, none};
    const lanes amplitude = sine ? z / (M_PI * M_PI - z) * (M_PI * M_PI) : none;

    const lanes c0 = second.held * turn.sideways - turn.held * second.sideways;
    const lanes c1 = turn.held * first.sideways - first.held * turn.sideways;
    const lanes c2 = first.held * second.sideways - second.held * first.sideways;
    const lanes d = 1 / (a * c0 + r * c2);

    for (int i = 0; i < 2; i++) {
        const double bow = built->bow[i] * p->per_length;
        const lanes force = g->factor * (run->point_load[i] * (length * per_unit));
        lanes load = g->factor * (run->spread_load[i] * (length * length * per_unit));
        if (shape == RBOW_BOW_ARC) load += z * (8 * bow);
        const lanes bend = kink ? z * (bow * (1 / p->bow_at + 1 / (1 - p->bow_at))) : none;
        const double slope_b = sine ? -M_PI : kink ? -1 / (1 - p->bow_at) : -4;

        lanes at_a = g->factor * (run->moment_a[i] * (a * per_unit)) + built->slope_a[i] * r;
        lanes at_b = g->factor * (run->moment_b[i] * (b * per_unit)) + built->slope_b[i] * q;
        lanes aside = none;
        if (freely) aside = (point ? none : -force) - z * (bow * slope_b);
        at_b -= load * spread.held;
        aside -= load * spread.sideways;
        if (point) {
            at_b -= force * at_point.held;
            aside -= force * at_point.sideways;
        }
        if (kink) {
            at_b -= bend * at_kink.held;
            aside -= bend * at_kink.sideways;
        }
        if (sine) {
            const lanes wave = amplitude * (bow / M_PI);
            at_a -= r * wave;
            at_b -= q * wave;
            if (freely) aside -= z * (M_PI * bow);
        }
        g->field.constant[i] = d * (c0 * at_a + r * second.sideways * at_b - r * second.held * aside);
        g->field.second[i] = d * (c1 * at_a + (a * turn.sideways - r * first.sideways) * at_b
                                  + (r * first.held - a * turn.held) * aside);
        g->field.spread[i] = load;
        g->field.bow[i] = amplitude * bow;
        g->force[i] = force;
        g->kink[i] = bend;
    }
}

/* ---- along the tube ---------------------------------------------------------------------------------- */

typedef struct half_lanes { /* half_wave */
    lanes sine, cosine;
} half_lanes;

INLINE half_lanes half_over(lanes z, lanes x)
{
    static const double odd[] = HALF_WAVE_SINE, even[] = HALF_WAVE_COSINE;
    const lanes w = z * x * x * 0.25;
    lanes a = all(odd[HALF_WAVE_TERMS - 1]), b = all(even[HALF_WAVE_TERMS - 1]);
    for (int k = HALF_WAVE_TERMS - 2; k >= 0; k--) {
        a = odd[k] + w * a;
        b = even[k] + w * b;
    }
    return (half_lanes){0.5 * x * a, b};
}

INLINE half_lanes half_on(lanes z, half_lanes x, half_lanes y)
{
    return (half_lanes){x.sine * y.cosine + x.cosine * y.sine, x.cosine * y.cosine - z * (x.sine * y.sine)};
}

typedef struct node_lanes { /* the moment and its slope at one place, the square and half its slope */
    half_lanes here;
    lanes value[2], slope[2], square, rise;
} node_lanes;

/* Given: sine, cosine  of pi xi; idle where the bow is no half wave */
INLINE void look(const glimpse *g, const half_lanes *h, lanes sine, lanes cosine, node_lanes *n)
{
    const field_lanes *f = &g->field;
    const bool bowed = g->frame->ready.beam.bow_shape == RBOW_BOW_SINE;
    n->here = *h;
    for (int i = 0; i < 2; i++) {
        const lanes j = 2 * (f->constant[i] * g->z + f->spread[i]), k = 2 * f->second[i];
        n->value[i] = f->constant[i] + h->sine * (h->cosine * k - h->sine * j);
        n->slope[i] = f->second[i] - h->sine * (h->sine * g->z * k + h->cosine * j);
        if (!bowed) continue;
        n->value[i] += f->bow[i] * sine;
        n->slope[i] += f->bow[i] * (M_PI * cosine);
    }
    n->square = n->value[0] * n->value[0] + n->value[1] * n->value[1];
    n->rise = n->value[0] * n->slope[0] + n->value[1] * n->slope[1];
}

INLINE void look_at_spot(const glimpse *g, const half_lanes *h, const spot *at, node_lanes *n)
{
    look(g, h, all(2 * at->sine * at->cosine), all(1 - 2 * at->sine * at->sine), n);
}

/* The square's top in a cell: where the straight line through both slopes turns, two of Newton's steps, and the last by
 * Taylor's three terms. Lanes whose cell has none get what is of no use. */
INLINE lanes top_between(const glimpse *g, const node_lanes *left, const node_lanes *right, const spot *from, double span)
{
    const bool bowed = g->frame->ready.beam.bow_shape == RBOW_BOW_SINE;
    const lanes z = g->z, none = all(0);
    lanes way = span * (left->rise / (left->rise - right->rise)), square = none;
    for (int round = 0; round < 2; round++) {
        const half_lanes step = half_over(z, way), h = half_on(z, left->here, step);
        lanes sine = none, cosine = none;
        if (bowed) {
            const half_lanes turn = half_over(all(4 * M_PI * M_PI), way); /* of the whole angle */
            const double s = 2 * from->sine * from->cosine, c = 1 - 2 * from->sine * from->sine;
            sine = s * turn.cosine + c * (2 * M_PI) * turn.sine;
            cosine = c * turn.cosine - s * (2 * M_PI) * turn.sine;
        }
        node_lanes n;
        look(g, &h, sine, cosine, &n);
        lanes bends[2], curve = n.slope[0] * n.slope[0] + n.slope[1] * n.slope[1];
        for (int i = 0; i < 2; i++) {
            const lanes source = g->frame->built.bow[i] * g->frame->ready.per_length * (M_PI * M_PI) * z;
            bends[i] = -(z * n.value[i] + g->field.spread[i] + source * sine);
            curve += n.value[i] * bends[i];
        }
        const lanes ahead = chosen(curve < 0, -n.rise / curve, none);
        const lanes on = chosen((ahead > -span / 4) & (ahead < span / 4), ahead, none);
        square = none;
        for (int i = 0; i < 2; i++) {
            const lanes top = n.value[i] + on * (n.slope[i] + 0.5 * on * bends[i]);
            square += top * top;
        }
        way = larger_of(way + on, none);
        way = chosen(way < span, way, all(span));
    }
    return square;
}

INLINE void take_load(glimpse *g, const half_lanes *here, const lanes force[2])
{
    for (int i = 0; i < 2; i++) {
        g->field.constant[i] += force[i] * (2 * here->sine * here->cosine);
        g->field.second[i] -= force[i] * (1 - 2 * g->z * (here->sine * here->sine));
    }
}

/* What acts between two pieces joins the waves. */
INLINE void take_loads_at(glimpse *g, const half_lanes *here, double at)
{
    const rbow_prepared *p = &g->frame->ready;
    if (g->frame->has_point && at >= p->point_at && at <= p->point_at) take_load(g, here, g->force);
    if (p->beam.bow_shape == RBOW_BOW_KINK && at >= p->bow_at && at <= p->bow_at) take_load(g, here, g->kink);
}

/* Given: here   the half wave at the piece's start
 *        step   of one of its cells
 *        most   the largest square of its zone so far */
INLINE void search_piece(const glimpse *g, const piece *p, half_lanes *here, half_lanes step, lanes *most)
{
    const double span = (p->to - p->from) / (p->count - 1);
    node_lanes left, right;
    look_at_spot(g, here, &p->spots[0], &left);
    *most = larger_of(left.square, *most);
    for (int i = 1; i < p->count; i++) {
        const half_lanes next = half_on(g->z, left.here, step);
        look_at_spot(g, &next, &p->spots[i], &right);
        *most = larger_of(right.square, *most);
        const mask turns = (left.rise > 0) & (right.rise < 0);
        if (any(turns))
            *most = larger_of(chosen(turns, top_between(g, &left, &right, &p->spots[i - 1], span), all(0)), *most);
        left = right;
    }
    *here = left.here;
}

/* ---- the levels -------------------------------------------------------------------------------------- */

INLINE lanes with_shear(lanes direct, lanes shear, bool twisted)
{
    return twisted ? root_of(direct * direct + shear * shear) : direct;
}

/* As zone_stress and zone_interaction in stress.c. */
INLINE void judge_zone(const glimpse *g, int which, lanes square, lanes *use, lanes *bent)
{
    const zone *z = &g->frame->zones[which];
    const double torque = fabs(g->frame->member.torque);
    const bool twisted = torque > 0;
    const lanes bending = root_of(square) * z->stress_per_moment, axial = g->axial * z->stress_per_axial;
    const lanes shear = g->factor * (torque * z->stress_per_torque), none = all(0);
    const lanes pressed = with_shear(larger_of(axial + bending, none), shear, twisted);
    const lanes pulled = with_shear(larger_of(bending - axial, none), shear, twisted);
    *use = larger_of(larger_of(pressed * z->share_pressed, pulled * z->share_pulled), *use);
    *bent = larger_of(with_shear(bending, shear, twisted) * z->share_pressed, *bent);
}

INLINE void glance_side_by_side(const frame *f, double tension, const double factor[LANES], glances *out, int first)
{
    const rbow_prepared *p = &f->ready;
    glimpse g = {.frame = f};
    for (int i = 0; i < LANES; i++) g.factor[i] = factor[i];
    g.axial = g.factor * f->member.compression - tension;
    g.z = g.axial * p->per_unit * p->beam.length;
    settle(&g);

    const lanes off = M_PI * M_PI - g.z;
    mask serve = (g.axial < f->critical_load) & (g.z >= SHAPES_TENSION_FROM);
    if (p->beam.bow_shape == RBOW_BOW_SINE) serve &= (off > SHAPES_RESONANCE) | (off < -SHAPES_RESONANCE);

    half_lanes here = {all(0), all(1)}, step[2];
    double span[2] = {-1, -1};
    lanes square[2] = {all(-1), all(-1)};
    bool there[2] = {false, false};
    for (int i = 0; i < f->piece_count; i++) {
        const piece *on = &f->pieces[i];
        const double cell = (on->to - on->from) / (on->count - 1);
        if (fabs(cell - span[on->zone]) > 1e-15) {
            span[on->zone] = cell;
            step[on->zone] = half_over(g.z, all(cell));
        }
        there[on->zone] = true;
        take_loads_at(&g, &here, on->from);
        search_piece(&g, on, &here, step[on->zone], &square[on->zone]);
    }

    lanes use = all(-1), bent = all(-1);
    for (int i = 0; i < 2; i++) {
        if (!there[i]) continue;
        judge_zone(&g, i, square[i], &use, &bent);
        serve &= (square[i] >= 0) & (square[i] < DBL_MAX); /* what is not a number falls out */
    }
    bent += g.axial / f->column_load;
    for (int i = 0; i < LANES; i++) {
        out->level[LEVEL_USE][first + i] = use[i];
        out->level[LEVEL_INTERACTION][first + i] = bent[i];
        out->serve[first + i] = serve[i] != 0;
    }
}

GLANCES_SCOPE void GLANCES_AT(const frame *f, double tension, const double factor[GLANCES], glances *out)
{
    for (int i = 0; i < GLANCES; i += LANES) glance_side_by_side(f, tension, &factor[i], out, i);
}
