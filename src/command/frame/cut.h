/* cut FOLDER: how the faces of cut tubes part, and what readings of a cut say. */
#ifndef RAILBOW_COMMAND_FRAME_CUT_H
#define RAILBOW_COMMAND_FRAME_CUT_H

#include "program/options.h"

/* Returned: exit status */
int command_cut(const options *o);

#endif
