/* The path of states from load factor 0. */
#ifndef RAILBOW_FRAME_PATH_H
#define RAILBOW_FRAME_PATH_H

#include "frame/state.h"

/* The state at a load factor, along the path from the nearest known state below it.
 * Given:    s   after rbow_frame_start
 * Returned: s->motion, s->axial, s->balance; false where the path ends before */
bool rbow_frame_reach(rbow_frame_solver *s, double factor);

typedef struct path_end {
    double end;  /* load factor; INFINITY for none below 1e6 */
    double last; /* the last state that was found before it */
} path_end;

/* Given:    s     after rbow_frame_start
 *           step  a first step, > 0
 * Returned: the end of the path, to 1e-7 */
path_end rbow_frame_follow(rbow_frame_solver *s, double step);

#endif
