#include <railbow/column.h>

#include "mechanics/no_result.h"
#include "mechanics/restraint.h"
#include "mechanics/root.h"
#include "mechanics/stability_functions.h"

#include <stdbool.h>
#include <stddef.h>

#include <gsl/gsl_math.h>

/* Welded: with equal springs at both ends the tube bows symmetrically and the spring's moment k v'(0)
 * meets -k = (EI/L) u / tan(u/2); fixity 2 is u = pi sqrt(2). */
rbow_status rbow_end_stiffness(double end, double bending_stiffness, double length, double *stiffness)
{
    *stiffness = NAN;
    if (!(bending_stiffness > 0 && length > 0)) return RBOW_OUT_OF_RANGE;
    if (end_is(end, RBOW_STIFF_WELD)) end = RBOW_FIXED;
    if (end_is(end, RBOW_WELDED) || end_is(end, RBOW_SOFT_WELD)) {
        const double u = M_PI * sqrt(2.0);
        *stiffness = -u / tan(u / 2) * bending_stiffness / length;
        return RBOW_OK;
    }
    if (!(end >= 0)) return RBOW_OUT_OF_RANGE;
    *stiffness = end;
    return RBOW_OK;
}

/* Timoshenko & Gere's equation for a bar with both ends supported laterally and on rotational springs,
 *     u^3 sin u + (a+b) u (sin u - u cos u) + a b (2 - 2 cos u - u sin u) = 0,   a, b = kL/EI,
 * divided by u^4 and written with the Stumpff functions of z = u^2. */
static double held_equation(double z, void *context)
{
    const spring *end = context;
    const stumpff s = stumpff_of(z);
    return end[0].moment * end[1].moment * s.c1
        + (end[0].slope * end[1].moment + end[0].moment * end[1].slope) * (s.c2 - s.c3)
        + end[0].slope * end[1].slope * (s.c3 - 2 * s.c4);
}

/* B is free and A is on a spring: u tan u = a. */
static double free_equation(double z, void *context)
{
    const spring *end = context;
    const stumpff s = stumpff_of(z);
    return end[0].slope * s.c0 - end[0].moment * z * s.c1;
}

/* The lowest root lies between those of pinned and of fixed ends. Near the lower end of either range rounding decides the
 * sign of the equation, so the limits are returned directly. */
static rbow_status lowest_root(const spring end[2], bool free_b, double *z)
{
    spring ends[2] = {end[0], end[1]};
    const double low = free_b ? 0 : M_PI * M_PI, high = free_b ? M_PI * M_PI / 4 : 4 * M_PI * M_PI;
    double (*equation)(double, void *) = free_b ? free_equation : held_equation;
    const bracket b = {low, equation(low, ends), high, equation(high, ends)};
    if (b.at_low > 0 && b.at_high < 0) return rbow_root_between(equation, ends, &b, 0, z);
    *z = b.at_low > 0 ? high : low;
    return RBOW_OK;
}

rbow_status rbow_critical_load(double bending_stiffness, double length, double stiffness_a, double stiffness_b,
                               double *critical_load)
{
    *critical_load = NAN;
    const bool free_b = end_is(stiffness_b, RBOW_FREE);
    if (!(bending_stiffness > 0 && length > 0)) return RBOW_OUT_OF_RANGE;
    if (!(stiffness_a >= 0) || !(free_b ? stiffness_a > 0 : stiffness_b >= 0)) return RBOW_OUT_OF_RANGE;

    const double unit = bending_stiffness / length;
    const spring end[2] = {spring_of(stiffness_a / unit), spring_of(free_b ? 0 : stiffness_b / unit)};
    double z;
    const rbow_status status = lowest_root(end, free_b, &z);
    if (status == RBOW_OK) *critical_load = z * unit / length;
    return status;
}

double rbow_effective_length(double bending_stiffness, double critical_load)
{
    return bending_stiffness > 0 && critical_load > 0 ? M_PI * sqrt(bending_stiffness / critical_load) : (double)NAN;
}

/* ---- the column curves, each under the name of its formula in RBOW_CURVE_LIST ---------------------------- */

/* Given:    full and euler of terms
 * Returned: the other terms of the curve, and its stress */
typedef void curve_formula(const rbow_column *, double imperfection, rbow_column_terms *);

/* Fc (1 - Fc/(4 Fe)), down to Fc/2 */
static void johnson(const rbow_column *c, double imperfection, rbow_column_terms *t)
{
    (void)imperfection;
    t->range = t->euler < t->full / 2 ? RBOW_COLUMN_ELASTIC : RBOW_COLUMN_INELASTIC;
    t->stress = t->range == RBOW_COLUMN_ELASTIC ? t->euler : t->full * (1 - t->full / (4 * t->euler));
    t->transition = M_PI * sqrt(2 * c->elastic_modulus / t->full);
}

