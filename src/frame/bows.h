/* Bows of unknown clock. */
#ifndef RAILBOW_FRAME_BOWS_H
#define RAILBOW_FRAME_BOWS_H

#include "frame/solver.h"

bool rbow_frame_has_open_bow(const rbow_frame_solver *s);

/* The side to which each tube with such a bow moves most off its chord with these bows zero, at load factor 1 or, where there is no
 * such state, at nine tenths of the end of the path; 0 where it does not move. Given: s  with a run, fit and bows. Returned: s->sides */
void rbow_frame_find_sides(rbow_frame_solver *s);

/* Turns these bows. Given: s->sides; side  1 to that side, -1 to the opposite one, 0 no bow */
void rbow_frame_turn_bows(rbow_frame_solver *s, int side);

#endif
