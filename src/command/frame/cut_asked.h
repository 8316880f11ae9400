/* What the options of cut ask of a frame. */
#ifndef RAILBOW_COMMAND_FRAME_CUT_ASKED_H
#define RAILBOW_COMMAND_FRAME_CUT_ASKED_H

#include "program/frame/frame_build.h"

#include <railbow/frame_cut.h>

typedef struct cut_asked {
    rbow_frame_cut_place *cuts; /* room for o->tube_count */
    size_t cut_count;
    const frame_run_row *run; /* NULL for none */
    bool has_readings;
    rbow_frame_faces readings;
} cut_asked;

/* What the options say without the frame. Returned: false after a message. cut_asked_close either way. */
bool cut_asked_read(cut_asked *a, const options *o);

/* Finds tubes and run by their names. Returned: false after a message for each that is not there, or cannot be cut so. */
bool cut_asked_find(cut_asked *a, const options *o, frame_build *b);
void cut_asked_close(cut_asked *a);

/* Says why there is no answer. */
void cut_asked_refuse(const cut_asked *a, const frame_build *b, rbow_status status, const rbow_frame_cut_note *note);

#endif
