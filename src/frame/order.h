/* The order of the joints that keeps the stiffness matrix narrow. */
#ifndef RAILBOW_FRAME_ORDER_H
#define RAILBOW_FRAME_ORDER_H

#include <railbow/frame.h>

/* Reverse Cuthill-McKee.
 * Given:    frame
 *           room   4 joint_count + 1 + 2 tube_count numbers
 * Returned: order  the joints, first to last */
void rbow_frame_order(const rbow_frame *frame, size_t *room, size_t *order);

#endif