/* Fi - C s^1.5, meeting Euler's curve with its slope at T: from Fi - C T^1.5 = pi^2 E/T^2 and
 * 1.5 C T^0.5 = 2 pi^2 E/T^3. */
static void three_halves(const rbow_column *c, double imperfection, rbow_column_terms *t)
{
    (void)imperfection;
    t->intercept = c->wall_reduction * c->column_intercept;
    t->transition = M_PI * sqrt(7 * c->elastic_modulus / (3 * t->intercept));
    const double relative = c->slenderness / t->transition;
    t->range = c->slenderness >= t->transition ? RBOW_COLUMN_ELASTIC : RBOW_COLUMN_INELASTIC;
    const double curve = t->intercept * (1 - 4.0 / 7 * relative * sqrt(relative));
    t->stress = fmin(t->full, t->range == RBOW_COLUMN_ELASTIC ? t->euler : curve);
}

static void euler(const rbow_column *c, double imperfection, rbow_column_terms *t)
{
    (void)imperfection;
    t->range = RBOW_COLUMN_ELASTIC;
    t->stress = fmin(t->full, t->euler);
    t->transition = M_PI * sqrt(c->elastic_modulus / t->full);
}

static void aisc(const rbow_column *c, double imperfection, rbow_column_terms *t)
{
    (void)c;
    (void)imperfection;
    const double ratio = t->full / t->euler;
    t->range = ratio <= 2.25 ? RBOW_COLUMN_INELASTIC : RBOW_COLUMN_ELASTIC;
    t->stress = t->range == RBOW_COLUMN_INELASTIC ? pow(0.658, ratio) * t->full : 0.877 * t->euler;
}

/* chi = 1/(phi + sqrt(phi^2 - l^2)), numerator and denominator over l^2 = full/euler, so that an endlessly slender
 * column carries nothing. */
static void european(const rbow_column *c, double imperfection, rbow_column_terms *t)
{
    (void)c;
    const double ratio = t->euler / t->full;
    const double phi = 0.5 * (ratio + imperfection * (sqrt(ratio) - 0.2 * ratio) + 1);
    t->relative_slenderness = 1 / sqrt(ratio);
    t->phi = phi / ratio;
    t->range = ratio >= 25 ? RBOW_COLUMN_YIELD : RBOW_COLUMN_INELASTIC; /* relative slenderness up to 0.2 */
    t->stress = t->range == RBOW_COLUMN_YIELD ? t->full : t->full * fmin(1, ratio / (phi + sqrt(phi * phi - ratio)));
}

typedef struct curve_entry {
    curve_formula *formula;
    double imperfection;
    const char *name, *source;
} curve_entry;

#define CURVE_ENTRY(value_, formula_, name_, imperfection_, source_) [value_] = {formula_, imperfection_, name_, source_},
static const curve_entry curves[RBOW_CURVE_COUNT] = {RBOW_CURVE_LIST(CURVE_ENTRY)};

const char *rbow_curve_name(rbow_curve curve)
{
    return (unsigned)curve < RBOW_CURVE_COUNT ? curves[curve].name : NULL;
}

const char *rbow_curve_source(rbow_curve curve)
{
    return (unsigned)curve < RBOW_CURVE_COUNT ? curves[curve].source : NULL;
}

static bool column_is_sound(const rbow_column *c)
{
    return c->curve > RBOW_CURVE_OF_MATERIAL && c->curve < RBOW_CURVE_COUNT && c->elastic_modulus > 0
        && c->compression_yield > 0 && c->column_intercept > 0 && c->wall_reduction > 0 && c->wall_reduction <= 1
        && c->slenderness > 0;
}

RESULT_WITH_WHOLE(rbow_column_terms, range, 1);

rbow_status rbow_column_terms_of(const rbow_column *c, rbow_column_terms *terms)
{
    NO_RESULT_BEFORE(rbow_column_terms, terms, range);
    if (!column_is_sound(c)) return RBOW_OUT_OF_RANGE;
    const double root = M_PI / c->slenderness;
    terms->full = c->wall_reduction * c->compression_yield;
    terms->euler = root * root * c->elastic_modulus;
    terms->transition = INFINITY;
    curves[c->curve].formula(c, curves[c->curve].imperfection, terms);
    return RBOW_OK;
}

rbow_status rbow_column_stress(const rbow_column *column, double *stress)
{
    rbow_column_terms terms;
    const rbow_status status = rbow_column_terms_of(column, &terms);
    *stress = terms.stress;
    return status;
}

rbow_status rbow_column_transition(const rbow_column *column, double *slenderness)
{
    rbow_column_terms terms;
    const rbow_status status = rbow_column_terms_of(column, &terms);
    *slenderness = terms.transition;
    return status;
}
