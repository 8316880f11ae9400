/* GSL's bracketing solvers without the heap: the solver's state is on the caller's stack. */
#ifndef RAILBOW_MECHANICS_ROOT_H
#define RAILBOW_MECHANICS_ROOT_H

#include <railbow/status.h>

typedef double (*scalar_function)(double x, void *context);

typedef struct bracket { /* two arguments and the values of the function, which have opposite signs, or one is 0 */
    double low, at_low;
    double high, at_high; /* low < high */
} bracket;

/* Given:    f         continuous
 *           b         its bracket
 *           residual  magnitude of f that counts as 0; 0 = continue to rounding
 * Returned: root
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE (no change of sign, or f not finite) | RBOW_NO_CONVERGENCE */
rbow_status rbow_root_between(scalar_function f, void *context, const bracket *b, double residual, double *root);

#endif
