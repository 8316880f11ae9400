/* A frame solved for every run. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_SOLVE_H
#define RAILBOW_PROGRAM_FRAME_FRAME_SOLVE_H

#include "cases/detail/detail_results.h"
#include "program/frame/frame_build.h"
#include "program/wanted.h"

typedef struct frame_solved {
    frame_answers answers;
    detail_answer *details;
    char (*detail_remarks)[DETAIL_REMARKS_ROOM];
    size_t *detailed; /* which details sit on tubes that are judged */
    size_t *judged;  /* the tubes that --case and --part pick, all without them */
    size_t refused;  /* runs without an answer */
} frame_solved;

/* Memory for a solver of the frame, to be freed; NULL where there is none. */
void *frame_room(const rbow_frame *f);

/* Whether something holds the frame. Returned: false after a message that says how it moves. */
bool frame_is_held(const frame_build *b);

/* Says how `what` ("the frame") moves that is not held. */
void frame_say_loose(const frame_build *b, const rbow_frame_loose *loose, const char *what);

/* Checks every tube in every run, runs in parallel.
 * Given:    b  without faults, held; w  open
 * Returned: false after a message: out of memory. frame_solved_close either way. A run without an answer gets a message. */
bool frame_solve(frame_solved *s, const frame_build *b, const wanted *w, int jobs);
/* The same, and one tube is judged. */
bool frame_solve_tube(frame_solved *s, const frame_build *b, size_t tube);
void frame_solved_close(frame_solved *s);

/* ALL_HOLD, SOME_SHORT, or NO_VERDICT where a run has no answer or no tube is judged. */
int frame_status(const frame_solved *s);

#endif
