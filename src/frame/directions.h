/* The directions of a tube. */
#ifndef RAILBOW_FRAME_DIRECTIONS_H
#define RAILBOW_FRAME_DIRECTIONS_H

#include "frame/solver.h"

/* Given:    frame, from  a tube of it
 * Returned: e_x, e_up and e_right of `tube` */
void rbow_frame_directions(const rbow_frame *frame, const rbow_frame_tube *from, frame_tube *tube);

#endif
