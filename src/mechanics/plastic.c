#include "mechanics/plastic.h"

#include "mechanics/root.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_math.h>
#include <math.h>

/* A solid round section of radius r with an elastic core of half-height c: the second moment of the core over c, plus the
 * first moment of the two caps. With sin t = c/r both integrals of the width 2 sqrt(r^2 - y^2) have a closed form:
 *     core  r^4/2 (t - sin(4t)/4)        caps  4/3 (r^2 - c^2)^1.5  */
static double round_modulus(double r, double c)
{
    if (!(r > 0)) return 0;
    if (c >= r) return M_PI / 4 * r * r * r * r / c;
    if (!(c > 0)) return 4.0 / 3 * r * r * r;
    const double t = asin(c / r), rest = (r - c) * (r + c);
    /* t - sin(4t)/4 cancels for a small core; there it equals 8/3 t^3 to the last digit */
    const double strip = t < 1e-3 ? t * t * t * (8.0 / 3 - 32.0 / 15 * t * t) : t - sin(4 * t) / 4;
    return r * r * r * r / 2 * strip / c + 4.0 / 3 * rest * sqrt(rest);
}

static double tube_modulus(const plastic_shape *s, double core)
{
    return round_modulus(s->outer, core) - round_modulus(s->inner, core);
}

plastic_shape rbow_plastic_tube(double od, double bore)
{
    return (plastic_shape){
        .half_height = od / 2, .corner = bore / 2, .modulus = tube_modulus, .outer = od / 2, .inner = bore / 2};
}

typedef struct sought {
    const plastic_shape *shape;
    double modulus;
} sought;

static double excess(double core, void *context)
{
    const sought *s = context;
    return s->shape->modulus(s->shape, core) - s->modulus;
}

rbow_status rbow_plastic_core(const plastic_shape *shape, double modulus, double *core)
{
    sought s = {shape, modulus};
    const bracket b = {0, excess(0, &s), shape->half_height, excess(shape->half_height, &s)};
    *core = NAN;
    if (!(b.at_low >= 0 && b.at_high <= 0)) return RBOW_OUT_OF_RANGE;
    return rbow_root_between(excess, &s, &b, 0, core);
}

/* With curvature k and moment m(k) = F s at a distance s from the pull, the travel is the integral of k s ds.
 * Integration by parts gives (L^2/2) times the integral of 1 - (m(k)/m_root)^2 over k from 0 to the curvature at the
 * root, which has no cancellation. Up to first yield m = m_y k/k_y; beyond it the variable is t = core/half_height =
 * k_y/k, so that the curvature at the root may grow without limit. */
typedef struct spread {
    const plastic_shape *shape;
    double root; /* modulus at the root */
} spread;

static double spread_at(double t, void *context)
{
    const spread *s = context;
    const double share = s->shape->modulus(s->shape, t * s->shape->half_height) / s->root;
    return (1 - share) * (1 + share) / (t * t);
}

enum { INTERVALS = 200 };

/* GSL's adaptive rule for singular ends, with a workspace on the stack. */
static rbow_status integrate(spread *s, double low, double high, double *sum)
{
    double left[INTERVALS], right[INTERVALS], result[INTERVALS], error[INTERVALS], apart, value;
    size_t order[INTERVALS], level[INTERVALS];
    gsl_integration_workspace room = {.limit = INTERVALS, .alist = left, .blist = right, .rlist = result,
                                      .elist = error, .order = order, .level = level};
    gsl_function f = {.function = spread_at, .params = s};
    if (!(low < high)) return RBOW_OK;
    const int status = gsl_integration_qags(&f, low, high, 1e-14, 1e-11, INTERVALS, &room, &value, &apart);
    *sum += value;
    /* it also reports an error if rounding prevents a tolerance that is met well enough */
    return status == GSL_SUCCESS || apart <= 1e-9 * (1 + fabs(value)) ? RBOW_OK : RBOW_NO_CONVERGENCE;
}

rbow_status rbow_plastic_travel(const plastic_shape *shape, double core, double *travel)
{
    spread s = {shape, shape->modulus(shape, core)};
    const double first = shape->modulus(shape, shape->half_height) / s.root;
    const double t = core / shape->half_height, corner = fmax(t, shape->corner / shape->half_height);
    double sum = 1 - first * first / 3;
    rbow_status status = integrate(&s, t, corner, &sum);
    if (status == RBOW_OK) status = integrate(&s, corner, 1, &sum);
    *travel = status == RBOW_OK ? sum / 2 : (double)NAN;
    return status;
}
