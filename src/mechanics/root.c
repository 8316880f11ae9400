#include "mechanics/root.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <stddef.h>

enum { STATE_ROOM = 256, STEPS_MOST = 200 };

typedef union state_room {
    char bytes[STATE_ROOM];
    max_align_t aligned;
} state_room;

/* The function with its context, and the argument at which its value was closest to 0. */
typedef struct watched {
    scalar_function f;
    void *context;
    const bracket *known;
    double best, at_best;
} watched;

static double watch(double x, void *context)
{
    watched *w = context;
    if (x <= w->known->low) return w->known->at_low;
    if (x >= w->known->high) return w->known->at_high;
    const double value = w->f(x, w->context);
    if (fabs(value) < w->at_best) {
        w->best = x;
        w->at_best = fabs(value);
    }
    return value;
}

rbow_status rbow_root_between(scalar_function f, void *context, const bracket *b, double residual, double *root)
{
    state_room room;
    watched w = {f, context, b, NAN, INFINITY};
    gsl_function function = {.function = watch, .params = &w};
    gsl_root_fsolver solver = {.type = gsl_root_fsolver_brent, .state = &room};

    *root = NAN;
    if (solver.type->size > sizeof room || !(b->low < b->high)) return RBOW_OUT_OF_RANGE;
    if (!(b->at_low * b->at_high <= 0)) return RBOW_OUT_OF_RANGE;
    if (gsl_root_fsolver_set(&solver, &function, b->low, b->high) != GSL_SUCCESS) return RBOW_OUT_OF_RANGE;

    for (int i = 0; i < STEPS_MOST; i++) {
        if (gsl_root_fsolver_iterate(&solver) != GSL_SUCCESS) return RBOW_NO_CONVERGENCE;
        *root = w.at_best <= residual ? w.best : gsl_root_fsolver_root(&solver);
        const double left = gsl_root_fsolver_x_lower(&solver), right = gsl_root_fsolver_x_upper(&solver);
        if (w.at_best <= residual || gsl_root_test_interval(left, right, 0, 2e-15) == GSL_SUCCESS) return RBOW_OK;
    }
    *root = NAN;
    return RBOW_NO_CONVERGENCE;
}
