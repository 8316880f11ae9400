/* The states of a frame over the load factor. */
#ifndef RAILBOW_FRAME_STATE_H
#define RAILBOW_FRAME_STATE_H

#include "frame/solver.h"

typedef enum reached_state {
    STATE_GOOD,
    STATE_BEYOND, /* there is a balance, but the frame or one of its tubes has buckled or folded */
    STATE_MISSED  /* no balance was found from this start */
} reached_state;

/* The state at a load factor, next to the known ones.
 * Given:    s, its known states; factor
 * Returned: s->motion, s->axial, s->balance where good */
reached_state rbow_frame_seek(rbow_frame_solver *s, double factor);

/* The same, and keeps it among the known ones where it is good. */
reached_state rbow_frame_seek_and_keep(rbow_frame_solver *s, double factor);

/* The state at load factor 0, the first of a path: what is built in grows from nothing. Returned: whether there is one */
bool rbow_frame_start(rbow_frame_solver *s);

#endif
