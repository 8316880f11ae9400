/* What a long command says of itself while it works, and how it is stopped. */
#ifndef RAILBOW_PROGRAM_PROGRESS_H
#define RAILBOW_PROGRAM_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct progress {
    const char *name; /* of the case, or of the whole work */
    size_t all;       /* samples, or what `what` says */
    const char *what; /* NULL for the samples of a case */
    bool shown;
    const char *units; /* NULL: samples of a case */
} progress;

/* One case begins. Until it ends Ctrl-C asks the work to stop instead of ending the program. */
progress progress_begin(const char *name, size_t all);

/* The same of work that has no cases. what: "sets" */
progress progress_begin_of(const char *name, size_t all, const char *what);

/* Tells on stderr how far the case is and how long it will take, if that is a terminal and the command has worked
 * for over a second. Returned: false once Ctrl-C was pressed. */
bool progress_show(progress *p, size_t done);

/* Takes the line away. */
void progress_end(progress *p);

bool progress_stopped(void);

#endif
