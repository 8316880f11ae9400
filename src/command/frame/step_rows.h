/* A working as rows of the table of steps. */
#ifndef RAILBOW_COMMAND_FRAME_STEP_ROWS_H
#define RAILBOW_COMMAND_FRAME_STEP_ROWS_H

#include "program/rows.h"
#include "working/steps.h"

/* name: of the case or tube. */
void put_step_rows(rows *written, const char *name, const working *w);

#endif
