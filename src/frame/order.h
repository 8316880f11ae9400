/* The order of the joints that keeps the stiffness matrix narrow. */
#ifndef RAILBOW_FRAME_ORDER_H
#define RAILBOW_FRAME_ORDER_H

#include <railbow/frame.h>

#include <stdint.h>

/* How many numbers of room the search needs. */
size_t rbow_frame_order_room(const rbow_frame *frame);

/* Reverse Cuthill-McKee.
 * Given:    frame; room
 * Returned: order  the joints, first to last */
void rbow_frame_order(const rbow_frame *frame, uint32_t *room, uint32_t *order);

/* The most places by which the two joints of a tube are apart. Given: order, or NULL for that of the list */
size_t rbow_frame_order_width(const rbow_frame *frame, const uint32_t *order);

#endif
