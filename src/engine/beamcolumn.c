#include "engine/beam.h"

#include "engine/ends.h"
#include "engine/shapes.h"
#include "engine/smooth.h"

#include <gsl/gsl_math.h>
#include <string.h>

static bool beam_is_sound(const rbow_beam *b)
{
    const bool free_b = end_is(b->stiffness_b, RBOW_FREE);
    return b->bending_stiffness > 0 && b->length > 0 && b->critical_load > 0
        && b->stiffness_a >= 0 && (free_b ? b->stiffness_a > 0 : b->stiffness_b >= 0) && b->point_at >= 0
        && b->point_at <= b->length && b->bow_at > 0 && b->bow_at < b->length;
}

/* ---- the end rules ------------------------------------------------------------------------------------ */

/* The three end rules:
 *     A   m + r w' = m_a + r alpha          B   m - r w' = m_b + r beta
 *     B held sideways   w = 0               B free   -m' + z (w' + y0') = -F(L)  */
typedef struct end_rules { /* as far as they act on each shape */
    double of[SHAPE_COUNT][3];
} end_rules;

static void rules_by_shapes(const rbow_prepared *p, end_rules *rules)
{
    static const spot at_a = {0, 0, 0, 1, 0, 1}, at_b = {1, 1, 1, 0, 0, -1};
    shapes ma, wa, mb, wb;
    shapes_at(p, &at_a, &ma, &wa);
    shapes_at(p, &at_b, &mb, &wb);
    for (int i = 0; i < SHAPE_COUNT; i++) {
        double *rule = rules->of[i];
        rule[0] = p->hold_a[0] * ma.value[i] + p->hold_a[1] * wa.slope[i];
        rule[1] = p->hold_b[0] * mb.value[i] - p->hold_b[1] * wb.slope[i];
        rule[2] = beam_is_free(p) ? -mb.slope[i] + p->load * wb.slope[i] : wb.value[i];
    }
}

static void set(double rule[3], double a, double b, double c)
{
    rule[0] = a;
    rule[1] = b;
    rule[2] = c;
}

/* Behind a load at 1 - t: m = -t c1, w = t^3 c3, w' = t^2 c2; on a free end -m' + z w' = c0 + z t^2 c2 = 1. */
static void rule_of_load(const rbow_prepared *p, double t, double rule[3])
{
    const smooth s = smooth_at(p->load * t * t);
    set(rule, 0, -p->hold_b[0] * t * s.c1 - p->hold_b[1] * t * t * s.c2, beam_is_free(p) ? 1 : t * t * t * s.c3);
}

/* The same rules written out for the shapes that start from A (shapes.c), where most of their values at the ends are 0
 * or 1: they are asked at every load factor. Measured:
 * 137 000 instructions a check with the general form, 127 000 so. */
static void rules_from_a(const rbow_prepared *p, end_rules *rules)
{
    const double z = p->load, a = p->hold_a[0], r = p->hold_a[1], b = p->hold_b[0], q = p->hold_b[1];
    const smooth s = smooth_at(z);
    const bool sine = p->beam.bow_shape == RBOW_BOW_SINE;
    const double c = sine ? p->sine_amplitude / M_PI : 0;
    set(rules->of[SHAPE_MOMENT_A], a, b * s.c0 + q * s.c1, beam_is_free(p) ? 0 : -s.c2);
    set(rules->of[SHAPE_SECOND], 0, b * s.c1 + q * s.c2, beam_is_free(p) ? -1 : -s.c3);
    set(rules->of[SHAPE_TURN], r, -q, beam_is_free(p) ? z : 1);
    set(rules->of[SHAPE_SPREAD], 0, -b * s.c2 - q * s.c3, beam_is_free(p) ? 1 : s.c4);
    set(rules->of[SHAPE_POINT], 0, 0, 0);
    set(rules->of[SHAPE_KINK], 0, 0, 0);
    if (p->point_at < 1) rule_of_load(p, 1 - p->point_at, rules->of[SHAPE_POINT]);
    if (p->beam.bow_shape == RBOW_BOW_KINK) rule_of_load(p, 1 - p->bow_at, rules->of[SHAPE_KINK]);
    set(rules->of[SHAPE_SINE], r * c, q * c, sine && beam_is_free(p) ? z * M_PI : 0);
}

/* Three equations for every solve of a tube, a column each unknown: by cofactors, since they are solved many times a
 * member. */
static void invert(double m[][3], double inverse[9])
{
    const double c0 = m[1][1] * m[2][2] - m[2][1] * m[1][2];
    const double c1 = m[2][1] * m[0][2] - m[0][1] * m[2][2];
    const double c2 = m[0][1] * m[1][2] - m[1][1] * m[0][2];
    const double d = 1 / (m[0][0] * c0 + m[1][0] * c1 + m[2][0] * c2);
    inverse[0] = d * c0;
    inverse[1] = d * (m[2][0] * m[1][2] - m[1][0] * m[2][2]);
    inverse[2] = d * (m[1][0] * m[2][1] - m[2][0] * m[1][1]);
    inverse[3] = d * c1;
    inverse[4] = d * (m[0][0] * m[2][2] - m[2][0] * m[0][2]);
    inverse[5] = d * (m[2][0] * m[0][1] - m[0][0] * m[2][1]);
    inverse[6] = d * c2;
    inverse[7] = d * (m[1][0] * m[0][2] - m[0][0] * m[1][2]);
    inverse[8] = d * (m[0][0] * m[1][1] - m[1][0] * m[0][1]);
}

