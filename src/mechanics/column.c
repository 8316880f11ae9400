#include <railbow/column.h>

#include "mechanics/restraint.h"
#include "mechanics/root.h"
#include "mechanics/stability_functions.h"

#include <stdbool.h>
#include <stddef.h>

#include <gsl/gsl_math.h>

static const struct {
    const char *name;
    double imperfection; /* EN 1993-1-1 table 6.1 */
} curves[RBOW_CURVE_COUNT] = {
    [RBOW_CURVE_JOHNSON] = {"johnson", 0},     [RBOW_CURVE_THREE_HALVES] = {"three-halves", 0},
    [RBOW_CURVE_EULER] = {"euler", 0},         [RBOW_CURVE_AISC] = {"aisc", 0},
    [RBOW_CURVE_EN_A0] = {"en-a0", 0.13},      [RBOW_CURVE_EN_A] = {"en-a", 0.21},
    [RBOW_CURVE_EN_B] = {"en-b", 0.34},        [RBOW_CURVE_EN_C] = {"en-c", 0.49},
    [RBOW_CURVE_EN_D] = {"en-d", 0.76},
};

const char *rbow_curve_name(rbow_curve curve)
{
    return (unsigned)curve < RBOW_CURVE_COUNT ? curves[curve].name : NULL;
}

/* Welded: with equal springs at both ends the tube bows symmetrically, and the stiffness k of a spring satisfies
 * -k = (EI/L) u / tan(u/2). Fixity 2 is u = pi sqrt(2). */
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

static double euler_stress(const rbow_column *c)
{
    const double root = M_PI / c->slenderness;
    return root * root * c->elastic_modulus;
}

static double johnson_stress(const rbow_column *c, double full)
{
    const double euler = euler_stress(c);
    return euler < full / 2 ? euler : full * (1 - full / (4 * euler));
}

/* Fi - C s^1.5 meets Euler's curve at T with the same slope: Fi - C T^1.5 = pi^2 E/T^2 and 1.5 C T^0.5 = 2 pi^2 E/T^3. */
static double three_halves_transition(const rbow_column *c)
{
    return M_PI * sqrt(7 * c->elastic_modulus / (3 * c->wall_reduction * c->column_intercept));
}

static double three_halves_stress(const rbow_column *c, double full)
{
    const double transition = three_halves_transition(c), s = c->slenderness;
    if (s >= transition) return fmin(full, euler_stress(c));
    const double relative = s / transition;
    const double intercept = c->wall_reduction * c->column_intercept;
    return fmin(full, intercept * (1 - 4.0 / 7 * relative * sqrt(relative)));
}

static double aisc_stress(const rbow_column *c, double full)
{
    const double euler = euler_stress(c), ratio = full / euler;
    return ratio <= 2.25 ? pow(0.658, ratio) * full : 0.877 * euler;
}

/* chi = 1/(phi + sqrt(phi^2 - l^2)), with numerator and denominator divided by l^2 = full/euler, so that the stress
 * goes to 0 as the slenderness grows without limit. */
static double en_stress(const rbow_column *c, double full)
{
    const double ratio = euler_stress(c) / full;
    if (ratio >= 25) return full; /* slenderness up to 0.2 */
    const double alpha = curves[c->curve].imperfection;
    const double phi = 0.5 * (ratio + alpha * (sqrt(ratio) - 0.2 * ratio) + 1);
    return full * fmin(1, ratio / (phi + sqrt(phi * phi - ratio)));
}

static bool column_is_sound(const rbow_column *c)
{
    return c->curve > RBOW_CURVE_OF_MATERIAL && c->curve < RBOW_CURVE_COUNT && c->elastic_modulus > 0
        && c->compression_yield > 0 && c->column_intercept > 0 && c->wall_reduction > 0 && c->wall_reduction <= 1
        && c->slenderness > 0;
}

rbow_status rbow_column_stress(const rbow_column *column, double *stress)
{
    *stress = NAN;
    if (!column_is_sound(column)) return RBOW_OUT_OF_RANGE;
    const double full = column->wall_reduction * column->compression_yield;
    switch (column->curve) {
        case RBOW_CURVE_JOHNSON: *stress = johnson_stress(column, full); break;
        case RBOW_CURVE_THREE_HALVES: *stress = three_halves_stress(column, full); break;
        case RBOW_CURVE_EULER: *stress = fmin(full, euler_stress(column)); break;
        case RBOW_CURVE_AISC: *stress = aisc_stress(column, full); break;
        default: *stress = en_stress(column, full); break;
    }
    return RBOW_OK;
}

rbow_status rbow_column_transition(const rbow_column *column, double *slenderness)
{
    *slenderness = NAN;
    if (!column_is_sound(column)) return RBOW_OUT_OF_RANGE;
    const double full = column->wall_reduction * column->compression_yield;
    switch (column->curve) {
        case RBOW_CURVE_JOHNSON: *slenderness = M_PI * sqrt(2 * column->elastic_modulus / full); break;
        case RBOW_CURVE_EULER: *slenderness = M_PI * sqrt(column->elastic_modulus / full); break;
        case RBOW_CURVE_THREE_HALVES: *slenderness = three_halves_transition(column); break;
        default: *slenderness = INFINITY; break;
    }
    return RBOW_OK;
}
