/* A column of a frame as the command line names it: of a tube, a joint, or the loads of a run. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_COLUMN_H
#define RAILBOW_PROGRAM_FRAME_FRAME_COLUMN_H

#include "program/column_unit.h"
#include "program/frame/frame_parts.h"
#include "study/frame_target.h"

typedef struct frame_place { /* whose columns are meant */
    const char *what, *name; /* tube, joint, run, and which */
    int table;               /* FRAME_JOINTS ... */
    size_t run, joint, tube; /* SIZE_MAX for none; those of a run: what its rows act on */
} frame_place;

/* From --tube, --joint, --run. Returned: false after a message that begins with the command. */
bool frame_place_find(frame_place *p, frame_build *b, const options *o, const char *command);

typedef struct frame_column {
    const field *field;
    column_unit unit;    /* of bare values on the command line */
    frame_parameter *at; /* its numbers */
    size_t count;
    size_t line;         /* of the first of them, for messages */
    double now;          /* with its default resolved; NaN where the numbers differ */
} frame_column;

/* The number column of that name. Given: option  for messages; p  the frame as given
 * Returned: false after a message. frame_column_close either way. */
bool frame_column_open(frame_column *c, const frame_build *b, const frame_problem *p, const frame_place *place, const char *option,
                       const char *name, size_t length);
void frame_column_close(frame_column *c);

/* The unit of bare values, from the header. Returned: false after a message: it names none. */
bool frame_column_needs_unit(frame_column *c, const frame_build *b, const frame_place *place);

#endif
