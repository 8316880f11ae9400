/* The studies of a frame's folder. Each returns the exit status. */
#ifndef RAILBOW_COMMAND_FRAME_STUDIES_H
#define RAILBOW_COMMAND_FRAME_STUDIES_H

#include "program/options.h"

int compare_frame(const options *o, const char *folder);
int sweep_frame(const options *o, const char *folder);
int limit_frame(const options *o, const char *folder);

/* The first operand that is a folder, or NULL. */
const char *frame_operand(const options *o);

/* Whether no option names a tube, joint or run, which files of load cases do not have. Returned: false after a message. */
bool is_of_cases(const char *command, const options *o);

#endif
