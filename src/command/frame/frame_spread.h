/* scatter and index on a frame. */
#ifndef RAILBOW_COMMAND_FRAME_FRAME_SPREAD_H
#define RAILBOW_COMMAND_FRAME_FRAME_SPREAD_H

#include "program/options.h"

/* Given: folder  among the operands. Returned: the exit status. */
int scatter_frame(const options *o, const char *folder);
int index_frame(const options *o, const char *folder);

#endif
