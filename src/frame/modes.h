/* Modes of the tangent. */
#ifndef RAILBOW_FRAME_MODES_H
#define RAILBOW_FRAME_MODES_H

#include "frame/solver.h"

/* The negative mode that is closest to 0, as the share of the stiffness without axial forces that the tangent has left; NaN for none. Two
 * that become negative at once do not show in the sign of the determinant.
 * Given: s  a state, its tangent decomposed; the rows of the mixed steps are overwritten
 * May miss: negative modes behind three others that are closer to 0 */
double rbow_frame_negative_mode(rbow_frame_solver *s);

#endif
