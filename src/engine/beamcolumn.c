#include "engine/beam.h"

#include "engine/ends.h"
#include "engine/shapes.h"

#include <gsl/gsl_math.h>

static bool beam_is_sound(const rbow_beam *b)
{
    const bool free_b = end_is(b->stiffness_b, RBOW_FREE);
    return b->bending_stiffness > 0 && b->length > 0 && b->critical_load > 0
        && b->stiffness_a >= 0 && (free_b ? b->stiffness_a > 0 : b->stiffness_b >= 0) && b->point_at >= 0
        && b->point_at <= b->length && b->bow_at > 0 && b->bow_at < b->length;
}

typedef struct end_shapes { /* moment and movement at an end */
    shapes m, w;
} end_shapes;

/* The three end rules, as far as they act on one shape:
 *     A   m + r w' = m_a + r alpha          B   m - r w' = m_b + r beta
 *     B held sideways   w = 0               B free   -m' + z (w' + y0') = -F(L)  */
static void end_rules(const rbow_prepared *p, const end_shapes *a, const end_shapes *b, int shape, double rule[3])
{
    rule[0] = p->hold_a[0] * a->m.value[shape] + p->hold_a[1] * a->w.slope[shape];
    rule[1] = p->hold_b[0] * b->m.value[shape] - p->hold_b[1] * b->w.slope[shape];
    rule[2] = end_is(p->beam.stiffness_b, RBOW_FREE) ? -b->m.slope[shape] + p->load * b->w.slope[shape]
                                                     : b->w.value[shape];
}

/* Three equations for every solve of a tube: by cofactors, since they are solved many times a member. */
static void invert(double m[3][3], double inverse[9])
{
    const double c0 = m[1][1] * m[2][2] - m[1][2] * m[2][1];
    const double c1 = m[1][2] * m[2][0] - m[1][0] * m[2][2];
    const double c2 = m[1][0] * m[2][1] - m[1][1] * m[2][0];
    const double d = 1 / (m[0][0] * c0 + m[0][1] * c1 + m[0][2] * c2);
    inverse[0] = d * c0;
    inverse[1] = d * (m[0][2] * m[2][1] - m[0][1] * m[2][2]);
    inverse[2] = d * (m[0][1] * m[1][2] - m[0][2] * m[1][1]);
    inverse[3] = d * c1;
    inverse[4] = d * (m[0][0] * m[2][2] - m[0][2] * m[2][0]);
    inverse[5] = d * (m[0][2] * m[1][0] - m[0][0] * m[1][2]);
    inverse[6] = d * c2;
    inverse[7] = d * (m[0][1] * m[2][0] - m[0][0] * m[2][1]);
    inverse[8] = d * (m[0][0] * m[1][1] - m[0][1] * m[1][0]);
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

    end_shapes a, b;
    double rules[3][3], column[3];
    static const spot at_a = {0, 0, 0, 1}, at_b = {1, 1, 1, 0};
    shapes_at(p, &at_a, &a.m, &a.w);
    shapes_at(p, &at_b, &b.m, &b.w);
    for (int shape = 0; shape < SHAPE_UNKNOWNS; shape++) {
        end_rules(p, &a, &b, shape, column);
        for (int i = 0; i < 3; i++) rules[i][shape] = column[i];
    }
    invert(rules, p->inverse);
    for (int shape = SHAPE_UNKNOWNS; shape < SHAPE_COUNT; shape++)
        end_rules(p, &a, &b, shape, p->end_work[shape - SHAPE_UNKNOWNS]);
    return RBOW_OK;
}

rbow_status rbow_beam_prepare(const rbow_beam *beam, rbow_prepared *prepared)
{
    const rbow_status status = isfinite(beam->compression) ? beam_begin(beam, prepared) : RBOW_OUT_OF_RANGE;
    return status == RBOW_OK ? beam_load(prepared, beam->compression) : status;
}

/* The slope at B of a bow 1 high, for the push that keeps its direction on a free end. */
static double bow_slope_at_b(const rbow_prepared *p)
{
    switch (p->beam.bow_shape) {
        case RBOW_BOW_SINE: return -M_PI;
        case RBOW_BOW_ARC: return -4;
        default: return -1 / (1 - p->bow_at);
    }
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
        default: share[SHAPE_KINK] = bow * (p->load * (1 / p->bow_at + 1 / (1 - p->bow_at))); break;
    }

    pair rest[3] = {
        l->moment_a * (p->hold_a[0] * per_unit) + l->slope_a * p->hold_a[1],
        l->moment_b * (p->hold_b[0] * per_unit) + l->slope_b * p->hold_b[1],
        none,
    };
    if (end_is(p->beam.stiffness_b, RBOW_FREE))
        rest[2] = (p->point_at < 1 ? none : -force) - bow * (p->load * bow_slope_at_b(p));
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
