/* The critical load factor of a frame. */
#ifndef RAILBOW_FRAME_CRITICAL_H
#define RAILBOW_FRAME_CRITICAL_H

#include "frame/solver.h"

/* Axial forces to first order: s->first_order[0] of misses and gaps, [1] of the run's loads. */
void rbow_frame_first_order(rbow_frame_solver *s);

/* As rbow_frame_critical_factor, after rbow_frame_first_order. */
double rbow_frame_critical(rbow_frame_solver *s);

#endif
