/* The loads of a run on a frame, and what is built into it. */
#ifndef RAILBOW_FRAME_RUN_H
#define RAILBOW_FRAME_RUN_H

#include "frame/solver.h"

/* Given: run  without faults. Status: as rbow_prepare */
rbow_status rbow_frame_set_run(rbow_frame_solver *s, const rbow_frame_run *run);

/* What is built in.
 * Given:    fit         rbow_frame_fit: whether misses and gaps count
 *           bows        share of the unknown bows: 1, -1, or 0 for none of them */
void rbow_frame_set_built_in(rbow_frame_solver *s, int fit, double bows);

/* A tube of a frame and its member, with a point load where `point` says so. Status: as rbow_prepare */
rbow_status rbow_frame_prepare_tube(const rbow_frame *frame, size_t tube, bool point, double point_at, frame_tube *out);

#endif
