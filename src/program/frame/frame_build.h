/* A frame put together from its three tables: names become joints and tubes, rows of one name a run. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_BUILD_H
#define RAILBOW_PROGRAM_FRAME_FRAME_BUILD_H

#include "program/frame/frame_parts.h"
#include "study/frame_problem.h"

/* Reads the folder's tables and puts together what can be, after messages on everything that is wrong.
 * Given:    m  materials
 * Returned: false where there is nothing to put together, after a message; b->sound. frame_build_close either way. */
bool frame_build_read(frame_build *b, const char *folder, const options *o, const materials *m);

/* Reads the folder's tables and puts the frame together.
 * Given:    m  materials
 * Returned: false after messages on everything that is wrong with the frame and its runs. frame_build_close either way. */
bool frame_build_open(frame_build *b, const char *folder, const options *o, const materials *m);
void frame_build_close(frame_build *b);

/* The frame as a problem for a study. Returned: false after a message: out of memory. frame_problem_close either way. */
bool frame_build_problem(const frame_build *b, const materials *m, frame_problem *p);

#endif
