/* cases on a frame. */
#ifndef RAILBOW_COMMAND_FRAME_CASES_FRAME_H
#define RAILBOW_COMMAND_FRAME_CASES_FRAME_H

#include "program/options.h"

/* Given: folder  among the operands. Returned: the exit status. */
int cases_frame(const options *o, const char *folder);

#endif
