/* The margin of a tube from its load factors, and the lowest of a run. */
#ifndef RAILBOW_FRAME_MARGIN_H
#define RAILBOW_FRAME_MARGIN_H

#include "frame/solver.h"

typedef struct judged {
    double margin, factor[FRAME_LIMITS], governs_at;
    int governs;
} judged;

/* Ties go to the column, then to yield. A limit that lies beyond the end of the path is the frame's. */
judged rbow_frame_judge(const rbow_frame_run *run, const frame_reached *found, double path_end);

/* The lowest of its limits; what it does not have is not counted. */
double rbow_frame_follower_margin(const rbow_frame_run *run, const frame_follower *f, double path_end);

bool rbow_frame_is_forced(const rbow_frame_solver *s);

#endif
