/* The working of one tube of a frame in one run. */
#ifndef RAILBOW_COMMAND_FRAME_EXPLAIN_FRAME_H
#define RAILBOW_COMMAND_FRAME_EXPLAIN_FRAME_H

#include "program/options.h"

/* Given: o  of explain; its first operand is a folder. Returned: the exit status. */
int explain_frame(const options *o);

#endif
