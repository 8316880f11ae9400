/* The clocks of bows that are not known. */
#ifndef RAILBOW_FRAME_BOWS_H
#define RAILBOW_FRAME_BOWS_H

#include "frame/path.h"

/* Turns every unknown bow to the side to which its tube moves most off its chord at load factor 1, as built, with these bows
 * zero; to 0 where it does not move. Without a state there, half of the path counts.
 * Given:    s     with a run
 *           step  a first step along the path
 * Returned: whether a bow is unknown */
bool rbow_frame_turn_bows(rbow_frame_solver *s, double step);

#endif
