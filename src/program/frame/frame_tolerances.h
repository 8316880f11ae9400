/* The tolerances of a frame: every joint or tube that a row means gets its own. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_TOLERANCES_H
#define RAILBOW_PROGRAM_FRAME_FRAME_TOLERANCES_H

#include "program/frame/frame_build.h"
#include "program/tolerances.h"
#include "study/frame_scatter.h"

typedef struct frame_tolerances {
    tolerances read;
    frame_tolerance *list;
    size_t count;
    size_t clocks; /* of them: clocks of misses, which nobody gave: drawn evenly from the whole circle */
    size_t room;
} frame_tolerances;

/* The file, without the frame. Returned: false after messages. frame_tolerances_close whatever was opened. */
bool frame_tolerances_open(frame_tolerances *t, const options *o);
void frame_tolerances_close(frame_tolerances *t);

/* Given: t open. Returned: false after messages on rows that mean nothing, or the same number twice, or one that has no value. */
bool frame_tolerances_apply(frame_tolerances *t, const frame_build *b, const frame_problem *p);

/* What varies: the column, and the name of its joint or tube. */
const char *frame_tolerance_column(const frame_tolerance *t);
const char *frame_tolerance_name(const frame_tolerance *t, const frame_model *m);

#endif
