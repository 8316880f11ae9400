/* GSL's bracketing solvers without their heap: the solver's state lives on the caller's stack. */
#ifndef RAILBOW_ENGINE_ROOT_H
#define RAILBOW_ENGINE_ROOT_H

#include <railbow/status.h>

typedef double (*scalar_function)(double x, void *context);

/* Given:    f     continuous, of opposite sign (or 0) at low and high
 *           low, high   low < high
 *           width       absolute width of the bracket that is narrow enough; 0 = to rounding
 * Returned: root
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE (no change of sign, or f not finite) | RBOW_NO_CONVERGENCE */
rbow_status root_between(scalar_function f, void *context, double low, double high, double width, double *root);

/* Given:    f     continuous; at middle above its values at low and high
 * Returned: top   where f is highest between, to half of the digits
 * Status:   as above */
rbow_status highest_between(scalar_function f, void *context, double low, double middle, double high, double *top);

#endif
