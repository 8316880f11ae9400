/* glances_at and nodes_at for one width of vector instructions. The file that includes this names them, VERSION(name),
 * and says how many load factors or places go side by side, LANES, and how the machine chooses between them. Written as
 * if for one, so no width rounds otherwise than another. */
#include "engine/wide.h"
#include "engine/stress.h"
#include "engine/waves.h"

#include <float.h>
#include <gsl/gsl_math.h>
#include <string.h>

typedef double lanes __attribute__((vector_size(LANES * sizeof(double))));
typedef LANES_MASK mask; /* what a comparison tells of each lane */

#define INLINE static inline __attribute__((always_inline))

INLINE lanes all(double x)
{
    return x - (lanes){0};
}

INLINE lanes chosen(mask m, lanes a, lanes b)
{
    return LANES_CHOSEN(m, a, b);
}

INLINE mask less(lanes a, lanes b)
{
    return LANES_LESS(a, b);
}

/* b where one is not a number */
INLINE lanes larger_of(lanes a, lanes b)
{
    return LANES_LARGER(a, b);
}

INLINE lanes smaller_of(lanes a, lanes b)
{
    return LANES_SMALLER(a, b);
}

/* A bit for each lane. */
INLINE unsigned bits_of(mask m)
{
    return (unsigned)LANES_BITS(m);
}

INLINE lanes root_of(lanes a)
{
    for (int i = 0; i < LANES; i++) a[i] = sqrt(a[i]);
    return a;
}

/* As eight_terms. */
INLINE lanes power_series(const double c[8], lanes w)
{
    const lanes square = w * w;
    return (c[0] + c[1] * w) + square * (c[2] + c[3] * w)
        + square * square * ((c[4] + c[5] * w) + square * (c[6] + c[7] * w));
}

/* ---- equilibrium ------------------------------------------------------------------------------------- */

typedef struct smooth_lanes { /* see smooth.h */
    lanes c0, c1, c2, c3, c4;
} smooth_lanes;

/* From their series at z/64, 0.62 at most, by twice the angle three times:
 *     c1(4w) = c0 c1     c2(4w) = c1^2/2     c3(4w) = (c2 + c0 c3)/4     c4(4w) = c3 (1 + c1)/8
 * No sine is asked; next to buckling smooth_at is more exact. */
