/* Clocks: directions across a tube, in rad; 0 up, a quarter to the right, seen from A toward B. */
#ifndef RAILBOW_CLOCK_H
#define RAILBOW_CLOCK_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The two components of a vector. A quarter of a turn in radians is not quite a quarter: a component that only rounding leaves
 * is 0.
 * Given:    size   any unit
 *           clock  rad, finite
 * Returned: components  up and right, in the unit of size */
RBOW_API void rbow_clock_components(double size, double clock, double components[2]);

/* The clock of a vector; a clock just below 0 by rounding is 0, not a full turn.
 * Given:    up, right  its components, any unit
 * Returned: rad, 0 ... 2 pi; NaN for a vector of no size */
RBOW_API double rbow_clock_of(double up, double right);

#ifdef __cplusplus
}
#endif

#endif
