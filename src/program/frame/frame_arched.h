/* Where to weld the joints of a frame, for a run that the command line names. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_ARCHED_H
#define RAILBOW_PROGRAM_FRAME_FRAME_ARCHED_H

#include "program/frame/frame_build.h"

typedef struct frame_arched {
    frame_arch_row *rows; /* of every joint; NULL where no run is named */
} frame_arched;

/* Given:    b  without faults, held; run  its name, NULL for none
 * Returned: false after a message: no such run, no state under it, no places that settle. frame_arched_close either way. */
bool frame_arched_open(frame_arched *a, const frame_build *b, const char *run);
void frame_arched_close(frame_arched *a);

/* The run of that name; NULL after a message that names the nearest, or the runs. */
const frame_run_row *frame_run_named(const frame_build *b, const char *name);

#endif
