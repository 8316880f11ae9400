/* From states and limits of a frame to its results. */
#ifndef RAILBOW_FRAME_RESULTS_H
#define RAILBOW_FRAME_RESULTS_H

#include "frame/path.h"

/* Every number NaN, every verdict short. */
void rbow_frame_no_results(const rbow_frame *frame, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints,
                           rbow_frame_run_result *whole);

/* What does not depend on the state. */
void rbow_frame_tell_tube(const frame_tube *tube, const rbow_frame_tube *from, rbow_frame_tube_result *r);

/* The state s->motion at load factors 0 and 1: of every tube, and of every joint (may be NULL). */
void rbow_frame_tell_rest(const rbow_frame_solver *s, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints);
void rbow_frame_tell_loaded(const rbow_frame_solver *s, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints);

typedef struct frame_margin {
    double margin;
    int governs; /* rbow_frame_governs */
} frame_margin;

frame_margin rbow_frame_margin_of(const rbow_frame_run *run, const tube_limits *limits);

/* Given: tubes, joints  results of all, but for that of the whole frame; joints may be NULL */
void rbow_frame_tell_whole(const rbow_frame *frame, const rbow_frame_tube_result *tubes, const rbow_frame_joint_result *joints,
                           rbow_frame_run_result *whole);

#endif
