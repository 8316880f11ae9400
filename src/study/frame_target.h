/* Numbers of a frame that a study varies together, and the frame with such numbers changed. */
#ifndef RAILBOW_STUDY_FRAME_TARGET_H
#define RAILBOW_STUDY_FRAME_TARGET_H

#include "study/frame_problem.h"

typedef struct frame_target { /* numbers that get one value: one of a tube or joint, or one of each of several loads */
    const frame_parameter *at;
    size_t count;
} frame_target;

/* The lowest margin of the frame with a value in each target.
 * Given:    targets, values  `count` of each; most  as in frame_problem_margin
 * Status:   of frame_parameter_set | of frame_problem_margin */
rbow_status frame_try(const frame_problem *p, const frame_target targets[], const double values[], size_t count, double most,
                      frame_lowest *lowest);

#endif
