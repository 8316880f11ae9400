/* One tube along a panel of a path: its axial force, torque and end slopes are interpolated between the states at the nodes. */
#ifndef RAILBOW_FRAME_TUBE_SEARCH_H
#define RAILBOW_FRAME_TUBE_SEARCH_H

#include "frame/panel.h"

/* A tube in a state, held against its limits.
 * Given:    unknowns, factor; places as in rbow_evaluate */
void rbow_frame_evaluate(const rbow_frame_solver *s, const frame_tube *tube, const double *unknowns, double factor, bool places,
                         evaluation *out);

/* What acts at a place of a tube in such a state. Given: e  that stands; at  in from A */
rbow_section_forces rbow_frame_forces_of(const frame_tube *tube, const evaluation *e, double at, place_side side);

/* How far the nodes in between lie from the polynomial through every other one, in utilisation.
 * Given: s  with the states of the panel's nodes in its first rows; index  of the tube, or tube_count more than that of a follower */
double rbow_frame_roughness(rbow_frame_solver *s, size_t index, const panel *p);

/* Searches the limits that are not yet reached along the panel.
 * Given:    asked  largest load factor required
 * Returned: what the tube, or the follower, has reached
 * Status:   RBOW_OK | RBOW_STRESS_OVERFLOW
 * May miss: a rise over 1 and back within 1/200 of the load factor required or 1/400 of the load factor, whose curvature nine samples
 *           along the panel do not show */
rbow_status rbow_frame_search_tube(rbow_frame_solver *s, size_t index, const panel *p, double asked);

#endif