INLINE smooth_lanes smooth_of(lanes z)
{
    static const double odd[] = SMOOTH_C3, even[] = SMOOTH_C4;
    const lanes w = z * (1.0 / 64);
    lanes c3 = power_series(odd, w), c4 = power_series(even, w);
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

typedef struct field_lanes { /* wave_field, a plane each; z k besides */
    lanes constant[2], second[2], spread[2], j[2], k[2], zk[2], bow[2];
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

/* Of a load at 1 - t. */
INLINE rule rule_of(const rbow_prepared *p, double t, lanes z)
{
    const smooth_lanes s = smooth_of(z * (t * t));
    return (rule){-p->hold_b[0] * t * s.c1 - p->hold_b[1] * t * t * s.c2, beam_is_free(p) ? all(1) : t * t * t * s.c3};
}

INLINE void sum_up(glimpse *g)
{
    field_lanes *f = &g->field;
    for (int i = 0; i < 2; i++) {
        f->j[i] = 2 * (f->constant[i] * g->z + f->spread[i]);
        f->k[i] = 2 * f->second[i];
        f->zk[i] = g->z * f->k[i];
    }
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
    const bool freely = beam_is_free(p), sine = shape == RBOW_BOW_SINE, kink = shape == RBOW_BOW_KINK;
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
        const lanes force = f->has_point ? g->factor * (run->point_load[i] * (length * per_unit)) : none;
        lanes load = g->factor * (run->spread_load[i] * (length * length * per_unit));
        if (shape == RBOW_BOW_ARC) load += z * (8 * bow);
        const lanes bend = kink ? z * (bow * beam_kink(p)) : none;

        lanes at_a = g->factor * (run->moment_a[i] * (a * per_unit)) + built->slope_a[i] * r;
        lanes at_b = g->factor * (run->moment_b[i] * (b * per_unit)) + built->slope_b[i] * q;
        lanes aside = none;
        if (freely) aside = (point ? none : -force) - z * (bow * beam_bow_slope_at_b(p));
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
    sum_up(g);
}

/* ---- along the tube ---------------------------------------------------------------------------------- */

typedef struct half_lanes { /* half_wave */
    lanes sine, cosine;
} half_lanes;

INLINE half_lanes half_over(lanes z, lanes x)
{
    static const double odd[] = HALF_WAVE_SINE, even[] = HALF_WAVE_COSINE;
    const lanes w = z * x * x * 0.25;
    return (half_lanes){0.5 * x * power_series(odd, w), power_series(even, w)};
}

INLINE half_lanes half_on(lanes z, half_lanes x, half_lanes y)
{
    return (half_lanes){x.sine * y.cosine + x.cosine * y.sine, x.cosine * y.cosine - z * (x.sine * y.sine)};
}

typedef struct node_lanes { /* the moment and its slope at one place, the square and half its slope */
    lanes value[2], slope[2], square, rise;
} node_lanes;

/* Given: sine, cosine  of pi xi; idle where the bow is no half wave */
INLINE void look(const glimpse *g, const half_lanes *h, lanes sine, lanes cosine, node_lanes *n)
{
    const field_lanes *f = &g->field;
    const bool bowed = g->frame->ready.beam.bow_shape == RBOW_BOW_SINE;
    const lanes square = h->sine * h->sine, product = h->sine * h->cosine;
    for (int i = 0; i < 2; i++) {
        n->value[i] = f->constant[i] + product * f->k[i] - square * f->j[i];
        n->slope[i] = f->second[i] - square * f->zk[i] - product * f->j[i];
        if (!bowed) continue;
        n->value[i] += f->bow[i] * sine;
        n->slope[i] += f->bow[i] * (M_PI * cosine);
    }
    n->square = n->value[0] * n->value[0] + n->value[1] * n->value[1];
    n->rise = n->value[0] * n->slope[0] + n->value[1] * n->slope[1];
}

typedef struct turn { /* the cell that holds the square's top, of each lane its own */
    lanes high, second;        /* the square at the higher of its ends; the same of the next; below 0 for none */
    half_lanes left;           /* at the cell's left end */
    lanes sine, cosine;        /* of pi xi there */
    lanes rise, fall;          /* half the square's slope at both ends */
} turn;

/* The top of the square near a place: where g, half its slope, is 0 by the series of g turned about, and the square's own
 * series there. What a step u leaves is of the order u^5, and u is about 0.02 radians. */
INLINE lanes top_near(const lanes moment[2][5], double most)
{
    const lanes none = all(0);
    lanes square = none, g = none, g1 = none, g2 = none, g3 = none;
    for (int i = 0; i < 2; i++) {
        const lanes *d = moment[i];
        square += d[0] * d[0];
        g += d[0] * d[1];
        g1 += d[1] * d[1] + d[0] * d[2];
        g2 += 3 * d[1] * d[2] + d[0] * d[3];
        g3 += 3 * d[2] * d[2] + 4 * d[1] * d[3] + d[0] * d[4];
    }
    const lanes per = 1 / g1, u = -g * per, a = 0.5 * g2 * per, b = (1.0 / 6) * g3 * per;
    const lanes step = u - u * u * (a - u * (2 * a * a - b));
    const mask down = less(g1, none), near = less(all(-most), step) & less(step, all(most));
    const lanes s = chosen(down & near, step, none);
    return square + 2 * s * (g + s * (0.5 * g1 + s * ((1.0 / 6) * g2 + s * (1.0 / 24) * g3)));
}

/* The squares' tops, beside where the straight line through the slopes turns. */
INLINE void take_tops(const glimpse *g, const turn *t, double cell, lanes *most)
{
    const frame *f = g->frame;
    const bool bowed = f->ready.beam.bow_shape == RBOW_BOW_SINE;
    const lanes z = g->z, none = all(0), way = cell * (t->rise / (t->rise - t->fall));
    const half_lanes h = half_on(z, t->left, half_over(z, way));
    lanes sine = none, cosine = none, moment[2][5];
    if (bowed) {
        const half_lanes on = half_over(all(4 * M_PI * M_PI), way); /* of the whole angle */
        sine = t->sine * on.cosine + t->cosine * (2 * M_PI) * on.sine;
        cosine = t->cosine * on.cosine - t->sine * (2 * M_PI) * on.sine;
    }
    node_lanes n;
    look(g, &h, sine, cosine, &n);
    for (int i = 0; i < 2; i++) {
        const lanes source = z * (bowed ? f->built.bow[i] * f->ready.per_length * (M_PI * M_PI) : 0);
        moment[i][0] = n.value[i];
        moment[i][1] = n.slope[i];
        moment[i][2] = -(z * n.value[i] + g->field.spread[i] + source * sine);
        moment[i][3] = -(z * n.slope[i] + source * (M_PI * cosine));
        moment[i][4] = -(z * moment[i][2] - source * (M_PI * M_PI * sine));
    }
    *most = larger_of(chosen(less(none, t->high), top_near(moment, cell / 4), none), *most);
}

INLINE void take_load(glimpse *g, const half_lanes *here, const lanes force[2])
{
    for (int i = 0; i < 2; i++) {
        g->field.constant[i] += force[i] * (2 * here->sine * here->cosine);
        g->field.second[i] -= force[i] * (1 - 2 * g->z * (here->sine * here->sine));
    }
    sum_up(g);
}

/* What acts where a piece begins joins the waves. Returned: whether something does */
INLINE bool take_loads_of(glimpse *g, const half_lanes *here, const piece *p)
{
    if (p->point) take_load(g, here, g->force);
    if (p->kink) take_load(g, here, g->kink);
    return p->point || p->kink;
}

/* Given:    here   the half wave at the piece's start
 *           step   of one of its cells
 *           n      what is there, unless fresh; of the piece before
 *           most   the largest square of its zone so far
 * Returned: the lanes where one top is the highest for sure: a node is 0.88 of the top beside it at least */
INLINE mask search_piece(const glimpse *g, const piece *p, half_lanes *here, half_lanes step, node_lanes *n, bool fresh,
                         lanes *most)
{
    const places *at = &g->frame->places;
    const lanes turned = g->z * step.sine, none = all(0);
    half_lanes before = *here;
    lanes rise = none, square = none;
    turn t = {.high = all(-1), .second = all(-1), .rise = all(1), .fall = all(-1)};
    for (int i = 0; i < p->count; i++) {
        const double *sine = &at->whole_sine[p->first + i], *cosine = &at->whole_cosine[p->first + i];
        const int left = i > 0 ? -1 : 0;
        if (i > 0) { /* half_on, with z times the step's sine known: every place waits for the one before */
            here->sine = before.sine * step.cosine + before.cosine * step.sine;
            here->cosine = before.cosine * step.cosine - before.sine * turned;
        }
        if (i > 0 || fresh) look(g, here, all(*sine), all(*cosine), n);
        *most = larger_of(n->square, *most);
        const lanes high = chosen(less(none, rise) & less(n->rise, none), larger_of(square, n->square), all(-1));
        const mask higher = less(t.high, high);
        t.second = larger_of(smaller_of(high, t.high), t.second);
        t.high = larger_of(high, t.high);
        t.left.sine = chosen(higher, before.sine, t.left.sine);
        t.left.cosine = chosen(higher, before.cosine, t.left.cosine);
        t.sine = chosen(higher, all(sine[left]), t.sine);
        t.cosine = chosen(higher, all(cosine[left]), t.cosine);
        t.rise = chosen(higher, rise, t.rise);
        t.fall = chosen(higher, n->rise, t.fall);
        rise = n->rise;
        square = n->square;
        before = *here;
    }
    if (bits_of(less(none, t.high)) != 0) take_tops(g, &t, p->cell, most);
    return LANES_NOT(less(0.75 * t.high, t.second));
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

/* To resonance of a half-wave bow, z = pi^2: there its pinned answer is a million bows, and six digits cancel. To
 * buckling, as a share of the critical load: there six digits of the end rules do. */
static const double too_near = 1e-4, too_near_buckling = 1e-6;

INLINE void glance_side_by_side(const frame *f, double tension, const double factor[LANES], glances *out, int first)
{
    const rbow_prepared *p = &f->ready;
    glimpse g = {.frame = f};
    for (int i = 0; i < LANES; i++) g.factor[i] = factor[i];
    g.axial = g.factor * f->member.compression - tension;
    g.z = g.axial * p->per_unit * p->beam.length;
    settle(&g);

    const lanes off = M_PI * M_PI - g.z;
    const mask stands = less(g.axial, all(f->critical_load));
    mask serve = less(all(SHAPES_TENSION_FROM), g.z) & less(g.axial, all(f->critical_load * (1 - too_near_buckling)));
    if (p->beam.bow_shape == RBOW_BOW_SINE) serve &= less(all(too_near), off) | less(off, all(-too_near));

    half_lanes here = {all(0), all(1)}, step[2];
    double span[2] = {-1, -1};
    lanes square[2] = {all(-1), all(-1)};
    bool there[2] = {false, false};
    node_lanes n;
    for (int i = 0; i < f->piece_count; i++) {
        const piece *on = &f->pieces[i];
        if (fabs(on->cell - span[on->zone]) > 1e-15) {
            span[on->zone] = on->cell;
            step[on->zone] = half_over(g.z, all(on->cell));
        }
        there[on->zone] = true;
        const bool fresh = take_loads_of(&g, &here, on) || i == 0;
        serve &= search_piece(&g, on, &here, step[on->zone], &n, fresh, &square[on->zone]);
    }

    lanes use = all(-1), bent = all(-1);
    for (int i = 0; i < 2; i++) {
        if (!there[i]) continue;
        judge_zone(&g, i, square[i], &use, &bent);
        serve &= less(all(-1), square[i]) & less(square[i], all(DBL_MAX)); /* what is not a number falls out */
    }
    bent = chosen(stands, bent + g.axial / f->column_load, all((double)INFINITY));
    use = chosen(stands, use, all((double)INFINITY));
    serve |= LANES_NOT(stands);
    const lanes either = larger_of(use, bent);
    const unsigned served = bits_of(serve);
    for (int i = 0; i < LANES; i++) {
        out->level[LEVEL_USE][first + i] = use[i];
        out->level[LEVEL_INTERACTION][first + i] = bent[i];
        out->level[LEVEL_EITHER][first + i] = either[i];
        out->serve[first + i] = served >> i & 1;
    }
}

void VERSION(glances_at)(const frame *f, double tension, const double factor[GLANCES], glances *out)
{
    for (int i = 0; i < GLANCES; i += LANES) glance_side_by_side(f, tension, &factor[i], out, i);
}

/* ---- many places at one load factor ------------------------------------------------------------------- */

INLINE lanes load(const double from[LANES])
{
    lanes a;
    memcpy(&a, from, sizeof a);
    return a;
}

INLINE void store(lanes a, double to[LANES])
{
    memcpy(to, &a, sizeof a);
}

/* From their series at an eighth of the way, z x^2/4 = 0.16 at most there, by twice the way three times: no place waits
 * for the one before. Measured: 4.4 us a check, 4.6 with waves that ran from place to place. */
void VERSION(half_waves_at)(double axial, const places *at, int count, half_waves *out)
{
    const lanes z = all(axial);
    for (int first = 0; first < count; first += LANES) {
        half_lanes h = half_over(z, 0.125 * load(&at->xi[first]));
        for (int i = 0; i < 3; i++) h = (half_lanes){2 * (h.sine * h.cosine), 1 - 2 * z * (h.sine * h.sine)};
        store(h.sine, &out->sine[first]);
        store(h.cosine, &out->cosine[first]);
    }
}

typedef struct group { /* of places, side by side */
    lanes square, rise, curve;
} group;

/* As jet_of_field and jet_of_field_movement, which say what is what. */
INLINE void group_at(const wave_field *f, const places *at, const half_waves *waves, int first, bool movement, group *out)
{
    const lanes half_sine = load(&waves->sine[first]), half_cosine = load(&waves->cosine[first]), xi = load(&at->xi[first]);
    const lanes sine = load(&at->whole_sine[first]), cosine = M_PI * load(&at->whole_cosine[first]);
    const lanes halved = half_sine * half_sine, product = half_sine * half_cosine;
    *out = (group){all(0), all(0), all(0)};
    for (int i = 0; i < 2; i++) {
        lanes m = f->constant[i] + f->k[i] * product - f->j[i] * halved + f->bow[i] * sine;
        lanes slope = f->second[i] - f->k[i] * f->load * halved - f->j[i] * product + f->bow[i] * cosine;
        lanes bend = -(m * f->load + f->spread[i] + f->source[i] * sine);
        if (movement) {
            const double per_load = 1 / f->load, bow = f->source[i] * (per_load / (M_PI * M_PI));
            bend = -m;
            m = (m - (f->start[i] + f->line[i] * xi - f->spread[i] * (xi * xi * 0.5))) * per_load - bow * sine;
            slope = (slope - (f->line[i] - f->spread[i] * xi)) * per_load - bow * cosine;
        }
        out->square += m * m;
        out->rise += m * slope;
        out->curve += slope * slope + m * bend;
    }
}

/* Where g, half the square's slope, falls to 0 or through it, or ends at the bottom of a valley; next to a place of no
 * size, whose sign is rounding; and where its points of control, or its turn inside, leave room for two changes. So the
 * highest of a row of places is beside such a cell, or at an end.
 * Given: n, after  places and those that follow them */
INLINE unsigned turns_in(const group *n, const group *after, lanes cell)
{
    const lanes none = all(0), third = cell * (1.0 / 3), slight = all(1e-18), flat = all(1e-12);
    const lanes a = n->square, b = LANES_NEXT(n->square, after->square);
    const lanes rise = n->rise, fall = LANES_NEXT(n->rise, after->rise);
    const lanes curve = n->curve, bend = LANES_NEXT(n->curve, after->curve);
    const mask rises = less(none, rise) | (LANES_NOT(less(rise, -flat * a)) & less(none, curve));
    const mask falls = LANES_NOT(less(none, fall)) | (LANES_NOT(less(flat * b, fall)) & less(none, bend));
    const mask inside = less(rise * curve, none) & less(none, fall * bend);
    const mask leaves = less((rise + third * curve) * rise, none), comes = less((fall - third * bend) * fall, none);
    return bits_of(less(none, cell) & ((rises & falls) | less(a, slight * b) | less(b, slight * a)
                                       | (less(none, rise * fall) & (leaves | comes | inside))));
}

INLINE void store_group(const group *from, nodes *to, int first)
{
    store(from->square, &to->square[first]);
    store(from->rise, &to->rise[first]);
    store(from->curve, &to->curve[first]);
}

void VERSION(nodes_at)(const wave_field *f, const places *all, const half_waves *h, int from, int to, bool movement,
                       nodes *out)
{
    group here, before;
    int first = from;
    group_at(f, all, h, from, movement, &here);
    store_group(&here, out, from);
    out->turns = 0;
    while (first + LANES < to) {
        before = here;
        group_at(f, all, h, first + LANES, movement, &here);
        store_group(&here, out, first + LANES);
        out->turns |= turns_in(&before, &here, load(&all->cell[first])) << first;
        first += LANES;
    }
    out->turns |= turns_in(&here, &here, load(&all->cell[first])) << first;
    out->turns &= (1u << (to - 1)) - 1;
}
