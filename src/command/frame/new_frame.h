/* new on a frame. */
#ifndef RAILBOW_COMMAND_FRAME_NEW_FRAME_H
#define RAILBOW_COMMAND_FRAME_NEW_FRAME_H

#include "program/options.h"

/* Writes the three tables of a small frame in a folder, which is made where it is not there. Returned: the exit status. */
int new_frame(const options *o, const char *folder);

#endif