rbow_status beam_begin(const rbow_beam *beam, rbow_prepared *ready)
{
    if (!beam_is_sound(beam)) return RBOW_OUT_OF_RANGE;
    const double unit = beam->bending_stiffness / beam->length;
    const hold a = hold_of(beam->stiffness_a / unit);
    const hold b = hold_of(end_is(beam->stiffness_b, RBOW_FREE) ? 0 : beam->stiffness_b / unit);
    *ready = (rbow_prepared){
        .beam = *beam,
        .per_unit = 1 / unit,
        .per_length = 1 / beam->length,
        .point_at = beam->point_at / beam->length,
        .bow_at = beam->bow_at / beam->length,
        .hold_a = {a.moment, a.slope},
        .hold_b = {b.moment, b.slope},
    };
    return RBOW_OK;
}

rbow_status beam_load(rbow_prepared *p, double compression)
{
    if (!(compression < p->beam.critical_load)) return RBOW_UNSTABLE;
    p->beam.compression = compression;
    p->load = compression * p->per_unit * p->beam.length;
    p->wave = sqrt(fabs(p->load));
    p->tension = p->load < SHAPES_TENSION_FROM;
    const double off = M_PI * M_PI - p->load;
    p->sine_amplitude = fabs(off) > SHAPES_RESONANCE ? p->load / off * (M_PI * M_PI) : (double)NAN;

    end_rules rules;
    const bool near_resonance = p->beam.bow_shape == RBOW_BOW_SINE && isnan(p->sine_amplitude);
    if (p->tension || near_resonance)
        rules_by_shapes(p, &rules);
    else
        rules_from_a(p, &rules);
    invert(rules.of, p->inverse);
    memcpy(p->end_work, rules.of[SHAPE_UNKNOWNS], sizeof p->end_work);
    return RBOW_OK;
}

rbow_status rbow_beam_prepare(const rbow_beam *beam, rbow_prepared *prepared)
{
    rbow_status status = isfinite(beam->compression) ? beam_begin(beam, prepared) : RBOW_OUT_OF_RANGE;
    if (status == RBOW_OK) status = beam_load(prepared, beam->compression);
    if (status != RBOW_OK)
        *prepared = (rbow_prepared){.beam = {.bending_stiffness = NAN, .length = NAN}, .load = NAN};
    return status;
}

void beam_solve(const rbow_prepared *p, const loads *l, shares *out)
{
    const double length = p->beam.length, per_unit = p->per_unit;
    const pair bow = l->bow * p->per_length, force = l->point_load * (length * per_unit), none = {0, 0};
    pair *share = out->of;

    share[SHAPE_SPREAD] = l->spread_load * (length * length * per_unit);
    share[SHAPE_POINT] = force;
    share[SHAPE_KINK] = share[SHAPE_SINE] = none;
    switch (p->beam.bow_shape) {
        case RBOW_BOW_SINE: share[SHAPE_SINE] = bow; break;
        case RBOW_BOW_ARC: share[SHAPE_SPREAD] += bow * (8 * p->load); break;
        default: share[SHAPE_KINK] = bow * (p->load * beam_kink(p)); break;
    }

    pair rest[3] = {
        l->moment_a * (p->hold_a[0] * per_unit) + l->slope_a * p->hold_a[1],
        l->moment_b * (p->hold_b[0] * per_unit) + l->slope_b * p->hold_b[1],
        none,
    };
    if (beam_is_free(p))
        rest[2] = (p->point_at < 1 ? none : -force) - bow * (p->load * beam_bow_slope_at_b(p));
    for (int shape = SHAPE_UNKNOWNS; shape < SHAPE_COUNT; shape++)
        for (int i = 0; i < 3; i++) rest[i] -= share[shape] * p->end_work[shape - SHAPE_UNKNOWNS][i];
    for (int i = 0; i < 3; i++)
        share[i] = rest[0] * p->inverse[3 * i] + rest[1] * p->inverse[3 * i + 1] + rest[2] * p->inverse[3 * i + 2];
}

rbow_solution solution_in(const shares *s, int plane)
{
    rbow_solution one;
    for (int i = 0; i < SHAPE_COUNT; i++) one.share[i] = s->of[i][plane];
    return one;
}

void rbow_beam_solve(const rbow_prepared *prepared, const rbow_loading *loading, rbow_solution *solution)
{
    const rbow_loading *l = loading;
    const loads both = {
        {l->moment_a}, {l->moment_b}, {l->point_load}, {l->spread_load}, {l->bow}, {l->slope_a}, {l->slope_b},
    };
    shares s;
    beam_solve(prepared, &both, &s);
    *solution = solution_in(&s, UP);
}

void rbow_beam_at(const rbow_prepared *prepared, const rbow_solution *solution, double x, rbow_station *station)
{
    const double length = prepared->beam.length, unit = prepared->beam.bending_stiffness / length;
    const double xi = x / length, side = xi < 1 ? nextafter(xi, 2) : 1;
    const spot at = spot_at(xi, side);
    shapes m, w;
    *station = (rbow_station){0, 0, 0, 0};
    shapes_at(prepared, &at, &m, &w);
    for (int i = 0; i < SHAPE_COUNT; i++) {
        const double share = solution->share[i];
        station->moment += share * m.value[i] * unit;
        station->moment_slope += share * m.slope[i] * unit / length;
        station->deflection += share * w.value[i] * length;
        station->slope += share * w.slope[i];
    }
}
